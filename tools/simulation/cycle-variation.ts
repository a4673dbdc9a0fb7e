import type { KeyShape } from "./key-shape.js";
import type { Random } from "./random.js";
import { shifted } from "./unit-truth.js";

/** What differs between cycles of one key: standard deviations, and the trend of the first cycle. */
export interface CycleVariation {
  readonly forceCn: number;
  readonly makeMm: number;
  readonly breakMm: number;
  readonly bottomMm: number;
  /** Force that the first recorded cycle has more than the later ones; halves with each cycle. */
  readonly firstCycleCn: number;
}

export const cycleVariation: CycleVariation = {
  forceCn: 0.25,
  makeMm: 0.004,
  breakMm: 0.005,
  bottomMm: 0.003,
  firstCycleCn: 0.3,
};

/** The part of a cycle that is no scatter: belongs to the truth of that cycle. */
export function systematicCycle(shape: KeyShape, cycle: number, variation: CycleVariation): KeyShape {
  return shifted(shape, { forceCn: variation.firstCycleCn * 2 ** (1 - cycle) });
}

/** One cycle as it happens: the systematic part and a draw of the scatter. */
export function drawCycle(shape: KeyShape, cycle: number, variation: CycleVariation, random: Random): KeyShape {
  const base = systematicCycle(shape, cycle, variation);
  return {
    ...base,
    preloadCn: base.preloadCn + variation.forceCn * random.normal(),
    makeMm: base.makeMm + variation.makeMm * random.normal(),
    breakMm: base.breakMm + variation.breakMm * random.normal(),
    bottomMm: base.bottomMm + variation.bottomMm * random.normal(),
  };
}
