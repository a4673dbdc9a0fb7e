import { expand } from "../../metrology/expanded.js";
import { isQuantity, type Measured } from "../../metrology/quantity.js";
import { counted, joinWords, sayQuantity, sayStated, sayValue, sentence } from "../kit/words.js";

/** What a study of agreement found, as given to the chart. */
export interface AgreementResults {
  /** Mean difference, second minus first. */
  readonly bias?: Measured | undefined;
  /** Limits of agreement, lower then upper, each with its uncertainty. */
  readonly limits?: readonly [lower: Measured, upper: Measured] | undefined;
}

/** What the chart says: the mean difference and what its interval holds, then the limits of agreement. */
export function sayAgreement(
  count: number,
  outside: readonly string[],
  { bias, limits }: AgreementResults,
  says: {
    readonly firstName: string;
    readonly secondName: string;
    readonly noun: string;
    readonly delta: number | undefined;
    readonly symbol: string;
    readonly incomplete: string;
  },
): string {
  const [lower, upper] = limits ?? [];
  const of = counted(count, says.noun);
  const agreement =
    lower === undefined || upper === undefined
      ? ""
      : isQuantity(lower) && isQuantity(upper)
        ? `the limits of agreement are ${sayValue(lower)} and ${sayValue(upper)}, and ${
            outside.length === 0
              ? "no difference lies"
              : `${outside.length} of ${of} ${outside.length === 1 ? "lies" : "lie"}`
          } outside them${outside.length === 0 ? "" : ` (${joinWords(outside)})`}`
        : `limits of agreement not available: ${lower.absent ? lower.reason : upper.absent ? upper.reason : ""}`;
  return sentence(sayBias(bias, of, says), agreement, says.incomplete);
}

/** What the interval of the mean difference holds: zero, the smallest change, both or neither. */
function sayBias(
  bias: Measured | undefined,
  of: string,
  says: {
    readonly firstName: string;
    readonly secondName: string;
    readonly delta: number | undefined;
    readonly symbol: string;
  },
): string {
  const pair = `${says.secondName} minus ${says.firstName}`;
  if (bias === undefined) return `${pair} for ${of}`;
  if (bias.absent) return `mean difference of ${of} not available: ${bias.reason}`;
  const { U } = expand(bias);
  const zero = Math.abs(bias.value) <= U ? "its interval holds zero" : "its interval leaves out zero";
  const { delta } = says;
  const size =
    delta === undefined
      ? ""
      : Math.abs(bias.value) + U < delta
        ? ` and lies inside ±${sayStated(delta, says.symbol)}, the smallest change that matters`
        : Math.abs(bias.value) - U > delta
          ? ` and lies beyond ±${sayStated(delta, says.symbol)}, the smallest change that matters`
          : ` and does not settle whether the difference reaches ±${sayStated(delta, says.symbol)}, the smallest change that matters`;
  return `${pair} is ${sayQuantity(bias)} on average over ${of}: ${zero}${size}`;
}
