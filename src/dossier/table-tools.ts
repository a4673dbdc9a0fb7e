import type { Table, TableValue } from "../figures/table.js";
import { verdictWord } from "../metrology/verdict.js";
import type { Content, Markup } from "./markup.js";
import { html, join, nothing } from "./markup.js";
import { numberIn, textIn, verdictIn } from "./table-values.js";

/**
 * What a table gives its readers' script to work with: for every cell its place in the order of its column, for every row
 * its values under each filter. All of it is worked out here, so that the script compares whole numbers alone.
 */
export interface TableTools {
  readonly sortable: boolean;
  readonly filters: readonly { readonly label: string; readonly values: readonly string[] }[];
  readonly rowCount: number;
  /** Attribute of a cell; nothing where it has no value, so that it sorts last. */
  order(column: number, row: number): Markup;
  /** Attributes of a row. */
  picks(row: number): Markup;
}

/** The tools of a table; null where it is neither sortable nor has filters, or holds fewer than two rows. */
export function tableTools(table: Table): TableTools | null {
  const keys = table.filters ?? [];
  if ((table.sortable !== true && keys.length === 0) || table.rows.length < 2) return null;
  const columns = table.columns.map((column) => table.rows.map((row) => row[column.key] ?? null));
  const orders = table.sortable === true ? columns.map(orderOf) : [];
  const filters = keys.flatMap((key) => {
    const at = table.columns.findIndex((column) => column.key === key);
    const column = table.columns[at];
    if (column === undefined) return [];
    const ofRow = columns[at]!.map((value) => filterValues(value, column.several === true));
    const values = [...new Set(ofRow.flat())].sort(byWords);
    return [{ label: column.label, values, ofRow: ofRow.map((texts) => texts.map((text) => values.indexOf(text))) }];
  });
  return {
    sortable: table.sortable === true,
    filters,
    rowCount: table.rows.length,
    order: (column, row) => {
      const place = orders[column]?.[row] ?? null;
      return place === null ? nothing : html` data-order="${place}"`;
    },
    picks: (row) => join(filters.map(({ ofRow }, index) => html` data-pick-${index}="${ofRow[row]!.join(" ")}"`)),
  };
}

/** Keeps the sign on the line of the label's last word. */
const noBreak = "\u00a0";

/** The head of a sortable column: its label, and the same as a button for those whose browser runs the page's script. */
export function renderHead(tools: TableTools, label: Content): Content {
  if (!tools.sortable) return label;
  return html`<span class="sort-label">${label}</span
    ><button type="button" class="sort">${label}${noBreak}<span class="sort-sign" aria-hidden="true"></span></button>`;
}

/** Filters, and the line that says politely how many rows stand and in which order. */
export function renderTools(tools: TableTools, name: string): Markup {
  const filters = tools.filters.map(
    ({ label, values }, index) =>
      html`<label
        >${label}
        <select data-filter="${index}">
          <option value="">all</option>
          ${values.map((value, at) => html`<option value="${at}">${value}</option>`)}
        </select>
      </label>`,
  );
  const reset = filters.length === 0 ? nothing : html`<button type="button" class="all-rows">All rows</button>`;
  return html`<div class="table-tools" role="group" aria-label="Rows of ${name}">
    ${filters}${reset}
    <p class="table-state" role="status">${tools.rowCount} rows</p>
  </div>`;
}

function filterValues(value: TableValue, several: boolean): readonly string[] {
  const verdict = verdictIn(value);
  const text = verdict === null ? textIn(value) : verdictWord(verdict);
  if (text === null || text === "") return ["none"];
  return several ? text.split(", ") : [text];
}

/** Place of every cell in the order of its column, from 0; equal ones share a place, those without a value have null. */
function orderOf(values: readonly TableValue[]): readonly (number | null)[] {
  const keys = values.map(sortKey);
  const present = keys.filter((key) => key !== null).sort(compareKeys);
  const places = present.filter((key, index) => index === 0 || compareKeys(present[index - 1]!, key) !== 0);
  return keys.map((key) => (key === null ? null : places.findIndex((place) => compareKeys(place, key) === 0)));
}

function sortKey(value: TableValue): number | string | null {
  const number = numberIn(value);
  if (number !== null) return "count" in number ? number.count : number.absent ? null : number.value;
  const verdict = verdictIn(value);
  if (verdict !== null) return ["no", "undecided", "yes"].indexOf(verdict.outcome);
  const text = textIn(value);
  return text === "" ? null : text;
}

/** Numbers before texts; texts by their words and numbers. */
function compareKeys(a: number | string, b: number | string): number {
  if (typeof a === "number") return typeof b === "number" ? a - b : -1;
  return typeof b === "number" ? 1 : byWords(a, b);
}

/** Texts by code units, runs of digits by their number: u2 before u10. */
function byWords(a: string, b: string): number {
  const [left, right] = [a, b].map((text) => text.split(/(\d+)/));
  for (let index = 0; index < Math.min(left!.length, right!.length); index++) {
    const [one, other] = [left![index]!, right![index]!];
    if (one === other) continue;
    if (index % 2 === 1 && Number(one) !== Number(other)) return Number(one) - Number(other);
    return one < other ? -1 : 1;
  }
  return left!.length - right!.length;
}
