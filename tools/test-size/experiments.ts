import {
  andersonDarlingKernel,
  benjaminiHochbergKernel,
  blandAltmanKernel,
  bootstrapIntervalKernel,
  changePointKernel,
  cochranKernel,
  concordanceKernel,
  demingKernel,
  dixonCritical,
  dixonRatio,
  driftKernel,
  ecdfKernel,
  equivalenceKernel,
  factorEffectsKernel,
  generalisedEsdKernel,
  grubbsKernel,
  grubbsPairKernel,
  hampelKernel,
  heldShareKernel,
  holmKernel,
  intraclassKernel,
  kendallKernel,
  kolmogorovSmirnovKernel,
  mandelKernel,
  mannWhitneyKernel,
  meanIntervalKernel,
  nestedKernel,
  oneWayKernel,
  pairedTKernel,
  passingBablokKernel,
  predictionFactorKernel,
  proportionIntervalKernel,
  quantileIntervalKernel,
  remlKernel,
  replicateAgreementKernel,
  runRulesKernel,
  runsTestKernel,
  sdIntervalKernel,
  shapiroWilkKernel,
  shiftFunctionKernel,
  signedRankKernel,
  spearmanKernel,
  spreadKernel,
  toleranceFactorKernel,
  tukeyFencesKernel,
  twoSampleTKernel,
  twoWayKernel,
} from "../../src/statistics/index.js";
import { normalCdf } from "../../src/statistics/numeric/distributions.js";
import type { SeededRandom } from "../../src/statistics/numeric/random.js";
import type { Experiment } from "./experiment.js";

const normals = (random: SeededRandom, n: number, mean = 0, sd = 1): number[] =>
  Array.from({ length: n }, () => mean + sd * random.normal());
const inside = (truth: number, { lower, upper }: { lower: number | null; upper: number | null }): number =>
  lower !== null && upper !== null && lower <= truth && truth <= upper ? 1 : 0;
const meanOf = (values: readonly number[]): number => values.reduce((total, v) => total + v, 0) / values.length;

const gapsOf = (groups: number, each: number, between: number, random: SeededRandom): number[][] =>
  Array.from({ length: groups }, () => normals(random, each, between * random.normal()));

function crossed(random: SeededRandom, interaction: number): number[][][] {
  const part = normals(random, 8, 0, 2);
  const operator = normals(random, 4);
  return part.map((p) => operator.map((o) => normals(random, 3, p + o + interaction * random.normal(), 0.7)));
}

/** Two methods on true values spread with sd 3 about 45, each with noise of sd 0.7. */
function methods(random: SeededRandom, n: number): readonly [number[], number[]] {
  const truth = normals(random, n, 45, 3);
  return [truth.map((t) => t + 0.7 * random.normal()), truth.map((t) => t + 0.7 * random.normal())];
}

const tailOf = (z: number): number => 2 * normalCdf(-Math.abs(z));
const factor8 = toleranceFactorKernel(8);
const further18 = predictionFactorKernel(8, { further: 18 });
const single8 = predictionFactorKernel(8);
const dixon7 = dixonCritical(7, 0.025);
const trueConcordance = 9 / (9 + 0.49);

