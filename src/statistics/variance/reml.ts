import { liftFactors } from "../lift/lift-factors.js";
import { Undetermined, checkOptions, checkProbability, checkValues } from "../numeric/guards.js";
import { chiSquaredQuantile } from "../numeric/distributions.js";
import type { Levels } from "../numeric/layout.js";
import { rootBetween } from "../numeric/search.js";
import type { RemlDesign } from "./reml-design.js";
import { remlDesign } from "./reml-design.js";
import type { RemlFit } from "./reml-fit.js";
import { fitReml } from "./reml-fit.js";

export interface RemlOptions {
  /** Names of the factors that are fixed; the others are random. Default none. */
  readonly fixed?: readonly string[];
  /** Level of the profile intervals; default 0.95. */
  readonly level?: number;
  /** Whether to compute intervals, which cost some 20 fits a component; default true. */
  readonly intervals?: boolean;
}

export interface RemlComponent {
  /** Factor, or joint name of factors that the design cannot separate; the last is "residual". */
  readonly name: string;
  /** Null under 3 levels: no estimate is given. */
  readonly variance: number | null;
  readonly sd: number | null;
  /** Profile interval; the lower end is null where the estimate is 0 (an upper limit only). */
  readonly lower: number | null;
  readonly upper: number | null;
  readonly levels: number;
  /** Why the component must be read with care; empty where it need not. */
  readonly warning: string;
}

export interface Reml {
  readonly components: readonly RemlComponent[];
  /** Estimate of the constant: the mean where there are no fixed factors. */
  readonly mean: number;
  /** -2 restricted log-likelihood at the estimates, with its constant. */
  readonly criterion: number;
  readonly n: number;
}

/**
 * Variance components by restricted maximum likelihood, for unbalanced crossed or nested random factors, with profile
 * likelihood intervals (where the criterion rises by χ²_1). Equals the analysis of variance on balanced data with no negative
 * estimate. Factors that split the values alike are merged under a joint name; one with a single value a level is part of the
 * residual. Under 5 levels a warning, under 3 no estimate; at 0 an upper limit only.
 * @param values finite numbers, more than there are fixed effects and random factors
 * @param factors levels of each factor; nested ones need names unique over all parents
 * @param options fixed: names of fixed factors; level: default 0.95; intervals: default true
 * @throws Undetermined where the values have no scatter or the design cannot separate the components
 * Source: Patterson and Thompson, Biometrika 58 (1971) 545; Searle, Casella and McCulloch, Variance Components (1992), 6.6.
 */
export function remlKernel(values: readonly number[], factors: Levels, options: RemlOptions = {}): Reml {
  checkOptions(options, ["fixed", "level", "intervals"], "reml");
  const { fixed: fixedNames = [], level = 0.95, intervals = true } = options;
  checkProbability(level, "level");
  checkValues(values, 4, "reml");
  for (const name of fixedNames) {
    if (!(name in factors))
      throw new RangeError(`reml: the fixed factor ${name} is not among ${Object.keys(factors).join(", ")}`);
  }
  const pick = (wanted: boolean): Levels =>
    Object.fromEntries(Object.entries(factors).filter(([name]) => fixedNames.includes(name) === wanted));
  const design = remlDesign(values, pick(false), pick(true));
  if (!(design.yy > 0)) throw new Undetermined("reml has no meaning where all values are equal");
  const fit = fitReml(design);
  const unit = design.scale * design.scale;
  if (fit.variances[design.terms.length]! <= 1e-11) {
    throw new Undetermined("reml needs scatter within the levels; these values have none");
  }
  const residualName = ["residual", ...design.inResidual].join(" + ");
  const components = fit.variances.map((variance, k): RemlComponent => {
    const levels = design.terms[k]?.levels ?? design.n - design.p;
    const name = design.terms[k]?.name ?? residualName;
    if (levels < 3 && k < design.terms.length) {
      return {
        name,
        variance: null,
        sd: null,
        lower: null,
        upper: null,
        levels,
        warning: `only ${levels} levels: no estimate`,
      };
    }
    const [lower, upper] = intervals ? profile(design, fit, k, level) : [null, null];
    return {
      name,
      variance: variance * unit,
      sd: Math.sqrt(variance * unit),
      lower: lower === null ? null : lower * unit,
      upper: upper === null ? null : upper * unit,
      levels,
      warning:
        levels < 5 && k < design.terms.length
          ? `only ${levels} levels: the interval is wide and the estimate rough`
          : "",
    };
  });
  return {
    components,
    mean: design.origin + fit.point.fixed[0]! * design.scale,
    criterion: fit.point.deviance + (design.n - design.p) * (Math.log(2 * Math.PI) + 2 * Math.log(design.scale)),
    n: design.n,
  };
}

/** Ends of the profile likelihood interval of one variance. */
function profile(design: RemlDesign, fit: RemlFit, k: number, level: number): readonly [number | null, number | null] {
  const rise = chiSquaredQuantile(level, 1);
  const estimate = fit.variances[k]!;
  // Searched on the scale of the sd, where the criterion is nearest to a parabola.
  const above = (sd: number): number =>
    fitReml(design, { held: new Map([[k, sd * sd]]), start: fit.variances, tolerance: 1e-7 }).point.deviance -
    fit.point.deviance -
    rise;
  const isResidual = k === design.terms.length;
  const from = Math.sqrt(estimate);
  let high = Math.max(from * 1.5, 0.03);
  for (let step = 0; above(high) < 0; step++) {
    if (step > 60) return [null, null];
    high *= 2;
  }
  const upper = rootBetween(above, from, high, 1e-8 * high) ** 2;
  if (estimate <= 0) return [null, upper];
  const low = isResidual ? from * 1e-3 : 0;
  if (above(low) <= 0) return [0, upper];
  return [rootBetween(above, low, from, 1e-8 * from) ** 2, upper];
}

/** Variance components of measured values by restricted maximum likelihood. */
export const reml = liftFactors(
  remlKernel,
  {
    components: [
      {
        name: "text",
        variance: "squared",
        sd: "same",
        lower: "squaredLimit",
        upper: "squaredLimit",
        levels: "count",
        warning: "text",
      },
    ],
    mean: "same",
    criterion: "statistic",
    n: "count",
  },
  { name: "variance components by REML", moved: { intervals: false } },
);
