import { Undetermined, checkOptions, checkPositive, checkWhole } from "../numeric/guards.js";

/** What is known of the scatter before a study, in one unit of measure. */
export interface Scatter {
  /** Sd between the true values of the keys. */
  readonly betweenSd: number;
  /** Sd of one cycle (press) of one key. */
  readonly repeatSd: number;
  /** Standard uncertainty that all keys share and that no repeating lowers; default 0. */
  readonly sharedU?: number;
  /** Number of keys in all, where the mean over all of them is meant; default infinitely many. */
  readonly population?: number;
}

/**
 * Standard uncertainty of a mean over n keys of c cycles each: u² = (1 - n/N) s²/n + (n/N) s_rep²/(nc) + u_shared², where
 * s² = s_b² + s_rep²/c is the variance of the key means.
 * @param scatter sds in the unit of the result
 * @param keys n, from 1 to the population
 * @param cycles c, at least 1
 * @throws RangeError on sds below 0 and on numbers that are not whole
 * Source: Cochran, Sampling Techniques (3rd ed. 1977), 10.3 (two-stage sampling, infinite second stage).
 */
export function meanUncertaintyKernel(scatter: Scatter, keys: number, cycles: number): number {
  const { betweenSd, repeatSd, sharedU = 0, population = Infinity } = scatter;
  checkOptions(scatter, ["betweenSd", "repeatSd", "sharedU", "population"], "meanUncertainty");
  for (const [name, sd] of [
    ["betweenSd", betweenSd],
    ["repeatSd", repeatSd],
    ["sharedU", sharedU],
  ] as const) {
    if (!(sd >= 0)) throw new RangeError(`${name} is ${sd}; it must be at least 0`);
  }
  checkWhole(keys, 1, "the number of keys");
  checkWhole(cycles, 1, "the number of cycles");
  if (!(keys <= population)) throw new RangeError(`${keys} keys of a population of ${population}`);
  const share = keys / population;
  const ofMeans = betweenSd ** 2 + repeatSd ** 2 / cycles;
  return Math.sqrt(((1 - share) * ofMeans) / keys + (share * repeatSd ** 2) / (keys * cycles) + sharedU ** 2);
}

export interface Plan {
  readonly keys: number;
  readonly cycles: number;
  readonly u: number;
  /** In the unit of the costs, such as minutes. */
  readonly cost: number;
}

export interface PlanOptions {
  /** Standard uncertainty that is wanted. */
  readonly wantedU: number;
  /** Cost of a study, of each key and of each cycle of a key, such as minutes. */
  readonly cost: { readonly study: number; readonly key: number; readonly cycle: number };
  /** Most keys (default 104 or the population) and most cycles of a key (default 100). */
  readonly mostKeys?: number;
  readonly mostCycles?: number;
}

/**
 * The cheapest number of keys and cycles that reaches a wanted standard uncertainty, by trying every number of keys; of equal
 * costs the one with fewer keys.
 * @param scatter what is known of the scatter
 * @param options wantedU; cost of study, key and cycle; mostKeys; mostCycles
 * @throws Undetermined where no plan within the limits reaches it, with the best that can be reached
 * Source: Cochran, Sampling Techniques (3rd ed. 1977), 10.6 (optimum allocation), by search.
 */
export function cheapestPlanKernel(scatter: Scatter, options: PlanOptions): Plan {
  checkOptions(options, ["wantedU", "cost", "mostKeys", "mostCycles"], "cheapestPlan");
  const { wantedU, cost, mostCycles = 100 } = options;
  const mostKeys = options.mostKeys ?? Math.min(104, scatter.population ?? 104);
  checkPositive(wantedU, "wantedU");
  checkWhole(mostKeys, 1, "mostKeys");
  checkWhole(mostCycles, 1, "mostCycles");
  let best: Plan | undefined;
  for (let keys = 1; keys <= mostKeys; keys++) {
    for (let cycles = 1; cycles <= mostCycles; cycles++) {
      const u = meanUncertaintyKernel(scatter, keys, cycles);
      if (u > wantedU) continue;
      const total = cost.study + keys * (cost.key + cycles * cost.cycle);
      if (best === undefined || total < best.cost) best = { keys, cycles, u, cost: total };
      break;
    }
  }
  if (best === undefined) {
    const reachable = meanUncertaintyKernel(scatter, mostKeys, mostCycles);
    throw new Undetermined(
      `no plan of up to ${mostKeys} keys and ${mostCycles} cycles reaches ${wantedU}; the best is ${reachable.toPrecision(3)}`,
    );
  }
  return best;
}

/** Standard uncertainty by number of keys (rows) and cycles (columns), for a table or a chart. */
export function uncertaintyTable(
  scatter: Scatter,
  keys: readonly number[],
  cycles: readonly number[],
): readonly (readonly number[])[] {
  return keys.map((n) => cycles.map((c) => meanUncertaintyKernel(scatter, n, c)));
}
