import type { KeystrokeMethod } from "../../src/records/archive.js";
import type { CycleVariation } from "./cycle-variation.js";
import { systematicCycle } from "./cycle-variation.js";
import { keyCurve } from "./key-curve.js";
import type { KeyShape } from "./key-shape.js";
import type { CurveTruth } from "./truth.js";
import { definitionOf, meanTruth, truthOf } from "./truth.js";

/** Truth of one key under a method: the mean of its used cycles without their scatter. */
export function keyTruth(shape: KeyShape, method: KeystrokeMethod, variation: CycleVariation): CurveTruth {
  const cycles = variation.firstCycleCn === 0 ? [1] : method.cyclesUsed;
  const definition = definitionOf(method);
  return meanTruth(cycles.map((cycle) => truthOf(keyCurve(systematicCycle(shape, cycle, variation)), definition)));
}
