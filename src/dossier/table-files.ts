import { stringify } from "csv-stringify/sync";
import type { Table, TableColumn, TableValue } from "../figures/table.js";
import { expand } from "../metrology/expanded.js";
import type { Count, Measured } from "../metrology/quantity.js";
import { verdictWord } from "../metrology/verdict.js";
import type { Markup } from "./markup.js";
import { dataAddress, html, nothing } from "./markup.js";
import type { Place } from "./plan-page.js";
import { numberIn, textIn, verdictIn } from "./table-values.js";

/** The table as files, where its author or its tools ask for them. */
export function renderDownloads(table: Table, place: Place): Markup {
  const wanted = table.downloads ?? (table.sortable === true || (table.filters ?? []).length > 0);
  if (!wanted || table.rows.length === 0) return nothing;
  const name = place.anchor.replace(/^r-/, "");
  const json = tableJson(table, place.outcome.cell.caption ?? place.name);
  return html`<p class="to-values">
    All rows, numbers in full:
    <a download="${name}.csv" href="${dataAddress("text/csv", tableCsv(table))}">CSV file</a>,
    <a download="${name}.json" href="${dataAddress("application/json", json)}">JSON file</a>
  </p>`;
}

/**
 * A table as CSV (RFC 4180, CRLF). A column of numbers becomes value, expanded uncertainty at 95 % (`_U`) and, where rows
 * differ in it, unit of measure (`_symbol`); reasons of absences (`_absent`) and verdicts (`_verdict`) follow where there are
 * any. Text that a spreadsheet would take for a formula is led by an apostrophe.
 */
export function tableCsv(table: Table): string {
  const parts = table.columns.map((column) =>
    columnParts(
      column,
      table.rows.map((row) => row[column.key] ?? null),
    ),
  );
  const header = parts.flatMap((part) => part.names);
  const rows = table.rows.map((_, row) => parts.flatMap((part) => part.cells(row)));
  return stringify([header, ...rows], { record_delimiter: "windows", escape_formulas: true });
}

interface ColumnParts {
  readonly names: readonly string[];
  readonly cells: (row: number) => readonly (string | number)[];
}

function columnParts({ key }: TableColumn, values: readonly TableValue[]): ColumnParts {
  const name = snakeCase(key);
  const numbers = values.map(numberIn);
  const verdicts = values.map(verdictIn);
  const verdictCell = (row: number): string => (verdicts[row] ? verdictWord(verdicts[row]) : "");
  if (numbers.every((number) => number === null)) {
    return { names: [name], cells: (row) => [textIn(values[row]!) ?? verdictCell(row)] };
  }
  const measured = numbers.filter((number) => number !== null && !("count" in number)) as readonly Measured[];
  const symbols = new Set(measured.map(({ symbol }) => symbol));
  const unit = symbols.size === 1 ? symbolSuffix([...symbols][0]!) : "";
  const optional = [
    { name: `${name}_symbol`, wanted: symbols.size > 1, cell: (row: number) => symbolOf(numbers[row]!) },
    {
      name: `${name}_absent`,
      wanted: measured.some(({ absent }) => absent),
      cell: (row: number) => reasonOf(numbers[row]!),
    },
    { name: `${name}_verdict`, wanted: verdicts.some((verdict) => verdict !== null), cell: verdictCell },
  ].filter(({ wanted }) => wanted);
  const value = (row: number): readonly (string | number)[] => {
    const number = numbers[row]!;
    if (number === null) return [textIn(values[row]!) ?? "", ""];
    if ("count" in number) return [number.count, ""];
    return number.absent ? ["", ""] : [number.value, expand(number).U];
  };
  const pair = measured.length === 0 ? [name] : [name + unit, `${name}_U${unit}`];
  return {
    names: [...pair, ...optional.map((part) => part.name)],
    cells: (row) => [...value(row).slice(0, pair.length), ...optional.map((part) => part.cell(row))],
  };
}

function symbolOf(number: Measured | Count | null): string {
  return number === null || "count" in number ? "" : number.symbol;
}

function reasonOf(number: Measured | Count | null): string {
  return number === null || "count" in number || !number.absent ? "" : number.reason;
}

/** Characters of unit symbols as the column names of an archive spell them. */
const plainWords: Readonly<Record<string, string>> = { "/": "_per_", "%": "percent", "°": "deg", µ: "u", "²": "2" };

function symbolSuffix(symbol: string): string {
  if (symbol === "1") return "";
  return `_${[...symbol].map((character) => plainWords[character] ?? character).join("")}`;
}

function snakeCase(key: string): string {
  return key.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}

/**
 * A table as JSON: columns with their labels and units of measure, then one object a row. A number is an object with
 * `value`, `U`, `u`, `dof` (null where infinite), `k`, `level` and `symbol`, an absence one with its reason, a verdict one with
 * its word, outcome, statement and rule.
 */
export function tableJson(table: Table, caption: string): string {
  const columns = table.columns.map(({ key, label, symbol }) => ({
    key,
    label,
    ...(symbol === undefined ? {} : { symbol }),
  }));
  const rows = table.rows.map((row) =>
    Object.fromEntries(table.columns.map(({ key }) => [key, jsonValue(row[key] ?? null)])),
  );
  return JSON.stringify({ caption, finding: table.finding, columns, rows });
}

function jsonValue(value: TableValue): unknown {
  if (value === null || typeof value === "string") return value;
  if (!("kind" in value)) return jsonNumber(value);
  if (value.kind === "link") return { text: value.text, href: value.href };
  const verdict = verdictIn(value);
  const said =
    verdict === null
      ? {}
      : { verdict: verdictWord(verdict), outcome: verdict.outcome, statement: verdict.statement, rule: verdict.rule };
  return value.kind === "result" ? { result: value.label, ...jsonNumber(value.value), ...said } : said;
}

function jsonNumber(number: Measured | Count): object {
  if ("count" in number) return { count: number.count };
  if (number.absent) return { absent: number.reason, symbol: number.symbol };
  const { U, k, dof, level } = expand(number);
  return {
    value: number.value,
    U,
    u: number.u,
    dof: Number.isFinite(dof) ? dof : null,
    k,
    level,
    symbol: number.symbol,
  };
}
