import type { Count, Measured } from "../metrology/quantity.js";
import type { Verdict } from "../metrology/verdict.js";
import type { Link } from "./link.js";

/** What a cell of a table may hold; null prints a dash. A bare number is not one of them. */
export type TableValue = Measured | Count | Verdict | Link | string | null;

export interface TableColumn {
  /** Key of the rows' records. */
  readonly key: string;
  readonly label: string;
  /** Unit of measure of the whole column, printed in its head; then cells print without it. */
  readonly symbol?: string;
  /** Quantities print `value ± U` by default; `value` prints the value alone where U stands in a column of its own. */
  readonly show?: "value_and_uncertainty" | "value" | "uncertainty";
}

/** A table of typed columns, made by a `table` cell. */
export interface Table {
  readonly kind: "table";
  readonly columns: readonly TableColumn[];
  readonly rows: readonly Readonly<Record<string, TableValue>>[];
  /** One sentence: what the table says. */
  readonly finding: string;
}

/**
 * Builds a table and checks that every row has exactly the declared columns.
 * @throws RangeError that names the row and the column
 */
export function table(
  columns: readonly TableColumn[],
  rows: readonly Readonly<Record<string, TableValue>>[],
  options: { readonly finding: string },
): Table {
  const keys = new Set(columns.map((column) => column.key));
  rows.forEach((row, index) => {
    for (const key of keys) {
      if (!(key in row)) throw new RangeError(`row ${index + 1} has no value for column "${key}"; use null for none`);
    }
    for (const key of Object.keys(row)) {
      if (!keys.has(key)) throw new RangeError(`row ${index + 1} has a value for "${key}", which is no column`);
    }
  });
  return { kind: "table", columns, rows, finding: options.finding };
}