const sizes: readonly Experiment[] = [
  { name: "paired t, 8 pairs", aim: "size", run: (r) => pairedTKernel(normals(r, 8), normals(r, 8)).pValue },
  {
    name: "two-sample t (Welch), 8 and 12",
    aim: "size",
    run: (r) => twoSampleTKernel(normals(r, 8), normals(r, 12)).pValue,
  },
  {
    name: "two-sample t (pooled), 8 and 12",
    aim: "size",
    run: (r) => twoSampleTKernel(normals(r, 8), normals(r, 12), { equalVariances: true }).pValue,
  },
  { name: "one-way F, 5 groups of 4", aim: "size", run: (r) => oneWayKernel(gapsOf(5, 4, 0, r)).pValue! },
  {
    name: "interaction F, 8 x 4 cells of 3",
    aim: "size",
    run: (r) => twoWayKernel(crossed(r, 0)).interaction!.pValue!,
  },
  {
    name: "partial F of the row of a key, 30 keys",
    aim: "size",
    run: (r) => {
      const levels = Array.from({ length: 30 }, (_, i) => ["top", "home", "bottom"][i % 3]!);
      const hands = Array.from({ length: 30 }, (_, i) => (i % 10 < 5 ? "left" : "right"));
      return factorEffectsKernel(normals(r, 30), { row: levels, hand: hands }).factors[0]!.pValue!;
    },
  },
  { name: "drift, 10 points", aim: "size", run: (r) => driftKernel(normals(r, 10), normals(r, 10)).pValue! },
  {
    name: "change point, 20 values",
    aim: "size",
    run: (r) => changePointKernel(normals(r, 20), { draws: 199, seed: r.below(1e9) }).pValue,
  },
  { name: "Grubbs two-sided, 8 values", aim: "size", run: (r) => grubbsKernel(normals(r, 8)).pValue },
  {
    name: "Grubbs for the furthest two, 10 values",
    aim: "size",
    run: (r) => grubbsPairKernel(normals(r, 10), { draws: 1000, seed: r.below(1e9) }).pValue,
  },
  {
    name: "Dixon two-sided, 7 values",
    aim: "size",
    run: (r) => (dixonRatio(normals(r, 7), "two-sided").statistic > dixon7 ? 0 : 1),
  },
  { name: "Shapiro-Wilk, 20 values", aim: "size", run: (r) => shapiroWilkKernel(normals(r, 20)).pValue },
  { name: "Anderson-Darling, 20 values", aim: "size", run: (r) => andersonDarlingKernel(normals(r, 20)).pValue },
  {
    name: "signed rank, 10 pairs",
    aim: "discrete",
    run: (r) => signedRankKernel(normals(r, 10), normals(r, 10)).pValue,
  },
  {
    name: "Mann-Whitney, 7 and 8",
    aim: "discrete",
    run: (r) => mannWhitneyKernel(normals(r, 7), normals(r, 8)).pValue,
  },
  {
    name: "Kolmogorov-Smirnov, 10 and 12",
    aim: "discrete",
    run: (r) => kolmogorovSmirnovKernel(normals(r, 10), normals(r, 12)).pValue,
  },
  { name: "Kendall, 9 pairs", aim: "discrete", run: (r) => kendallKernel(normals(r, 9), normals(r, 9)).pValue },
  { name: "Spearman exact, 7 pairs", aim: "discrete", run: (r) => spearmanKernel(normals(r, 7), normals(r, 7)).pValue },
  {
    name: "equivalence at the margin, 8 pairs",
    aim: "atMost",
    run: (r) => equivalenceKernel(normals(r, 8), normals(r, 8, 1.5, 0.5), { margin: 1.5 }).pValue,
  },
  {
    name: "Holm over 10 units, family-wise",
    aim: "atMost",
    run: (r) => Math.min(...holmKernel(normals(r, 10).map(tailOf))),
  },
];

const told: readonly Experiment[] = [
  {
    name: "generalised ESD up to 3, 15 values",
    aim: "printed",
    run: (r) => (generalisedEsdKernel(normals(r, 15)).outliers.length > 0 ? 0 : 1),
  },
  {
    name: "generalised ESD up to 6, 30 values",
    aim: "printed",
    run: (r) => (generalisedEsdKernel(normals(r, 30)).outliers.length > 0 ? 0 : 1),
  },
  {
    name: "Cochran, 8 variances of 3",
    aim: "printed",
    run: (r) =>
      cochranKernel(
        gapsOf(8, 3, 0, r).map((g) => spreadKernel(g).sd ** 2),
        { replicates: 3 },
      ).pValue,
  },
  {
    name: "Mandel h, any of 8 groups of 3",
    aim: "printed",
    run: (r) => {
      const { h, hCritical } = mandelKernel(gapsOf(8, 3, 1, r));
      return h.some((value) => Math.abs(value) > hCritical) ? 0 : 1;
    },
  },
  { name: "runs test, 20 values", aim: "printed", run: (r) => runsTestKernel(normals(r, 20)).pValue },
  {
    name: "Spearman by t, 15 pairs",
    aim: "printed",
    run: (r) => spearmanKernel(normals(r, 15), normals(r, 15)).pValue,
  },
  { name: "Hampel fence, share flagged of 8", aim: "rate", run: (r) => hampelKernel(normals(r, 8)).outside.length / 8 },
  {
    name: "Hampel fence, share flagged of 30",
    aim: "rate",
    run: (r) => hampelKernel(normals(r, 30)).outside.length / 30,
  },
  {
    name: "Tukey fences, share flagged of 8",
    aim: "rate",
    run: (r) => tukeyFencesKernel(normals(r, 8)).outside.length / 8,
  },
  {
    name: "Tukey fences, share flagged of 30",
    aim: "rate",
    run: (r) => tukeyFencesKernel(normals(r, 30)).outside.length / 30,
  },
  {
    name: "run rules (first four), any signal in 30",
    aim: "rate",
    run: (r) => (runRulesKernel(normals(r, 30), { centre: 0, sigma: 1, draws: 100 }).signals.length > 0 ? 1 : 0),
  },
];

