import { lift } from "../lift/lift.js";
import { Undetermined, checkOptions, checkValues, checkWhole } from "../numeric/guards.js";
import { normalCdf } from "../numeric/distributions.js";
import { seededRandom, shuffled } from "../numeric/random.js";
import { ascending, meanOf, medianOf, squaredDeviations } from "../numeric/sums.js";

export interface ChangePointOptions {
  /** Fewest values on either side of the change, at least 1; default 2. */
  readonly least?: number;
  /** Number of seeded permutations, at least 99; default 1999. */
  readonly draws?: number;
  /** Seed; default 1. */
  readonly seed?: number;
}

export interface ChangePoint {
  /** Place of the first value after the change. */
  readonly at: number;
  readonly before: number;
  readonly after: number;
  /** Largest |t| of the two means over all places. */
  readonly statistic: number;
  /** (1 + permutations with a statistic as large)/(1 + permutations). */
  readonly pValue: number;
  readonly n: number;
}

/**
 * Change point of a mean: the place with the largest two-sample |t| (the likelihood ratio for one shift in normal values), with a
 * p-value from seeded permutations.
 * @param values at least 2 `least` + 2 finite numbers in the order of time
 * @param options least: default 2; draws: default 1999; seed: default 1
 * @throws Undetermined on too few values, and where all are equal
 * Source: Worsley, Journal of the American Statistical Association 74 (1979) 365; permutation p-value, Davison and Hinkley 1997, 4.
 */
export function changePointKernel(values: readonly number[], options: ChangePointOptions = {}): ChangePoint {
  checkOptions(options, ["least", "draws", "seed"], "changePoint");
  const { least = 2, draws = 1999, seed = 1 } = options;
  checkWhole(least, 1, "least");
  checkWhole(draws, 99, "draws");
  checkValues(values, Math.max(4, 2 * least + 2), "a change point");
  const n = values.length;
  const centre = meanOf(values);
  const total = squaredDeviations(values);
  if (total === 0) throw new Undetermined("a change point has no meaning where all values are equal");
  const d = values.map((value) => value - centre);
  const own = largestSplit(d, least);
  const random = seededRandom(seed);
  let asLarge = 0;
  for (let draw = 0; draw < draws; draw++) {
    if (largestSplit(shuffled(d, random), least).gain >= own.gain * (1 - 1e-12)) asLarge++;
  }
  const rest = Math.max(0, total - own.gain);
  return {
    at: own.at,
    before: meanOf(values.slice(0, own.at)),
    after: meanOf(values.slice(own.at)),
    statistic: rest === 0 ? Number.MAX_VALUE : Math.sqrt((own.gain * (n - 2)) / rest),
    pValue: (1 + asLarge) / (1 + draws),
    n,
  };
}

/** The split that explains the largest sum of squares; |t| grows with it. */
function largestSplit(d: readonly number[], least: number): { readonly at: number; readonly gain: number } {
  const n = d.length;
  let sum = 0;
  let at = least;
  let gain = -1;
  for (let i = 1; i <= n - least; i++) {
    sum += d[i - 1]!;
    if (i < least) continue;
    const own = (sum * sum * n) / (i * (n - i));
    if (own > gain) [at, gain] = [i, own];
  }
  return { at, gain };
}

/** Change point of the mean of measured values in the order of the items. */
export const changePoint = lift(
  changePointKernel,
  { at: "position", before: "same", after: "same", statistic: "statistic", pValue: "statistic", n: "count" },
  { name: "change point" },
);

export interface RunsTest {
  readonly median: number;
  readonly above: number;
  readonly below: number;
  readonly runs: number;
  readonly expectedRuns: number;
  readonly sdRuns: number;
  readonly z: number;
  /** Two-sided, normal. */
  readonly pValue: number;
}

/**
 * Wald-Wolfowitz runs test about the median: values equal to the median left out, z = (runs - expected)/sd, expected
 * 2ab/(a + b) + 1.
 * @param values at least 10 finite numbers in the order of time
 * @throws Undetermined on fewer than 10 values, and where fewer than two lie on either side
 * Source: NIST/SEMATECH e-Handbook, 1.3.5.13.
 */
export function runsTestKernel(values: readonly number[], options: object = {}): RunsTest {
  checkOptions(options, [], "runsTest");
  checkValues(values, 10, "a runs test");
  const median = medianOf(ascending(values));
  const signs = values.filter((value) => value !== median).map((value) => value > median);
  const above = signs.filter(Boolean).length;
  const below = signs.length - above;
  if (above < 2 || below < 2)
    throw new Undetermined("a runs test needs at least two values on either side of the median");
  const runs = 1 + signs.slice(1).filter((sign, i) => sign !== signs[i]).length;
  const product = 2 * above * below;
  const expectedRuns = product / (above + below) + 1;
  const sdRuns = Math.sqrt((product * (product - above - below)) / ((above + below) ** 2 * (above + below - 1)));
  const z = (runs - expectedRuns) / sdRuns;
  return { median, above, below, runs, expectedRuns, sdRuns, z, pValue: Math.min(1, 2 * normalCdf(-Math.abs(z))) };
}

/** Runs test of measured values in the order of the items. */
export const runsTest = lift(
  runsTestKernel,
  {
    median: "same",
    above: "count",
    below: "count",
    runs: "count",
    expectedRuns: "statistic",
    sdRuns: "statistic",
    z: "statistic",
    pValue: "statistic",
  },
  { name: "runs test" },
);
