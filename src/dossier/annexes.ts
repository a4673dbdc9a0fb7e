import type { DataCell } from "../figures/chart.js";
import { roundToPlaces } from "../metrology/print.js";
import { commonPlaces } from "./column-places.js";
import type { DossierInput } from "./input.js";
import type { Content, Markup } from "./markup.js";
import { html, join } from "./markup.js";
import type { Page, PlottedChart } from "./page-state.js";
import { renderPath } from "./render-chain.js";
import { isMeasured } from "./render-figure.js";
import { renderCitation } from "./render-mark.js";
import { plainNumberText, renderNumber } from "./render-number.js";
import { columnLabel, renderRegion } from "./render-table.js";

/** Deviations from the methods, each with where it was recorded. */
export function renderDeviations(page: Page): Markup {
  const { deviations } = page.input;
  if (deviations.length === 0)
    return html`<p>None recorded: the work followed the methods named in the title block.</p>`;
  const items = deviations.map(({ where, text, file, line }) => {
    const source =
      file === undefined
        ? ""
        : html` <span class="source"
            >${renderPath(page, file)}${line === undefined ? "" : `, line\u00a0${line}`}</span
          >`;
    return html`<li><strong>${where}</strong>: ${text}${source}</li>`;
  });
  return html`<ul>
    ${items}
  </ul>`;
}

/** The laboratory's statements on what the results cover and how they may be used. */
export function renderStatements(input: DossierInput): Markup {
  const items = input.statements.map(
    ({ heading, text }) =>
      html`<dt>${heading}</dt>
        <dd>${text}</dd>`,
  );
  return html`<dl class="statements">${items}</dl>`;
}

/** Raw and describing files with what identifies them. */
export function renderRawFiles(page: Page): Markup {
  const rows = [...page.files.values()].map(
    ({ path, bytes, sha256, anchor }) =>
      html`<tr id="${anchor}">
        <th scope="row"><code>${path}</code></th>
        <td class="numeric">${bytes}</td>
        <td><code class="digest">${sha256}</code></td>
      </tr> `,
  );
  if (rows.length === 0) return html`<p>No file is named.</p>`;
  const table = html`<table class="data files">
    <caption class="unseen">
      Raw files
    </caption>
    <thead>
      <tr>
        <th scope="col">File</th>
        <th scope="col" class="numeric">Bytes</th>
        <th scope="col">sha256</th>
      </tr>
    </thead>
    <tbody>
      ${rows}
    </tbody>
  </table>`;
  return html`<p>Lines in the grounds count from 1 in these files as received.</p>
    ${renderRegion(table, "Raw files")}`;
}

/** Most rows of a chart's data that are printed one by one. */
const printedRows = 120;

/** The values of every chart as a table, with the way back to it. */
export function renderPlottedValues(page: Page): Markup {
  return join(page.plotted.map((plotted) => renderPlottedChart(page, plotted)));
}

function renderPlottedChart(page: Page, { chart, drawn, mark, place }: PlottedChart): Markup {
  const { columns, rows, note } = chart.data;
  const step = Math.ceil(rows.length / printedRows);
  const shown = rows.filter((_, index) => index % step === 0 || index === rows.length - 1);
  const thinned =
    step === 1
      ? ""
      : html`<p>
          Every ${step}${ordinal(step)} of ${rows.length} rows, and the last; the CSV file beside the figure holds all.
        </p>`;
  const places = columns.map((_, at) => plainPlaces(shown, at));
  const caption = place.outcome.cell.caption ?? drawn.title;
  const table = html`<table class="data">
    <caption class="unseen">
      Values drawn in ${place.name}: ${caption}
    </caption>
    <thead>
      <tr>
        ${columns.map((column, at) => html`<th scope="col" ${numeric(rows, at) ? html` class="numeric"` : ""}>${columnLabel(column)}</th>`)}
      </tr>
    </thead>
    <tbody>
      ${shown.map(
        (row) =>
          html`<tr>
            ${row.map((cell, at) => html`<td${numeric(rows, at) ? html` class="numeric"` : ""}>${renderDataCell(page, cell, columns[at]?.symbol, places[at]!)}</td>`)}
          </tr> `,
      )}
    </tbody>
  </table>`;
  return html`<section class="plotted${columns.length <= 3 ? " slim" : ""}" id="${mark}" aria-labelledby="${mark}-h">
    <h3 id="${mark}-h">
      <span class="sheet-mark">${mark}</span> <a href="#${place.anchor}">${place.name}</a> ${caption}
    </h3>
    <p>${drawn.description}</p>
    ${note === undefined ? "" : html`<p>${note}</p>`}${thinned} ${renderRegion(table, `Values drawn in ${place.name}`)}
  </section> `;
}

/** Most significant digits of a bare number of a chart's data. */
const plottedDigits = 6;

/** Decimal places of the bare numbers in a column; null where they cannot share them. */
function plainPlaces(rows: readonly (readonly DataCell[])[], at: number): number | null {
  return commonPlaces(
    rows.flatMap((row) => (typeof row[at] === "number" ? [row[at]] : [])),
    plottedDigits,
  );
}

function renderDataCell(page: Page, cell: DataCell, symbol: string | undefined, places: number | null): Content {
  if (cell === null) return "";
  if (typeof cell === "string") return cell;
  if (typeof cell === "number") return places === null ? plainNumberText(cell) : roundToPlaces(cell, places);
  const entry = page.book.find(cell);
  const number = renderNumber(cell, symbol === undefined ? {} : { columnSymbol: symbol });
  return entry === null ? number : html`<span class="cited">${number} ${renderCitation(entry)}</span>`;
}

function numeric(rows: readonly (readonly DataCell[])[], at: number): boolean {
  return rows.some((row) => typeof row[at] === "number" || isMeasured(row[at] ?? null));
}

function ordinal(count: number): string {
  const tail = count % 100 >= 11 && count % 100 <= 13 ? 0 : count % 10;
  return ["th", "st", "nd", "rd"][tail] ?? "th";
}
