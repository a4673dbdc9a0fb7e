import { stringify } from "csv-stringify/sync";
import { expand } from "../../metrology/expanded.js";
import type { Measured } from "../../metrology/quantity.js";
import type { ChartData, DataCell, DataColumn } from "../chart.js";

/**
 * A chart's data as a CSV file (RFC 4180, CRLF). A column of measured values becomes up to three: the value, its expanded
 * uncertainty at 95 % (`_U`), and, where one is not available, the reason (`_absent`). Column names carry the unit of
 * measure. Numbers print in full, cells without a value are empty. Text that a spreadsheet would take for a formula is
 * led by an apostrophe.
 */
export function renderCsv(data: ChartData): string {
  const parts = data.columns.map((column, index) =>
    columnParts(
      column,
      data.rows.map((row) => row[index]!),
    ),
  );
  const header = parts.flatMap((part) => part.names);
  const rows = data.rows.map((_, row) => parts.flatMap((part) => part.cells(row)));
  return stringify([header, ...rows], { record_delimiter: "windows", escape_formulas: true });
}

interface ColumnParts {
  readonly names: readonly string[];
  readonly cells: (row: number) => readonly (string | number)[];
}

function columnParts(column: DataColumn, cells: readonly DataCell[]): ColumnParts {
  const name = column.name + symbolSuffix(column.symbol);
  if (!cells.some(isMeasured)) return { names: [name], cells: (row) => [plainCell(cells[row]!)] };
  const withReasons = cells.some((cell) => isMeasured(cell) && cell.absent);
  return {
    names: [name, `${column.name}_U${symbolSuffix(column.symbol)}`, ...(withReasons ? [`${column.name}_absent`] : [])],
    cells: (row) => {
      const cell = cells[row]!;
      const reason = isMeasured(cell) && cell.absent ? cell.reason : "";
      const pair = isMeasured(cell) && !cell.absent ? [cell.value, expand(cell).U] : ["", ""];
      if (!isMeasured(cell)) pair[0] = plainCell(cell);
      return withReasons ? [...pair, reason] : pair;
    },
  };
}

function isMeasured(cell: DataCell): cell is Measured {
  return typeof cell === "object" && cell !== null;
}

function plainCell(cell: DataCell): string | number {
  return typeof cell === "string" || typeof cell === "number" ? cell : "";
}

/** Characters of unit symbols as the column names of the archive spell them. */
const plainWords: Readonly<Record<string, string>> = { "/": "_per_", "%": "percent", "°": "deg", µ: "u", "²": "2" };

function symbolSuffix(symbol: string | undefined): string {
  if (symbol === undefined || symbol === "1" || symbol === "") return "";
  const plain = [...symbol].map((character) => plainWords[character] ?? character).join("");
  return `_${plain.replace(/\W+/g, "_")}`;
}
