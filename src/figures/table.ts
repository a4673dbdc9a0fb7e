import type { Count, Measured } from "../metrology/quantity.js";
import type { Verdict } from "../metrology/verdict.js";
import { nearestName } from "../records/nearest.js";
import { checkOptions } from "./kit/options.js";
import type { Link } from "./link.js";
import type { Result } from "./result.js";

/**
 * What a cell of a table may hold; null prints a dash. A bare number is not one of them. A result prints its quantity and
 * verdict, and enters the schedule of results under its name.
 */
export type TableValue = Measured | Count | Verdict | Link | Result | string | null;

export interface TableColumn {
  /** Key of the rows' records. */
  readonly key: string;
  readonly label: string;
  /** Unit of measure of the whole column, printed in its head; then cells print without it. */
  readonly symbol?: string;
  /** Quantities print `value ± U` by default; `value` prints the value alone where U stands in a column of its own. */
  readonly show?: "value_and_uncertainty" | "value" | "uncertainty";
  /** The texts of the column list several values, parted by ", "; a filter takes each alone. */
  readonly several?: boolean;
}

export interface TableOptions {
  /** One sentence: what the table says. */
  readonly finding: string;
  /** Readers may sort the rows by any column, where their browser runs the page's script; default false. */
  readonly sortable?: boolean;
  /** Keys of columns of texts, links or verdicts by whose values readers may pick rows; default none. */
  readonly filters?: readonly string[];
  /** The table as CSV and JSON files beside it, numbers in full; default: where it is sortable or has filters. */
  readonly downloads?: boolean;
}

/** A table of typed columns, made by a `table` cell. */
export interface Table extends TableOptions {
  readonly kind: "table";
  readonly columns: readonly TableColumn[];
  readonly rows: readonly Readonly<Record<string, TableValue>>[];
}

const knownOptions = ["finding", "sortable", "filters", "downloads"];

/**
 * Builds a table and checks that every row has exactly the declared columns.
 *
 * @param columns `key`, `label`, `symbol`, `show`, `several`; each key once
 * @param rows one record a row, a value for each column, null for none
 * @param options `finding`, `sortable`, `filters`, `downloads`
 * @throws RangeError that names the row and the column; on an unknown option, and on a filter that names no column or one
 *   that holds numbers
 */
export function table(
  columns: readonly TableColumn[],
  rows: readonly Readonly<Record<string, TableValue>>[],
  options: TableOptions,
): Table {
  checkOptions(options, knownOptions, "table");
  const keys = new Set(columns.map((column) => column.key));
  if (keys.size < columns.length) throw new RangeError("two columns of the table have the same key");
  rows.forEach((row, index) => {
    for (const key of keys) {
      if (key in row) continue;
      const near = nearestName(
        key,
        Object.keys(row).filter((each) => !keys.has(each)),
      );
      const remedy = near === undefined ? "use null for none" : `did you mean the rows' "${near}"?`;
      throw new RangeError(`row ${index + 1} has no value for column "${key}"; ${remedy}`);
    }
    for (const key of Object.keys(row)) {
      if (!keys.has(key))
        throw new RangeError(`row ${index + 1} has a value for "${key}", which is no column; leave it out`);
    }
  });
  for (const key of options.filters ?? []) {
    if (!keys.has(key)) throw new RangeError(`the table filters by "${key}", which is no column`);
    if (rows.some((row) => isNumber(row[key]))) {
      throw new RangeError(`the table filters by "${key}", which holds numbers; filter by texts, links or verdicts`);
    }
  }
  return { kind: "table", columns, rows, ...options };
}

function isNumber(value: TableValue | undefined): boolean {
  if (typeof value !== "object" || value === null) return false;
  return !("kind" in value) || value.kind === "result";
}
