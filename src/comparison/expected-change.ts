import { Absent, Count, Quantity, effectiveDof, evidenceStep, isQuantity, observedSource } from "../metrology/index.js";
import type { Measured } from "../metrology/index.js";
import { wholeDof } from "../metrology/expanded.js";
import { tCdf } from "../statistics/numeric/distributions.js";
import { meanOf, varianceOf } from "../statistics/numeric/sums.js";

export interface ExpectedChangeOptions<Item> {
  /** Total change of a retested item; absent ones are left out. */
  readonly change: (item: Item) => Measured;
  /** What makes items alike: their kind of switch. */
  readonly kind: (item: Item) => string;
  /** Names the prediction in budgets, unique for the pending item and the characteristic: "u07/actuationForce". */
  readonly id: string;
}

/** What a retest of a pending item is expected to bring. */
export interface ExpectedChange {
  /** Mean change with the standard uncertainty of one further change, s √(1 + 1/m), m - 1 degrees of freedom. */
  readonly change: Measured;
  /** m, the retested items it rests on. */
  readonly from: Count;
  /** `kind`: items of the same kind; `all kinds`: of every kind, because of its own there were under three. */
  readonly basis: "kind" | "all kinds" | "none";
  /** The basis in words, as a clause. */
  readonly note: string;
}

const fewest = 3;

/**
 * The change that a retest of a pending item is expected to bring: mean of the changes of retested items of its kind, with a
 * prediction interval for one further one, m̄ ± t s √(1 + 1/m); under three of its kind, of all kinds (measurement model,
 * section 7). It takes the pending item for one like the others, and their changes for normal.
 *
 * @param pending the item that has not been retested
 * @param retested items that have, without those that stand apart
 * @returns an absent change, with the reason, where fewer than three were retested in all
 * @throws RangeError where the changes differ in their symbol
 * Source: Hahn and Meeker, Statistical Intervals (1991), 4.7.
 */
export function expectedChange<Item>(
  pending: Item,
  retested: readonly Item[],
  options: ExpectedChangeOptions<Item>,
): ExpectedChange {
  const all = retested.flatMap((item) => {
    const change = options.change(item);
    return isQuantity(change) ? [{ item, change }] : [];
  });
  const symbol = all[0]?.change.symbol ?? (retested.length > 0 ? options.change(retested[0]!).symbol : "1");
  const odd = all.find(({ change }) => change.symbol !== symbol);
  if (odd !== undefined) throw new RangeError(`changes in ${symbol} and in ${odd.change.symbol}`);
  const kind = options.kind(pending);
  const alike = all.filter(({ item }) => options.kind(item) === kind);
  const used = alike.length >= fewest ? alike : all;
  const evidence = evidenceStep(
    `mean change of ${used.length} retested, for one further`,
    used.map(({ change }) => change.evidence),
  );
  const from = new Count(used.length, evidence);
  if (used.length < fewest) {
    const note = `only ${used.length} retested so far; three are needed to expect anything`;
    return { change: new Absent(symbol, note, evidence), from, basis: "none", note };
  }
  const values = used.map(({ change }) => change.value);
  const u = Math.sqrt(varianceOf(values) * (1 + 1 / used.length));
  const label = `One further change, from ${used.length}`;
  const source = observedSource(`expected/${options.id}`, label, u, symbol, used.length - 1);
  const change = new Quantity(meanOf(values), symbol, u === 0 ? [] : [{ source, contribution: u }], evidence);
  const basis = used === all && alike.length < fewest ? "all kinds" : "kind";
  const note =
    basis === "kind"
      ? `from ${used.length} retested units of its kind (${kind})`
      : `from ${used.length} retested units of all kinds, since ${alike.length === 0 ? "none" : `only ${alike.length}`} of its kind (${kind}) ${alike.length === 1 ? "was" : "were"} retested`;
  return { change, from, basis, note };
}

/**
 * Probability that a predicted change is larger in size than a margin, from Student's distribution of its degrees of freedom.
 * @throws RangeError where the margin is below 0 or in another symbol
 */
export function probabilityBeyond(change: Quantity, margin: Quantity): number {
  if (change.symbol !== margin.symbol)
    throw new RangeError(`a change in ${change.symbol}, a margin in ${margin.symbol}`);
  if (!(margin.value >= 0)) throw new RangeError(`the margin is ${margin.value}; it must be at least 0`);
  if (change.u === 0) return Math.abs(change.value) > margin.value ? 1 : 0;
  const dof = wholeDof(effectiveDof(change));
  return tCdf(-(margin.value + change.value) / change.u, dof) + tCdf((change.value - margin.value) / change.u, dof);
}
