import type { ColumnsFile } from "./columns.js";
import { fieldPlan, tables } from "./columns.js";
import type { SourceTable } from "./source-table.js";
import type { FieldColumns } from "./take-force.js";
import type { TakenFile } from "./taken.js";

/** Numbers presses from 1 within what tells their series apart; goes on from file to file. */
export type PressCounter = Map<string, number>;

/**
 * Takes the rows of one file of presses or timings: one row, one reading. Presses that are counted are numbered within
 * their connection, and their reader where there is one.
 */
export function takeReadings(
  table: SourceTable,
  columns: ColumnsFile,
  values: FieldColumns,
  counter: PressCounter,
): TakenFile {
  const { fields } = tables[columns.kind];
  const text = (name: string, row: number): string => values.get(name)?.texts[row] ?? "";
  const isCounted = fieldPlan(columns, "press")!.value.from === "order";
  const rows = table.rows.cells.map((_, row) => {
    const series = JSON.stringify([text("connection", row), text("reader", row)]);
    if (isCounted) counter.set(series, (counter.get(series) ?? 0) + 1);
    return fields.map((name) => (name === "press" && isCounted ? String(counter.get(series)) : text(name, row)));
  });
  return {
    table,
    runs: table.length === 0 ? [] : [{ name: "", from: 0, to: table.length }],
    rows,
    leftOut: table.leftOut,
    positions: fields.map((name) => values.get(name)?.position ?? null),
  };
}
