import { mean } from "d3-array";
import { evidenceStep } from "../metrology/evidence.js";
import { Absent, Quantity } from "../metrology/quantity.js";
import type { Measured } from "../metrology/quantity.js";
import { divisorOf } from "../metrology/source.js";
import type { Component, Source } from "../metrology/source.js";
import type { LatencyContext } from "./context.js";
import { sessionPath } from "./context.js";
import { standardDeviation } from "./kept-mean.js";
import type { ObservedPress } from "./observed-press.js";
import type { ReaderOffset } from "./reader-offset.js";
import { readerComponents } from "./reader-offset.js";
import { readRigTerm } from "./rig-term.js";

/** Marks that must be read before the film's own speed is used. */
const leastMarks = 3;

export interface PlungerSpeed {
  readonly speed: Measured<"mm/s">;
  /** As a clause: "the rig's speed check". */
  readonly basis: string;
  readonly warnings: readonly string[];
}

/**
 * The plunger's mean speed over the pre-travel, under load: from the mark that film shows passing a known position, where
 * three presses or more have it; else the rig's calibrated speed with its acceleration term.
 *
 * By the mark, v = position / mean time from contact to mark. The mark is set at the pre-travel unless the context says
 * otherwise; its position is then a setting without uncertainty, since the pre-travel's own stays in the travel term.
 * The reader's offset at contact is the same source as in the film time, so that it cancels in the latency.
 *
 * By the calibration, v = speed / (1 + a), with a the share of the travel time that acceleration adds.
 */
export function plungerSpeed(
  presses: readonly ObservedPress[],
  preTravel: Quantity<"mm">,
  offset: ReaderOffset,
  context: LatencyContext,
): PlungerSpeed {
  const marked = presses.filter((press) => press.markMs !== null && press.markMs > 0);
  const check = speedCheck(context);
  if (marked.length < leastMarks) {
    const few = marked.length > 0 ? [`the plunger's mark is read in ${marked.length} presses only: not used`] : [];
    return { ...check, warnings: [...few, ...check.warnings] };
  }
  const speed = speedByMark(marked, preTravel, offset, context);
  const warnings = nominalWarning(speed, context, "the film's mark gives");
  if (!check.speed.absent) {
    const apart = Math.abs(speed.value - check.speed.value);
    if (apart > 2 * Math.hypot(speed.u, check.speed.u)) {
      warnings.push(
        `the film's mark gives a plunger speed of ${speed.value.toFixed(1)} mm/s, ` +
          `the rig's calibration ${check.speed.value.toFixed(1)} mm/s`,
      );
    }
  }
  return { speed, basis: `the plunger's speed by its mark on film (${marked.length} presses)`, warnings };
}

function speedByMark(
  marked: readonly ObservedPress[],
  preTravel: Quantity<"mm">,
  offset: ReaderOffset,
  context: LatencyContext,
): Quantity<"mm/s"> {
  const positionMm = context.markPosition?.value ?? preTravel.value;
  if (!(positionMm > 0)) throw new RangeError(`the mark's position is ${positionMm} mm; it must be above 0`);
  const clock = readRigTerm(context, "frameClock");
  const times = marked.map((press) => press.markMs! * (clock?.value ?? 1));
  const n = times.length;
  const timeMs = mean(times)!;
  const value = (1000 * positionMm) / timeMs;
  const scatter = standardDeviation(times);
  const frames = Math.sqrt(mean(marked, (press) => press.stepMs ** 2)!) / divisorOf("triangular");
  const observed = scatter >= frames;
  const names = [...new Set(marked.map((press) => `${press.connection}/${press.key}`))].join("+");
  const source: Source = {
    id: `${sessionPath(context)}/marks/${names}`,
    label: "Scatter of the plunger's mark on film",
    type: observed ? "A" : "B",
    distribution: observed ? "t" : "triangular",
    u: Math.max(scatter, frames) / Math.sqrt(n),
    symbol: "ms",
    dof: observed ? n - 1 : Infinity,
  };
  const inTime: Component[] = [{ source, contribution: source.u }, ...readerComponents(offset, marked, "mark")];
  if (clock !== null && clock.value !== 0) {
    inTime.push({ source: clock.source, contribution: (timeMs / clock.value) * clock.source.u });
  }
  const components = inTime.map((c) => ({ source: c.source, contribution: (-value / timeMs) * c.contribution }));
  const inputs = [preTravel.evidence, ...marked.map((press) => press.evidence)];
  return new Quantity(value, "mm/s", components, evidenceStep("plunger speed by its mark on film", inputs));
}

function speedCheck(context: LatencyContext): PlungerSpeed {
  const speed = readRigTerm(context, "plungerSpeed");
  const basis = "the rig's speed check";
  if (speed === null || !(speed.value > 0)) {
    const reason = `neither marks on film nor the calibration of rig ${context.rig.id} give the plunger's speed`;
    return { speed: new Absent("mm/s", reason), basis, warnings: [] };
  }
  const acceleration = readRigTerm(context, "plungerAcceleration");
  const slower = 1 + (acceleration?.value ?? 0);
  if (!(slower > 0))
    throw new RangeError(`the plunger's acceleration term is ${acceleration?.value}; it must exceed -1`);
  const value = speed.value / slower;
  const components: Component[] = [{ source: speed.source, contribution: speed.source.u / slower }];
  if (acceleration !== null) {
    components.push({ source: acceleration.source, contribution: (-value / slower) * acceleration.source.u });
  }
  const found = new Quantity(value, "mm/s", components, evidenceStep("plunger speed by calibration", [speed.evidence]));
  const warnings = nominalWarning(found, context, "the rig's calibration gives");
  if (acceleration === null) {
    warnings.push(`the calibration of rig ${context.rig.id} states no acceleration term: it is not in the budget`);
  }
  return { speed: found, basis, warnings };
}

function nominalWarning(speed: Quantity<"mm/s">, context: LatencyContext, words: string): string[] {
  const nominal = context.nominalPlungerSpeed?.value;
  if (nominal === undefined) return [];
  const apart = Math.abs(nominal - speed.value);
  if (!(apart > 2 * speed.u && apart > 0.01 * speed.value)) return [];
  return [`the session states a plunger speed of ${nominal} mm/s; ${words} ${speed.value.toFixed(1)} mm/s`];
}