/** False discovery rate: 5 true nulls and 5 shifted by 3; the share of false rejections among all. */
const discovery: Experiment = {
  name: "Benjamini-Hochberg false discovery rate, 5 nulls of 10",
  aim: "rateAtMost",
  run: (r) => {
    const adjusted = benjaminiHochbergKernel([...normals(r, 5), ...normals(r, 5, 3)].map(tailOf));
    const rejected = adjusted.flatMap((p, i) => (p <= 0.05 ? [i] : []));
    return rejected.length === 0 ? 0 : rejected.filter((i) => i < 5).length / rejected.length;
  },
};

const coverages: readonly Experiment[] = [
  { name: "mean, 8 values", aim: "coverage", run: (r) => inside(5, meanIntervalKernel(normals(r, 8, 5))) },
  { name: "sd, 8 values", aim: "coverage", run: (r) => inside(2, sdIntervalKernel(normals(r, 8, 5, 2))) },
  {
    name: "median by order statistics, 15 values",
    aim: "atLeast",
    run: (r) => inside(0, quantileIntervalKernel(normals(r, 15))),
  },
  {
    name: "P90 by order statistics, 60 values",
    aim: "atLeast",
    run: (r) => inside(1.2815515655446004, quantileIntervalKernel(normals(r, 60), { p: 0.9 })),
  },
  {
    name: "proportion (Wilson), p uniform, 30 items",
    aim: "coverage",
    run: (r) => {
      const p = r.uniform();
      let k = 0;
      for (let i = 0; i < 30; i++) if (r.uniform() < p) k++;
      return inside(p, proportionIntervalKernel(k, 30));
    },
  },
  {
    name: "proportion (exact), 0.1, 30 items",
    aim: "atLeast",
    run: (r) => {
      let k = 0;
      for (let i = 0; i < 30; i++) if (r.uniform() < 0.1) k++;
      return inside(0.1, proportionIntervalKernel(k, 30, { method: "exact" }));
    },
  },
  {
    name: "tolerance 95/95, 8 values",
    aim: "coverage",
    run: (r) => {
      const { mean, sd } = spreadKernel(normals(r, 8));
      return normalCdf(mean + factor8 * sd) - normalCdf(mean - factor8 * sd) >= 0.95 ? 1 : 0;
    },
  },
  {
    name: "share held by a range, 8 values",
    aim: "coverage",
    run: (r) => {
      const { lower, upper, share } = heldShareKernel(normals(r, 8));
      return normalCdf(upper) - normalCdf(lower) >= share ? 1 : 0;
    },
  },
  {
    name: "prediction of one value from 8",
    aim: "coverage",
    run: (r) => {
      const { mean, sd } = spreadKernel(normals(r, 8));
      return Math.abs(r.normal() - mean) <= single8 * sd ? 1 : 0;
    },
  },
  {
    name: "prediction of all 18 further values from 8",
    aim: "coverage",
    run: (r) => {
      const { mean, sd } = spreadKernel(normals(r, 8));
      return normals(r, 18).every((v) => Math.abs(v - mean) <= further18 * sd) ? 1 : 0;
    },
  },
  {
    name: "within-group variance, 6 groups of 4",
    aim: "coverage",
    run: (r) => inside(1, oneWayKernel(gapsOf(6, 4, 1, r)).within),
  },
  {
    name: "between-group variance (MLS), 10 groups of 4",
    aim: "coverage",
    run: (r) => inside(4, oneWayKernel(gapsOf(10, 4, 2, r)).between),
  },
  {
    name: "part variance (MLS), 8 x 4 cells of 3",
    aim: "coverage",
    run: (r) => inside(4, twoWayKernel(crossed(r, 0.5), { interaction: "keep" }).components.rows),
  },
  {
    name: "gauge variance (MLS), 8 x 4 cells of 3",
    aim: "coverage",
    run: (r) => inside(1 + 0.25 + 0.49, twoWayKernel(crossed(r, 0.5), { interaction: "keep" }).components.gauge),
  },
  {
    name: "middle level of a nested study (MLS), 8 x 3 x 2",
    aim: "coverage",
    run: (r) => {
      const values: number[] = [];
      const outer: string[] = [];
      const inner: string[] = [];
      for (let a = 0; a < 8; a++) {
        const top = 2 * r.normal();
        for (let b = 0; b < 3; b++) {
          const middle = top + r.normal();
          for (let c = 0; c < 2; c++) {
            values.push(middle + 0.7 * r.normal());
            outer.push(`${a}`);
            inner.push(`${b}`);
          }
        }
      }
      return inside(1, nestedKernel(values, { outer, inner })[1]!.component);
    },
  },
  {
    name: "ICC(3,1), 12 targets, 3 raters",
    aim: "coverage",
    run: (r) => inside(0.8, intraclassKernel(Array.from({ length: 12 }, () => normals(r, 3, 2 * r.normal()))).icc31),
  },
  {
    name: "ICC(1,1), 12 targets, 3 raters",
    aim: "coverage",
    run: (r) => inside(0.8, intraclassKernel(Array.from({ length: 12 }, () => normals(r, 3, 2 * r.normal()))).icc11),
  },
  {
    name: "bias of two methods, 12 pairs",
    aim: "coverage",
    run: (r) => inside(0, blandAltmanKernel(...methods(r, 12)).bias),
  },
  {
    name: "limit of agreement, 50 pairs",
    aim: "coverage",
    run: (r) => inside(1.959963984540054 * 0.7 * Math.SQRT2, blandAltmanKernel(...methods(r, 50)).upperLimit),
  },
  { name: "Deming slope, 40 pairs", aim: "coverage", run: (r) => inside(1, demingKernel(...methods(r, 40)).slope) },
  {
    name: "Passing-Bablok slope, 40 pairs",
    aim: "coverage",
    run: (r) => inside(1, passingBablokKernel(...methods(r, 40)).slope),
  },
  {
    name: "concordance, 60 pairs",
    aim: "coverage",
    run: (r) => inside(trueConcordance, concordanceKernel(...methods(r, 60))),
  },
  {
    name: "shift by signed rank, 12 pairs",
    aim: "atLeast",
    run: (r) => inside(1, signedRankKernel(normals(r, 12), normals(r, 12, 1))),
  },
  {
    name: "shift by Mann-Whitney, 9 and 10",
    aim: "atLeast",
    run: (r) => inside(1, mannWhitneyKernel(normals(r, 9), normals(r, 10, 1))),
  },
  {
    name: "drift, 12 points",
    aim: "coverage",
    run: (r) => {
      const x = normals(r, 12);
      return inside(
        0.3,
        driftKernel(
          x,
          x.map((v) => 0.3 * v + r.normal()),
        ),
      );
    },
  },
  {
    name: "ECDF band, 20 values",
    aim: "atLeast",
    run: (r) => {
      const { points } = ecdfKernel(normals(r, 20));
      return points.every(({ value, lower, upper }, i) => {
        const at = normalCdf(value);
        const below = i === 0 ? Math.sqrt(Math.log(40) / 40) : points[i - 1]!.upper;
        return lower <= at && at <= Math.min(upper, below);
      })
        ? 1
        : 0;
    },
  },
  {
    name: "bootstrap BCa of a mean, 200 skewed values",
    aim: "coverage",
    run: (r) => {
      const values = Array.from({ length: 200 }, () => -Math.log(1 - r.uniform()));
      return inside(1, bootstrapIntervalKernel(values, { statistic: meanOf, draws: 1000, seed: r.below(1e9) }));
    },
  },
  {
    name: "shift function, nine deciles together, 30 and 30",
    aim: "atLeast",
    run: (r) => {
      const points = shiftFunctionKernel(normals(r, 30), normals(r, 30, 1), { draws: 500, seed: r.below(1e9) });
      return points.every((point) => inside(1, point) === 1) ? 1 : 0;
    },
  },
  {
    name: "REML between-unit variance (profile), 15 units of 2 to 4",
    aim: "coverage",
    run: (r) => {
      const groups = Array.from({ length: 15 }, (_, i) => normals(r, 2 + (i % 3), 2 * r.normal()));
      const unit = groups.flatMap((group, i) => group.map(() => `u${i}`));
      return inside(4, remlKernel(groups.flat(), { unit }).components[0]!);
    },
  },
  {
    name: "limit of agreement with replicates, 40 subjects of 2 and 3",
    aim: "coverage",
    run: (r) => {
      const truth = normals(r, 40, 45, 3);
      const first = truth.map((t) => normals(r, 2, t, 0.7));
      const second = truth.map((t) => normals(r, 3, t + 0.4 * r.normal(), 0.9));
      const limit = 1.959963984540054 * Math.sqrt(0.49 + 0.81 + 0.16);
      return inside(limit, replicateAgreementKernel(first, second).upperLimit);
    },
  },
];

/** Every experiment, in the order of printing. */
export const experiments: readonly Experiment[] = [...sizes, ...told, discovery, ...coverages];
