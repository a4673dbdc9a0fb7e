import { lift } from "../lift/lift.js";
import { checkOptions, checkPositive, checkValues } from "../numeric/guards.js";

export interface EwmaOptions {
  /** Value that the process is held to, in the unit of the values. */
  readonly target: number;
  /** Known sd of a single value, above 0. */
  readonly sigma: number;
  /** Weight of the newest value, above 0 to 1; default 0.2. */
  readonly weight?: number;
  /** Width of the limits in sds; default 3. */
  readonly width?: number;
  /** Whether limits widen from the start as they should (default), or are the asymptotic ones throughout. */
  readonly asymptotic?: boolean;
}

export interface EwmaChart {
  /** z_i for every value. */
  readonly averages: readonly number[];
  readonly lower: readonly number[];
  readonly upper: readonly number[];
  readonly outside: readonly number[];
}

/**
 * Exponentially weighted moving average chart: z_i = λx_i + (1 - λ)z_(i-1) from the target, limits target ± Lσ√(λ/(2 - λ)
 * (1 - (1 - λ)^(2i))).
 * @param values at least one finite number in the order of time
 * @param options target; sigma; weight λ: default 0.2; width L: default 3; asymptotic: default false
 * @throws Undetermined on no values; RangeError on options out of range
 * Source: Roberts, Technometrics 1 (1959) 239; NIST/SEMATECH e-Handbook, 6.3.2.4.
 */
export function ewmaKernel(values: readonly number[], options: EwmaOptions = { target: NaN, sigma: NaN }): EwmaChart {
  checkOptions(options, ["target", "sigma", "weight", "width", "asymptotic"], "ewma");
  const { target, sigma, weight = 0.2, width = 3, asymptotic = false } = options;
  if (!Number.isFinite(target)) throw new RangeError(`the target of ewma is ${target}; it must be finite`);
  checkPositive(sigma, "sigma");
  checkPositive(width, "width");
  if (!(weight > 0 && weight <= 1))
    throw new RangeError(`the weight of ewma is ${weight}; it must be above 0, at most 1`);
  checkValues(values, 1, "an EWMA chart");
  let last = target;
  const averages = values.map((value) => (last = weight * value + (1 - weight) * last));
  const half = values.map((_, i) => {
    const grown = asymptotic ? 1 : 1 - (1 - weight) ** (2 * (i + 1));
    return width * sigma * Math.sqrt((weight / (2 - weight)) * grown);
  });
  return {
    averages,
    lower: half.map((h) => target - h),
    upper: half.map((h) => target + h),
    outside: averages.flatMap((z, i) => (Math.abs(z - target) > half[i]! ? [i] : [])),
  };
}

/** EWMA chart of measured values in the order of the items. */
export const ewma = lift(
  ewmaKernel,
  { averages: ["same"], lower: ["same"], upper: ["same"], outside: ["position"] },
  { name: "EWMA chart" },
);

export interface CusumOptions {
  /** Value that the process is held to, in the unit of the values. */
  readonly target: number;
  /** Known sd of a single value, above 0. */
  readonly sigma: number;
  /** Allowance k in sds; default 0.5. */
  readonly allowance?: number;
  /** Decision interval h in sds; default 5. */
  readonly decision?: number;
}

export interface CusumChart {
  /** Sums of excesses above and below, in the unit of the values; both at least 0. */
  readonly high: readonly number[];
  readonly low: readonly number[];
  /** hσ. */
  readonly limit: number;
  readonly outside: readonly number[];
}

/**
 * Tabular CUSUM chart: high_i = max(0, high_(i-1) + x_i - target - kσ), low_i = max(0, low_(i-1) + target - kσ - x_i), a signal
 * where either exceeds hσ.
 * @param values at least one finite number in the order of time
 * @param options target; sigma; allowance k: default 0.5; decision h: default 5
 * @throws Undetermined on no values; RangeError on options out of range
 * Source: Page, Biometrika 41 (1954) 100; NIST/SEMATECH e-Handbook, 6.3.2.3.
 */
export function cusumKernel(
  values: readonly number[],
  options: CusumOptions = { target: NaN, sigma: NaN },
): CusumChart {
  checkOptions(options, ["target", "sigma", "allowance", "decision"], "cusum");
  const { target, sigma, allowance = 0.5, decision = 5 } = options;
  if (!Number.isFinite(target)) throw new RangeError(`the target of cusum is ${target}; it must be finite`);
  checkPositive(sigma, "sigma");
  checkPositive(decision, "decision");
  if (!(allowance >= 0)) throw new RangeError(`the allowance of cusum is ${allowance}; it must be at least 0`);
  checkValues(values, 1, "a CUSUM chart");
  let up = 0;
  let down = 0;
  const high = values.map((value) => (up = Math.max(0, up + value - target - allowance * sigma)));
  const low = values.map((value) => (down = Math.max(0, down + target - allowance * sigma - value)));
  const limit = decision * sigma;
  return { high, low, limit, outside: high.flatMap((h, i) => (h > limit || low[i]! > limit ? [i] : [])) };
}

/** CUSUM chart of measured values in the order of the items. */
export const cusum = lift(
  cusumKernel,
  { high: ["same"], low: ["same"], limit: "same", outside: ["position"] },
  { name: "CUSUM chart" },
);
