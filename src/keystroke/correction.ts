import type { Evidence } from "../metrology/evidence.js";
import type { Source } from "../metrology/source.js";
import type { Stroke } from "../records/readings.js";
import type { ReductionContext } from "./reduction-context.js";

/** A stroke after the rig's corrections: rows in file order, mm and cN. */
export interface CorrectedStroke {
  readonly key: string;
  readonly cycle: number;
  readonly stroke: "press" | "release";
  readonly xMm: Float64Array;
  readonly forceCn: Float64Array;
  readonly contact: Uint8Array | null;
  readonly displacementStepMm: number;
  readonly forceStepCn: number;
  readonly evidence: Evidence;
}

/** One term of the force tester's calibration: its value as a correction, and the source of its uncertainty. */
interface Term {
  readonly value: number;
  readonly source: Source | null;
}

/** The corrections of a force tester: force = span x reading + zero; displacement = scale x reading - compliance x force. */
export interface TesterTerms {
  readonly forceSpan: Term;
  readonly forceZero: Term;
  readonly displacementScale: Term;
  readonly compliance: Term;
  /** Lines of rig.yaml; empty without calibration. */
  readonly evidence: readonly Evidence[];
}

const described = {
  forceSpan: { symbol: "1", neutral: 1, label: "Span of the force tester" },
  forceZero: { symbol: "cN", neutral: 0, label: "Zero of the force tester" },
  displacementScale: { symbol: "1", neutral: 1, label: "Displacement scale of the force tester" },
  compliance: { symbol: "mm/cN", neutral: 0, label: "Compliance of the force tester" },
} as const;

/**
 * Reads the corrections from the calibration in force. Each is optional: a term that is not stated corrects nothing and
 * adds nothing to the budget. `displacementZero` cancels in every characteristic, as all positions count from touch.
 *
 * Ids of sources hold rig and calibration date, so that two sessions under one calibration share them.
 * @throws RangeError for a term in another unit of measure, not finite, with u below 0, or a span or scale not above 0
 */
export function testerTerms(rig: ReductionContext["rig"]): TesterTerms {
  const read = (name: keyof typeof described): Term => {
    const { symbol, neutral, label } = described[name];
    const term = rig.calibration?.terms[name];
    if (rig.calibration === null || term === undefined) return { value: neutral, source: null };
    for (const stated of [term.value, term.u]) {
      if (stated.symbol !== symbol) {
        throw new RangeError(
          `calibration term ${name} of rig ${rig.id} is in ${stated.symbol}; it must be in ${symbol}`,
        );
      }
    }
    const value = term.value.value;
    const u = term.u.value;
    if (!Number.isFinite(value) || !(u >= 0 && Number.isFinite(u)) || (neutral === 1 && !(value > 0))) {
      throw new RangeError(`calibration term ${name} of rig ${rig.id} is ${value} with u = ${u}, which cannot be used`);
    }
    const id = `rig/${rig.id}/${rig.calibration.date}/${name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`;
    return { value, source: { id, label, type: "B", distribution: term.distribution, u, symbol, dof: Infinity } };
  };
  return {
    forceSpan: read("forceSpan"),
    forceZero: read("forceZero"),
    displacementScale: read("displacementScale"),
    compliance: read("compliance"),
    evidence: rig.calibration === null ? [] : [rig.calibration.evidence],
  };
}

/**
 * Applies the corrections to every row of a stroke.
 * @throws RangeError where the arrays differ in length or hold a number that is not finite, with key, cycle and row
 */
export function correctStroke(stroke: Stroke, terms: TesterTerms): CorrectedStroke {
  const { displacementMm, forceCn, contact } = stroke;
  const rows = displacementMm.length;
  const name = `${stroke.stroke} of ${stroke.key}, cycle ${stroke.cycle}`;
  if (forceCn.length !== rows || (contact !== null && contact.length !== rows)) {
    throw new RangeError(`${name}: ${rows} displacements but ${forceCn.length} forces or another number of contacts`);
  }
  const corrected = new Float64Array(rows);
  const forces = new Float64Array(rows);
  for (let i = 0; i < rows; i++) {
    const force = terms.forceSpan.value * forceCn[i]! + terms.forceZero.value;
    const x = terms.displacementScale.value * displacementMm[i]! - terms.compliance.value * force;
    if (!Number.isFinite(force) || !Number.isFinite(x)) {
      throw new RangeError(`${name}: row ${i + 1} of the stroke is (${displacementMm[i]} mm, ${forceCn[i]} cN)`);
    }
    corrected[i] = x;
    forces[i] = force;
  }
  return {
    key: stroke.key,
    cycle: stroke.cycle,
    stroke: stroke.stroke,
    xMm: corrected,
    forceCn: forces,
    contact,
    displacementStepMm: stepOf(stroke.displacementStepMm, displacementMm),
    forceStepCn: stepOf(stroke.forceStepCn, forceCn),
    evidence: stroke.evidence,
  };
}

/** The recorded step; where it is not known, the smallest difference of neighbouring rows that is not 0. */
function stepOf(stated: number, readings: Float64Array): number {
  if (stated > 0 && Number.isFinite(stated)) return stated;
  let smallest = Infinity;
  for (let i = 1; i < readings.length; i++) {
    const step = Math.abs(readings[i]! - readings[i - 1]!);
    if (step > 0 && step < smallest) smallest = step;
  }
  return Number.isFinite(smallest) ? smallest : 0;
}
