import type { SourceTable } from "./source-table.js";
import type { LeftOut } from "./left-out.js";

/** Consecutive rows of a file that went into the table together, such as one stroke. */
export interface TakenRun {
  /** What they are: "KeyF, cycle 1, press"; empty where the rows are single readings. */
  readonly name: string;
  readonly stroke?: { readonly key: string; readonly cycle: number; readonly stroke: "press" | "release" };
  /** Rows of the file, `to` not included. */
  readonly from: number;
  readonly to: number;
}

/** What was taken of one file. */
export interface TakenFile {
  readonly table: SourceTable;
  /** In file order. */
  readonly runs: readonly TakenRun[];
  /** The table's rows, run by run: texts in the order of the table's columns. */
  readonly rows: readonly (readonly string[])[];
  readonly leftOut: readonly LeftOut[];
  /** Where each of the table's values stands in the file, by its position; null where it does not stand there. */
  readonly positions: readonly (number | null)[];
}

/** Consecutive rows from `from` to `to`, not included. */
export interface RowSpan {
  readonly from: number;
  readonly to: number;
}

/** All rows, cut where `isSame` does not hold between neighbours. */
export function spansOf(length: number, isSame: (a: number, b: number) => boolean): readonly RowSpan[] {
  const spans: { from: number; to: number }[] = [];
  for (let row = 0; row < length; row += 1) {
    const last = spans.at(-1);
    if (last !== undefined && isSame(row - 1, row)) last.to = row + 1;
    else spans.push({ from: row, to: row + 1 });
  }
  return spans;
}

/** The lines of some rows, as left out for a reason. */
export function leftOutRows(table: SourceTable, span: RowSpan, reason: string): LeftOut {
  return { firstLine: table.firstLine(span.from), lastLine: table.lastLine(span.to - 1), reason };
}
