import { Absent, Quantity, evidenceStep, isQuantity, observedSource } from "../metrology/index.js";
import type { Measured } from "../metrology/index.js";
import type { Agreement } from "./agreement.js";

/**
 * The change predicted for one further item like those compared: their mean difference with the standard uncertainty
 * s √(1 + 1/n) and n - 1 degrees of freedom, so that value ± U is the 95 % prediction interval. Unlike limits of agreement, it
 * holds how few pairs the scatter is known from. It takes the differences for normal.
 *
 * @param agreement of three pairs at least
 * @param options `id`: names the sample in budgets, unique on a page
 * @returns absent, with the reason, where there are too few pairs for a scatter
 * Source: Hahn and Meeker, Statistical Intervals (1991), 4.7.
 */
export function furtherChange<S extends string>(
  { bias, sd, pairs }: Pick<Agreement<S>, "bias" | "sd" | "pairs">,
  options: { readonly id: string },
): Measured<S> {
  if (!isQuantity(bias)) return bias;
  if (!isQuantity(sd)) return new Absent(sd.symbol, sd.reason, sd.evidence);
  const n = pairs.count;
  const u = sd.value * Math.sqrt(1 + 1 / n);
  const source = observedSource(`further/${options.id}`, `One further change, from ${n}`, u, sd.symbol, n - 1);
  const evidence = evidenceStep(`mean of ${n} differences, for one further`, [bias.evidence]);
  return new Quantity(bias.value, bias.symbol, u === 0 ? [] : [{ source, contribution: u }], evidence);
}
