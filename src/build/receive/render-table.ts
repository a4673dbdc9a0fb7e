import { stringify } from "csv-stringify/sync";
import type { ColumnsFile } from "./columns.js";
import { tables } from "./columns.js";

/**
 * The table as the archive keeps it (RFC 4180, line feeds): a header whose measured columns name the source's own unit of
 * measure, then the rows as they were taken.
 *
 * @param rows texts in the order of the table's columns
 */
export function renderTable(columns: ColumnsFile, rows: Iterable<readonly string[]>): string {
  return stringify([headerOf(columns), ...rows] as string[][], { record_delimiter: "\n" });
}

/** Names of the table's columns; the suffix of a measured one is the unit of measure of the source. */
export function headerOf({ kind, fields }: ColumnsFile): readonly string[] {
  return tables[kind].fields.map((name) => {
    const reading = fields.find((field) => field.name === name)?.reading;
    return reading?.as === "measure" ? `${name}_${reading.unit}` : name;
  });
}
