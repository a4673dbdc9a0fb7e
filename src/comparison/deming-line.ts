import { Absent, Count, Quantity, evidenceStep, isQuantity, observedSource } from "../metrology/index.js";
import type { Measured } from "../metrology/index.js";
import { demingKernel } from "../statistics/agreement/deming.js";
import { tQuantile } from "../statistics/numeric/distributions.js";
import { Undetermined } from "../statistics/numeric/guards.js";
import { varianceOf } from "../statistics/numeric/sums.js";

/** Two results of one item. */
export interface ResultPair<S extends string = string> {
  readonly first: Measured<S>;
  readonly second: Measured<S>;
}

/** A straight line between two methods, as a figure draws it and a table prints it. */
export interface DemingLine<S extends string = string> {
  readonly name: string;
  /** With jackknife standard errors and n - 2 degrees of freedom; absent, with the reason, where there is no line. */
  readonly slope: Measured<"1">;
  readonly intercept: Measured<S>;
  /** 95 % band of the line by the same jackknife, by ascending x; absent where there is no line, and under five pairs. */
  readonly band?: readonly { readonly x: number; readonly low: number; readonly high: number }[];
  /** Variance of the second method's errors over the first's, as used. */
  readonly errorRatio: number;
  readonly pairs: Count;
}

const bandPoints = 41;
/** Pairs from which a line is left when one is taken out. */
const fewestForBand = 5;

/**
 * Deming regression of the second result on the first, with the variance ratio of the errors from the results' own stated
 * uncertainties: mean u² of the second over mean u² of the first, 1 where either states none.
 *
 * @param items in any order; those that lack a result are left out
 * @param pair the two results of an item, in one unit of measure
 * @param options `id`: names the line's sources, unique on a page
 * @throws RangeError where the symbols differ
 * Source: Linnet, Clinical Chemistry 36 (1990) 2027 and 39 (1993) 424; band: the jackknife of that paper at each x.
 */
export function demingLine<Item, S extends string>(
  items: readonly Item[],
  pair: (item: Item) => ResultPair<S>,
  options: { readonly id: string },
): DemingLine<S> {
  const whole = wholePairs(items, pair);
  const evidence = evidenceStep(
    `Deming regression of ${whole.length} pairs`,
    whole.flatMap(({ first, second }) => [first.evidence, second.evidence]),
  );
  const symbol = whole[0]?.first.symbol ?? (items.length > 0 ? pair(items[0]!).first.symbol : ("1" as S));
  const errorRatio = errorRatioOf(whole);
  const head = { name: "Deming regression", errorRatio, pairs: new Count(whole.length, evidence) };
  const xs = whole.map(({ first }) => first.value);
  const ys = whole.map(({ second }) => second.value);
  try {
    const fit = demingKernel(xs, ys, { errorRatio });
    const dof = whole.length - 2;
    const line = <U extends string>(
      part: { value: number; standardError: number },
      what: string,
      unit: U,
    ): Quantity<U> => {
      const source = observedSource(
        `line/${options.id}/${what}`,
        `Jackknife of the ${what}`,
        part.standardError,
        unit,
        dof,
      );
      return new Quantity(part.value, unit, [{ source, contribution: part.standardError }], evidence);
    };
    return {
      ...head,
      slope: line(fit.slope, "slope", "1"),
      intercept: line(fit.intercept, "intercept", symbol),
      ...(whole.length < fewestForBand ? {} : { band: bandOf(xs, ys, errorRatio) }),
    };
  } catch (error) {
    if (!(error instanceof Undetermined)) throw error;
    return {
      ...head,
      slope: new Absent("1", error.message, evidence),
      intercept: new Absent(symbol, error.message, evidence),
    };
  }
}

/** The pairs of which both results are there. @throws RangeError where symbols differ */
export function wholePairs<Item, S extends string>(
  items: readonly Item[],
  pair: (item: Item) => ResultPair<S>,
): readonly { readonly item: Item; readonly first: Quantity<S>; readonly second: Quantity<S> }[] {
  const whole = items.flatMap((item) => {
    const { first, second } = pair(item);
    return isQuantity(first) && isQuantity(second) ? [{ item, first, second }] : [];
  });
  const all = whole.flatMap(({ first, second }) => [first, second]);
  const odd = all.find(({ symbol }) => symbol !== all[0]!.symbol);
  if (odd !== undefined)
    throw new RangeError(`cannot compare ${all[0]!.symbol} and ${odd.symbol}: convert one of them`);
  return whole;
}

function errorRatioOf(pairs: readonly { readonly first: Quantity; readonly second: Quantity }[]): number {
  const square = (side: "first" | "second"): number => pairs.reduce((sum, each) => sum + each[side].u ** 2, 0);
  const [x, y] = [square("first"), square("second")];
  return x > 0 && y > 0 ? y / x : 1;
}

function bandOf(xs: readonly number[], ys: readonly number[], errorRatio: number): DemingLine["band"] & object {
  const n = xs.length;
  const without = (values: readonly number[], i: number): number[] => values.filter((_, j) => j !== i);
  const fits = [null, ...xs.keys()].map((i) => {
    const fit =
      i === null ? demingKernel(xs, ys, { errorRatio }) : demingKernel(without(xs, i), without(ys, i), { errorRatio });
    return [fit.intercept.value, fit.slope.value] as const;
  });
  const [whole, ...parts] = fits as [readonly [number, number], ...(readonly [number, number])[]];
  const t = tQuantile(0.975, n - 2);
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const reach = 0.06 * (right - left);
  return Array.from({ length: bandPoints }, (_, step) => {
    const x = left - reach + ((right - left + 2 * reach) * step) / (bandPoints - 1);
    const at = ([a, b]: readonly [number, number]): number => a + b * x;
    const half = t * Math.sqrt(varianceOf(parts.map((part) => n * at(whole) - (n - 1) * at(part))) / n);
    return { x, low: at(whole) - half, high: at(whole) + half };
  });
}
