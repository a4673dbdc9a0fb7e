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

/** The verdict that a cell prints alone. */
export function plainVerdictIn(value: TableValue | undefined): Verdict | null {
  return typeof value === "object" && value !== null && "kind" in value && value.kind === "verdict" ? value : null;
}

/** The text that a cell prints, a link's too; null where it prints something else. */
export function textIn(value: TableValue | undefined): string | null {
  if (typeof value === "string") return value;
  return typeof value === "object" && value !== null && "kind" in value && value.kind === "link" ? value.text : null;
}

/**
 * What names each row: as many of its texts and counts before the first quantity as it takes to tell all rows apart; where
 * they do not, all of them; without any, the row's place.
 */
export function rowLabels(table: Table): readonly string[] {
  const names = table.rows.map((row) => namesIn(table, row));
  const most = Math.max(0, ...names.map((list) => list.length));
  for (let width = 1; width <= most; width++) {
    const labels = names.map((list) => list.slice(0, width).join(", "));
    if (width === most || new Set(labels).size === labels.length)
      return labels.map((label, at) => label || place(table, at));
  }
  return table.rows.map((_, at) => place(table, at));
}

function namesIn(table: Table, row: Row): readonly string[] {
  const names: string[] = [];
  for (const column of table.columns) {
    const number = numberIn(row[column.key]);
    const text = number !== null && "count" in number ? String(number.count) : textIn(row[column.key]);
    if (text === null) break;
    names.push(text);
  }
  return names;
}

function place(table: Table, at: number): string {
  const first = numberIn(table.rows[at]![table.columns[0]?.key ?? ""]);
  return first === null ? `row ${at + 1}` : `row ${at + 1} (${numberText(first)})`;
}

/** Whether a column is set as text: the first one is, and every one without a number. */
export function columnIsText(table: Table, column: TableColumn, index: number): boolean {
  return index === 0 || table.rows.every((row) => numberIn(row[column.key]) === null);
}
