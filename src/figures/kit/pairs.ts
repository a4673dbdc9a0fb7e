import { difference } from "../../metrology/derive.js";
import { expand } from "../../metrology/expanded.js";
import { isQuantity, type Measured, type Quantity } from "../../metrology/quantity.js";
import { checkMeasured, checkOneSymbol, labelOf, reasonWords, type LabelOptions } from "./entries.js";

/** Two values of one item, such as one unit under two methods. */
export interface MeasuredPair {
  readonly first: Measured;
  readonly second: Measured;
}

/** A pair of a figure with its label. */
export interface PairEntry extends MeasuredPair {
  readonly label: string;
  readonly index: number;
}

/** A pair of which both values are there. */
export interface WholePair extends PairEntry {
  readonly first: Quantity;
  readonly second: Quantity;
}

/**
 * The pairs of a figure in the given order.
 * @throws RangeError where units of measure differ, or an accessor gives no measured value
 */
export function pairsOf<T>(
  items: readonly T[],
  pair: (item: T, index: number) => MeasuredPair,
  options: LabelOptions<T>,
  where: string,
): readonly PairEntry[] {
  const pairs = items.map((item, index) => {
    const { first, second } = pair(item, index);
    return {
      label: labelOf(item, index, options, where),
      index,
      first: checkMeasured(first, index, where),
      second: checkMeasured(second, index, where),
    };
  });
  checkOneSymbol(
    pairs.flatMap(({ first, second }) => [first, second]),
    where,
  );
  return pairs;
}

/** The pairs of which both values are there. */
export function wholePairs<P extends PairEntry>(pairs: readonly P[]): readonly (P & WholePair)[] {
  return pairs.filter((pair): pair is P & WholePair => isQuantity(pair.first) && isQuantity(pair.second));
}

/** Pairs of which a value is missing, as a clause with the reasons; empty where none is. */
export function sayIncomplete(pairs: readonly PairEntry[]): string {
  const missing = pairs.flatMap(({ label, first, second }) => {
    const lacking = first.absent ? first : second.absent ? second : undefined;
    return lacking === undefined ? [] : [{ label, reason: lacking.reason }];
  });
  const words = reasonWords(missing);
  return words === "" ? "" : `without both values: ${words}`;
}

/** Second minus first with its expanded uncertainty; shared sources cancel. */
export function differenceOf(pair: WholePair): { readonly quantity: Quantity; readonly U: number } {
  const quantity = difference(pair.second, pair.first);
  return { quantity, U: expand(quantity).U };
}
