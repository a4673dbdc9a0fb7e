import type { EvidenceRows } from "../metrology/evidence.js";
import type { Source } from "../metrology/source.js";
import type { LatencyContext } from "./context.js";

/** A term of the rig's calibration as a correction with its source, shared by everything measured under it. */
export interface RigTerm {
  readonly value: number;
  readonly source: Source;
  readonly evidence: EvidenceRows;
}

const symbols = {
  frameClock: "1",
  plungerSpeed: "mm/s",
  plungerAcceleration: "1",
  detectorOffset: "ms",
  inputPath: "ms",
  baselineInput: "ms",
} as const;

const labels = {
  frameClock: "Clock of the camera or timer",
  plungerSpeed: "Plunger speed over the pre-travel",
  plungerAcceleration: "Plunger acceleration over the pre-travel",
  detectorOffset: "Baseline detector against film",
  inputPath: "Input path of the baseline device against the keyboard's",
  baselineInput: "Input part of the baseline device (declared)",
} as const;

export type RigTermName = keyof typeof symbols;

/**
 * Reads one calibration term; null where the calibration in force does not state it.
 *
 * The source's id holds rig and calibration date: two units measured under one calibration share it, so that it cancels
 * in their difference; across calibrations it does not.
 * @throws RangeError for a term in another unit of measure, a value that is not finite or u below 0
 */
export function readRigTerm(context: LatencyContext, name: RigTermName): RigTerm | null {
  const { id, calibration } = context.rig;
  const term = calibration?.terms[name];
  if (calibration === null || term === undefined) return null;
  const symbol = symbols[name];
  for (const stated of [term.value, term.u]) {
    if (stated.symbol !== symbol) {
      throw new RangeError(`calibration term ${name} of rig ${id} is in ${stated.symbol}; it must be in ${symbol}`);
    }
  }
  const value = term.value.value;
  const u = term.u.value;
  if (!Number.isFinite(value) || !(u >= 0 && Number.isFinite(u))) {
    throw new RangeError(`calibration term ${name} of rig ${id} is ${value} with u = ${u}; u must be at least 0`);
  }
  return {
    value,
    source: {
      id: `rig/${id}/${calibration.date}/${name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`,
      label: labels[name],
      type: "B",
      distribution: term.distribution,
      u,
      symbol,
      dof: Infinity,
    },
    evidence: calibration.evidence,
  };
}
