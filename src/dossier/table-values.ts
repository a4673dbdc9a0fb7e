import type { Table, TableColumn, TableValue } from "../figures/table.js";
import type { Count, Measured } from "../metrology/quantity.js";
import type { Verdict } from "../metrology/verdict.js";
import { numberText } from "./render-number.js";

type Row = Table["rows"][number];

/** The number that a cell prints; null where it prints none. */
export function numberIn(value: TableValue | undefined): Measured | Count | null {
  if (typeof value !== "object" || value === null) return null;
  if (!("kind" in value)) return value;
  return value.kind === "result" ? value.value : null;
}

/** The verdict that a cell prints, alone or beside a result; null where it prints none. */
export function verdictIn(value: TableValue | undefined): Verdict | null {
  if (typeof value !== "object" || value === null || !("kind" in value)) return null;
  if (value.kind === "result") return value.verdict ?? null;
  return value.kind === "verdict" ? value : null;
}

/** The text that a cell prints, a link's too; null where it prints something else. */
export function textIn(value: TableValue | undefined): string | null {
  if (typeof value === "string") return value;
  return typeof value === "object" && value !== null && "kind" in value && value.kind === "link" ? value.text : null;
}

/** What names a row: its texts before the first number, else its place. */
export function rowLabel(table: Table, row: Row, index: number): string {
  const names: string[] = [];
  for (const column of table.columns) {
    const text = textIn(row[column.key]);
    if (text === null) break;
    names.push(text);
  }
  if (names.length > 0) return names.join(", ");
  const first = numberIn(row[table.columns[0]?.key ?? ""]);
  return first === null ? `row ${index + 1}` : `row ${index + 1} (${numberText(first)})`;
}

/** Whether a column is set as text: the first one is, and every one without a number. */
export function columnIsText(table: Table, column: TableColumn, index: number): boolean {
  return index === 0 || table.rows.every((row) => numberIn(row[column.key]) === null);
}
