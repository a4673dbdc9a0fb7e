import type { BaseShapeName } from "../simulation/key-shape.js";
import type { Spread, UnitOutcome } from "./measure-unit.js";
import type { Tally } from "./tally.js";
import { addTallies, emptyTally, tallyOf } from "./tally.js";
import type { RowName } from "./targets.js";
import { rowKey, rowNames } from "./targets.js";

/** One line of a run: all shapes together, and each for itself. */
export interface RowTotals {
  readonly name: RowName;
  readonly all: Tally;
  readonly byShape: Readonly<Partial<Record<BaseShapeName, Tally>>>;
}

/**
 * Adds up the units of a run, in the order given.
 *
 * The interval of the sd between keys is about the keys that such a unit could have: its truth is the root mean square of
 * the true standard deviations of all units of that shape, which are made with the same tolerances.
 */
export function totalsOf(outcomes: readonly UnitOutcome[]): readonly RowTotals[] {
  const rows = new Map<string, { all: Tally; byShape: Partial<Record<BaseShapeName, Tally>> }>();
  const add = (key: string, shape: BaseShapeName, tally: Tally): void => {
    const row = rows.get(key) ?? { all: emptyTally, byShape: {} };
    row.all = addTallies(row.all, tally);
    row.byShape[shape] = addTallies(row.byShape[shape] ?? emptyTally, tally);
    rows.set(key, row);
  };
  for (const { shape, tallies } of outcomes) {
    for (const [key, each] of Object.entries(tallies)) for (const tally of each) add(key, shape, tally);
  }
  const truths = spreadTruths(outcomes);
  for (const { shape, spreads } of outcomes) {
    for (const spread of spreads) {
      const truth = spread.truthSd === null ? null : truths.get(`${shape} ${spread.characteristic}`)!;
      add(rowKey({ characteristic: spread.characteristic, target: "between" }), shape, tallyOf(spread.interval, truth));
    }
  }
  return rowNames.flatMap((name) => {
    const row = rows.get(rowKey(name));
    return row === undefined ? [] : [{ name, ...row }];
  });
}

function spreadTruths(outcomes: readonly UnitOutcome[]): ReadonlyMap<string, number> {
  const squares = new Map<string, number[]>();
  const keyOf = (shape: BaseShapeName, { characteristic }: Spread): string => `${shape} ${characteristic}`;
  for (const { shape, spreads } of outcomes) {
    for (const spread of spreads) {
      if (spread.truthSd === null) continue;
      const key = keyOf(shape, spread);
      squares.set(key, [...(squares.get(key) ?? []), spread.truthSd ** 2]);
    }
  }
  return new Map([...squares].map(([key, list]) => [key, Math.sqrt(list.reduce((a, b) => a + b, 0) / list.length)]));
}

/** The shape with the lowest coverage of a line, where more than one shape has it. */
export function lowestShape({ byShape }: RowTotals): { readonly shape: BaseShapeName; readonly share: number } | null {
  const shares = (Object.entries(byShape) as [BaseShapeName, Tally][])
    .filter(([, tally]) => tally.results > 0)
    .map(([shape, tally]) => ({ shape, share: tally.covered / tally.results }));
  return shares.length < 2 ? null : shares.reduce((low, each) => (each.share < low.share ? each : low));
}
