import { coverageFactor } from "../metrology/index.js";
import { checkOptions, checkPositive, checkWhole } from "../statistics/numeric/guards.js";
import { meanUncertaintyKernel } from "../statistics/variance/planning.js";

/** What is known before a session of the scatter of one characteristic, in its unit of measure. */
export interface MeanScatter {
  /** Sd between the true values of the keys. */
  readonly betweenSd: number;
  /** Sd of one cycle of one key. */
  readonly repeatSd: number;
  /** Standard uncertainty that no number of keys or cycles lowers: calibration, mounting, operator. */
  readonly floorU: number;
  /** N, the keys whose mean is meant. */
  readonly population: number;
}

/** A number of keys and cycles, and the expanded uncertainty (95 %) that the mean is expected to have. */
export interface MeanPlan {
  readonly keys: number;
  readonly cycles: number;
  readonly U: number;
}

/**
 * Expanded uncertainty (95 %) expected of the mean over all N keys from n keys of c cycles: U = k u, with u as of
 * `meanUncertaintyKernel` and k of Student's t for the effective degrees of freedom, since a session estimates the scatter of
 * its keys from n - 1 of them. The floor counts as known. One key of several leaves no degree of freedom: U is infinite.
 *
 * @param plan keys from 1 to N, cycles from 1
 * @throws RangeError on sds below 0 and on numbers that are not whole
 * Source: JCGM 100:2008, G.4.1 (effective degrees of freedom) and G.3.3 (k from t).
 */
export function meanPlan(scatter: MeanScatter, keys: number, cycles: number): MeanPlan {
  const { betweenSd, repeatSd, floorU, population } = scatter;
  const u = meanUncertaintyKernel({ betweenSd, repeatSd, sharedU: floorU, population }, keys, cycles);
  const ofKeys = ((1 - keys / population) * (betweenSd ** 2 + repeatSd ** 2 / cycles)) / keys;
  if (ofKeys > 0 && keys < 2) return { keys, cycles, U: Infinity };
  const dof = ofKeys > 0 ? (u ** 4 * (keys - 1)) / ofKeys ** 2 : Infinity;
  return { keys, cycles, U: coverageFactor(dof) * u };
}

/** U of the mean over all keys of a unit with any number of cycles: what the floor alone leaves. */
export function floorOf({ floorU }: MeanScatter): number {
  return coverageFactor(Infinity) * floorU;
}

export interface CheapestPlanOptions {
  /** U that is wanted. */
  readonly wantedU: number;
  /** Cost of a session, of each key and of each cycle of a key, such as minutes. */
  readonly cost: { readonly study: number; readonly key: number; readonly cycle: number };
  /** Fewest keys that the method takes as a result; default 1. */
  readonly fewestKeys?: number;
  /** Most cycles of a key; default 30. */
  readonly mostCycles?: number;
}

/**
 * The cheapest plan that is expected to reach a wanted U, by trying every number of keys; of equal costs the one with fewer keys.
 * @returns null where no plan of up to N keys and `mostCycles` cycles reaches it
 * @throws RangeError on an unknown option, a wanted U that is not above 0, more fewest keys than there are
 */
export function cheapestMeanPlan(
  scatter: MeanScatter,
  options: CheapestPlanOptions,
): (MeanPlan & { readonly cost: number }) | null {
  checkOptions(options, ["wantedU", "cost", "fewestKeys", "mostCycles"], "cheapestMeanPlan");
  const { wantedU, cost, fewestKeys = 1, mostCycles = 30 } = options;
  checkPositive(wantedU, "wantedU");
  checkWhole(fewestKeys, 1, "fewestKeys");
  checkWhole(mostCycles, 1, "mostCycles");
  if (!(fewestKeys <= scatter.population)) {
    throw new RangeError(`fewestKeys is ${fewestKeys}, of a population of ${scatter.population}`);
  }
  let best: (MeanPlan & { readonly cost: number }) | null = null;
  for (let keys = fewestKeys; keys <= scatter.population; keys++) {
    for (let cycles = 1; cycles <= mostCycles; cycles++) {
      const total = cost.study + keys * (cost.key + cycles * cost.cycle);
      if (best !== null && total >= best.cost) break;
      const plan = meanPlan(scatter, keys, cycles);
      if (plan.U > wantedU) continue;
      best = { ...plan, cost: total };
      break;
    }
  }
  return best;
}
