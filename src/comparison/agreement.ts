import { Absent, Count, Quantity, difference, evidenceStep, isQuantity, observedSource } from "../metrology/index.js";
import type { Component, Measured } from "../metrology/index.js";
import { blandAltmanKernel } from "../statistics/agreement/bland-altman.js";
import { concordanceKernel } from "../statistics/agreement/concordance.js";
import type { Concordance } from "../statistics/agreement/concordance.js";
import { passingBablokKernel } from "../statistics/agreement/passing-bablok.js";
import type { PassingBablok } from "../statistics/agreement/passing-bablok.js";
import { mean } from "../statistics/describe/mean.js";
import { normalQuantile } from "../statistics/numeric/distributions.js";
import { Undetermined } from "../statistics/numeric/guards.js";
import type { DemingLine, ResultPair } from "./deming-line.js";
import { demingLine, wholePairs } from "./deming-line.js";

/** How two methods agree on the same items, second less first. */
export interface Agreement<S extends string = string> {
  readonly pairs: Count;
  /** Mean difference for items like these: the scatter between items, and what all share, such as a rig's span. */
  readonly bias: Measured<S>;
  /** Standard deviation of the differences. */
  readonly sd: Measured<S>;
  /** Limits of agreement, bias ± 1.96 sd, each with its uncertainty. */
  readonly limits: readonly [lower: Measured<S>, upper: Measured<S>];
  /** Slope of the difference on the mean of the two, and its p-value; null where there is none. */
  readonly proportional: { readonly slope: number; readonly pValue: number } | null;
  readonly line: DemingLine<S>;
  /** Null where the pairs do not determine it. */
  readonly passingBablok: PassingBablok | null;
  readonly concordance: Concordance | null;
}

/**
 * Agreement of two methods on the same items: bias and limits of agreement with their uncertainties, proportional bias, Deming
 * and Passing-Bablok regression, Lin's concordance. The bias carries s/√n with n - 1 degrees of freedom and the sources that
 * the differences share; what belongs to one item alone is in the scatter already. A limit carries in place of s/√n
 * s √(1/n + z²/(2(n - 1))).
 *
 * @param items in any order; those that lack a result are left out
 * @param pair the two results of an item, in one unit of measure
 * @param options `id`: names the sample in budgets, unique on a page: "actuationForce, published"
 * @returns absences and nulls, with reasons, where there are too few pairs: two for a bias, three for limits, four for the
 *   line and the concordance, five for Passing-Bablok
 * @throws RangeError where the symbols differ
 * Source: Bland and Altman, Statistical Methods in Medical Research 8 (1999) 135, 2 and 3, and as the kernels state.
 */
export function agreementOf<Item, S extends string>(
  items: readonly Item[],
  pair: (item: Item) => ResultPair<S>,
  options: { readonly id: string },
): Agreement<S> {
  const whole = wholePairs(items, pair);
  const differences = whole.map(({ first, second }) => difference(second, first));
  const line = demingLine(items, pair, options);
  const symbol = line.intercept.symbol;
  const evidence = evidenceStep(
    `differences of ${whole.length} pairs`,
    differences.map((each) => each.evidence),
  );
  const had =
    whole.length === 0 ? "no item has both values" : `${whole.length} ${whole.length === 1 ? "pair" : "pairs"}`;
  const few = (least: number): Absent<S> => new Absent(symbol, `${had}, where at least ${least} are needed`, evidence);
  const xs = whole.map(({ first }) => first.value);
  const ys = whole.map(({ second }) => second.value);
  const spread = whole.length < 3 ? null : blandAltmanKernel(xs, ys);
  const bias = whole.length < 2 ? few(2) : mean(differences, (each) => each, { sampling: options.id });
  return {
    pairs: new Count(whole.length, evidence),
    bias,
    sd: spread === null ? few(3) : sdOf(spread.sd, whole.length, symbol, { id: options.id, evidence }),
    limits:
      spread === null || !isQuantity(bias)
        ? [few(3), few(3)]
        : [
            limitOf(bias, spread.sd, -1, { id: options.id, n: whole.length }),
            limitOf(bias, spread.sd, 1, { id: options.id, n: whole.length }),
          ],
    proportional: spread?.proportional ?? null,
    line,
    passingBablok: determined(() => passingBablokKernel(xs, ys)),
    concordance: determined(() => concordanceKernel(xs, ys)),
  };
}

function sdOf<S extends string>(
  sd: number,
  n: number,
  symbol: S,
  { id, evidence }: { readonly id: string; readonly evidence: Quantity["evidence"] },
): Quantity<S> {
  const u = sd / Math.sqrt(2 * (n - 1));
  const source = observedSource(`sample/${id}/sd`, "Few pairs behind the standard deviation", u, symbol, n - 1);
  return new Quantity(sd, symbol, [{ source, contribution: u }], evidence);
}

/** A limit of agreement: the bias's shared sources, and the sampling error of a limit in place of that of the bias. */
function limitOf<S extends string>(
  bias: Quantity<S>,
  sd: number,
  side: 1 | -1,
  { id, n }: { readonly id: string; readonly n: number },
): Quantity<S> {
  const z = normalQuantile(0.975);
  const u = sd * Math.sqrt(1 / n + (z * z) / (2 * (n - 1)));
  const name = side === 1 ? "upper limit" : "lower limit";
  const source = observedSource(`sample/${id}/${name}`, `Few pairs behind the ${name}`, u, bias.symbol, n - 1);
  const shared = bias.components.filter((component: Component) => !component.source.id.startsWith(`sample/${id}/`));
  const evidence = evidenceStep(`${name} of agreement, bias ${side === 1 ? "+" : "-"} 1.96 sd`, [bias.evidence]);
  return new Quantity(bias.value + side * z * sd, bias.symbol, [...shared, { source, contribution: u }], evidence);
}

function determined<R>(compute: () => R): R | null {
  try {
    return compute();
  } catch (error) {
    if (error instanceof Undetermined) return null;
    throw error;
  }
}
