import type { Table, TableColumn, TableValue } from "../figures/table.js";
import type { Result } from "../figures/result.js";
import type { Count, Measured } from "../metrology/quantity.js";
import type { Verdict } from "../metrology/verdict.js";
import type { Grounded } from "./ground-book.js";
import { isVerdict } from "./ground-book.js";
import { tablePlaces } from "./column-places.js";
import { renderLink } from "./links.js";
import type { Content, Markup } from "./markup.js";
import { Markup as RawMarkup, html, join, nothing } from "./markup.js";
import type { Page } from "./page-state.js";
import type { Place } from "./plan-page.js";
import { renderMark, renderWorkingMarks } from "./render-mark.js";
import type { NumberOptions } from "./render-number.js";
import { placesOf, renderNumber } from "./render-number.js";
import { renderVerdictWord } from "./render-verdict.js";
import { renderDownloads } from "./table-files.js";
import type { TableTools } from "./table-tools.js";
import { renderHead, renderTools, tableTools } from "./table-tools.js";
import { columnIsText, numberIn, plainVerdictIn, rowLabels, verdictIn } from "./table-values.js";

/** A `table` cell: its heading, the table in a region that scrolls, its finding, and where asked for its files and tools. */
export function renderTable(page: Page, table: Table, place: Place): Markup {
  const caption = place.outcome.cell.caption ?? "";
  citeColumns(page, table, place);
  const tools = tableTools(table);
  if (tools !== null) page.usesTableTools = true;
  const heads = table.columns.map((column, index) => {
    const label = columnLabel(column);
    return html`<th scope="col" ${classOf(columnIsText(table, column, index))}>
      ${tools === null ? label : renderHead(tools, label)}
    </th>`;
  });
  return html`<div class="plate${tools === null ? "" : " tooled"}" id="${place.anchor}">
    ${renderPlateHeading(place, caption)}${tools === null ? nothing : renderTools(tools, place.name)}
    ${renderRegion(
      html`<table class="data">
        <caption class="unseen">
          ${place.name}: ${caption}
        </caption>
        <thead>
          <tr>
            ${heads}
          </tr>
        </thead>
        <tbody>
          ${join(table.rows.map((row, index) => renderRow({ page, table, place, tools }, row, index)))}
        </tbody>
      </table>`,
      `${place.name}: ${caption}`,
    )}
    <p class="finding">${table.finding}</p>
    ${renderDownloads(table, place)}
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

/** Announces every number that a table prints, and with how many places, before anything on the page is rendered. */
export function awaitTable(page: Page, table: Table): void {
  for (const [number, places] of tablePlaces(table)) page.places.set(number, places);
  for (const row of table.rows) {
    for (const { key } of table.columns) {
      const number = numberIn(row[key]);
      if (number !== null) page.book.await(number);
    }
  }
}

/** Numbers that stand in one column share one ground, in the order of the rows; verdicts follow all numbers. */
function citeColumns(page: Page, table: Table, place: Place): void {
  const { index, caption } = place.outcome.cell;
  const labels = rowLabels(table);
  for (const pick of [numberIn, plainVerdictIn, verdictIn]) {
    for (const column of table.columns) {
      const subjects = table.rows.flatMap((row, at) => {
        const subject: Grounded | null = pick(row[column.key]);
        return subject === null ? [] : [{ subject, label: labels[at]! }];
      });
      const label = `${column.label} (${place.name}${caption === null ? "" : `, ${caption}`})`;
      if (subjects.length > 0) page.book.citeAll(subjects, { label, workings: [index] });
    }
  }
}

interface Setting {
  readonly page: Page;
  readonly table: Table;
  readonly place: Place;
  readonly tools: TableTools | null;
}

function renderRow(setting: Setting, row: Table["rows"][number], at: number): Markup {
  const { table, tools } = setting;
  const alone = new Set(table.columns.flatMap(({ key }) => plainVerdictIn(row[key]) ?? []));
  const cells = table.columns.map((column, index) => {
    const value = row[column.key] ?? null;
    const order = tools?.order(index, at) ?? nothing;
    const isName = typeof value === "string" || (value !== null && "kind" in value && value.kind === "link");
    if (index === 0 && isName)
      return html`<th scope="row" ${order}>${typeof value === "string" ? value : renderLink(value)}</th>`;
    const anchor = `${setting.place.anchor}-${at + 1}-${index + 1}`;
    const kind = classOf(columnIsText(table, column, index));
    return html`<td${kind}${order}>${renderTableValue(setting.page, column, value, { anchor, alone })}</td>`;
  });
  return html`<tr${tools?.picks(at) ?? nothing}>
    ${cells}
  </tr> `;
}

/** Dates and names that would break at a hyphen. */
const shortName = /^(?=.{1,20}$)\w+(?:-\w+)+$/;

interface ResultPlace {
  readonly anchor: string;
  /** Verdicts that stand in cells of their own in the row; a result does not print them again. */
  readonly alone: ReadonlySet<Verdict>;
}

function renderTableValue(page: Page, column: TableColumn, value: TableValue, place: ResultPlace): Content {
  if (value === null) return html`<span aria-hidden="true">–</span><span class="unseen">none</span>`;
  if (typeof value === "string") return shortName.test(value) ? html`<span class="whole">${value}</span>` : value;
  if (!("kind" in value)) return renderCited(page, value, numberOptions(column));
  if (value.kind === "link") return renderLink(value);
  if (value.kind === "verdict") return renderCited(page, value, {});
  return renderResult(page, value, numberOptions(column), place);
}

function renderCited(page: Page, subject: Measured | Count | Verdict, options: NumberOptions): Markup {
  const mark = renderMark(page, page.book.find(subject), "table");
  if (isVerdict(subject)) return html`<span class="cited">${renderVerdictWord(subject)}${mark}</span>`;
  return html`${renderNumber(subject, { ...options, ...placesOf(page, subject) })}${mark}`;
}

/** A result prints like its quantity and enters the schedule; its own verdict, if any, follows. */
function renderResult(page: Page, result: Result, options: NumberOptions, { anchor, alone }: ResultPlace): Markup {
  const { label, value, verdict } = result;
  page.results.push({
    section: page.book.section,
    label,
    anchor,
    value: renderNumber(value),
    verdict: verdict === undefined ? nothing : renderVerdictWord(verdict),
  });
  const said = verdict === undefined || alone.has(verdict) ? nothing : html` ${renderCited(page, verdict, {})}`;
  return html`<span id="${anchor}">${renderCited(page, value, options)}${said}</span>`;
}

function numberOptions(column: TableColumn): NumberOptions {
  return {
    ...(column.show === undefined ? {} : { show: column.show }),
    ...(column.symbol === undefined ? {} : { columnSymbol: column.symbol }),
  };
}

function classOf(isText: boolean): Markup {
  return isText ? nothing : html` class="numeric"`;
}
