import type { Table, TableColumn, TableValue } from "../figures/table.js";
import type { Grounded } from "./ground-book.js";
import { isVerdict } from "./ground-book.js";
import { renderLink } from "./links.js";
import type { Content, Markup } from "./markup.js";
import { Markup as RawMarkup, html, join, nothing } from "./markup.js";
import type { Page } from "./page-state.js";
import type { Place } from "./plan-page.js";
import { renderMark, renderWorkingMarks } from "./render-mark.js";
import type { NumberOptions } from "./render-number.js";
import { numberText, renderNumber } from "./render-number.js";
import { renderVerdictWord } from "./render-verdict.js";

/** A `table` cell: its heading, the table in a region that scrolls, and its finding. */
export function renderTable(page: Page, table: Table, place: Place): Markup {
  const caption = place.outcome.cell.caption ?? "";
  citeColumns(page, table, place);
  return html`<div class="plate" id="${place.anchor}">
    ${renderPlateHeading(place, caption)}
    ${renderRegion(
      html`<table class="data">
        <caption class="unseen">
          ${place.name}: ${caption}
        </caption>
        <thead>
          <tr>
            ${table.columns.map((column, index) => html`<th scope="col" ${classOf(columnIsText(table, column, index))}>${columnLabel(column)}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${join(table.rows.map((row) => renderRow(page, table, row)))}
        </tbody>
      </table>`,
      `${place.name}: ${caption}`,
    )}
    <p class="finding">${table.finding}</p>
  </div> `;
}

/** The heading of a figure, table or criterion, with the mark of the sheet that made it. */
export function renderPlateHeading(place: Place, caption: string): Markup {
  const body = html`<span class="plate-name">${place.name}</span> <span class="plate-caption">${caption}</span>`;
  const mark = renderWorkingMarks([place.outcome.cell.index]);
  return new RawMarkup(`<h${place.level} class="plate-heading">${body.text}${mark.text}</h${place.level}>`);
}

/** A region that scrolls sideways by keyboard as well. */
export function renderRegion(table: Markup, label: string): Markup {
  return html`<div class="region" role="region" tabindex="0" aria-label="${label}">${table}</div>`;
}

/** A column's head: its label and, in brackets, its unit of measure. */
export function columnLabel(column: { readonly label: string; readonly symbol?: string }): Content {
  const { label, symbol } = column;
  return symbol === undefined || symbol === "1" ? label : html`${label} <span class="symbol">(${symbol})</span>`;
}

/** Announces every number that a table prints, before anything on the page is rendered. */
export function awaitTable(page: Page, table: Table): void {
  for (const row of table.rows) {
    for (const { key } of table.columns) {
      const value = row[key];
      if (isGrounded(value) && !isVerdict(value)) page.book.await(value);
    }
  }
}

/** Numbers that stand in one column share one ground, in the order of the rows. */
function citeColumns(page: Page, table: Table, place: Place): void {
  const { index, caption } = place.outcome.cell;
  const passes = [(subject: Grounded) => !isVerdict(subject), isVerdict];
  for (const belongs of passes) {
    for (const column of table.columns) {
      const subjects = table.rows.flatMap((row, at) => {
        const value = row[column.key];
        if (!isGrounded(value) || !belongs(value)) return [];
        return [{ subject: value, label: rowLabel(table, row, at) }];
      });
      const label = `${column.label} (${place.name}${caption === null ? "" : `, ${caption}`})`;
      if (subjects.length > 0) page.book.citeAll(subjects, { label, workings: [index] });
    }
  }
}

function renderRow(page: Page, table: Table, row: Readonly<Record<string, TableValue>>): Markup {
  const cells = table.columns.map((column, index) => {
    const value = row[column.key] ?? null;
    if (index === 0 && typeof value === "string") return html`<th scope="row">${value}</th>`;
    return html`<td${classOf(columnIsText(table, column, index))}>${renderTableValue(page, column, value)}</td>`;
  });
  return html`<tr>
    ${cells}
  </tr> `;
}

function renderTableValue(page: Page, column: TableColumn, value: TableValue): Content {
  if (value === null) return html`<span aria-hidden="true">–</span><span class="unseen">none</span>`;
  if (typeof value === "string") return value;
  if ("kind" in value && value.kind === "link") return renderLink(value);
  const mark = renderMark(page, page.book.find(value));
  if (isVerdict(value)) return html`<span class="cited">${renderVerdictWord(value)}${mark}</span>`;
  return html`<span class="cited">${renderNumber(value, numberOptions(column))}${mark}</span>`;
}

function numberOptions(column: TableColumn): NumberOptions {
  return {
    ...(column.show === undefined ? {} : { show: column.show }),
    ...(column.symbol === undefined ? {} : { columnSymbol: column.symbol }),
  };
}

/** What names a row in its ground: its texts before the first number, else its place. */
function rowLabel(table: Table, row: Readonly<Record<string, TableValue>>, index: number): string {
  const names: string[] = [];
  for (const column of table.columns) {
    const value = row[column.key];
    if (typeof value === "string") names.push(value);
    else if (typeof value === "object" && value !== null && "kind" in value && value.kind === "link")
      names.push(value.text);
    else break;
  }
  if (names.length > 0) return names.join(", ");
  const first = row[table.columns[0]?.key ?? ""];
  const isNumber = isGrounded(first) && !isVerdict(first);
  return isNumber ? `row ${index + 1} (${numberText(first)})` : `row ${index + 1}`;
}

function isGrounded(value: TableValue | undefined): value is Grounded {
  if (typeof value !== "object" || value === null) return false;
  return !("kind" in value) || value.kind === "verdict";
}

function columnIsText(table: Table, column: TableColumn, index: number): boolean {
  if (index === 0) return true;
  return table.rows.every((row) => {
    const value = row[column.key] ?? null;
    return value === null || typeof value === "string" || ("kind" in value && value.kind !== undefined);
  });
}

function classOf(isText: boolean): Markup {
  return isText ? nothing : html` class="numeric"`;
}
