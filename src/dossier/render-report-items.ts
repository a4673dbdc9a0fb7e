import type { ReportItem } from "./input.js";
import type { Markup } from "./markup.js";
import { html, nothing } from "./markup.js";
import type { Page } from "./page-state.js";
import { renderRegion } from "./render-table.js";

/** Where an item stands: the way there and its name. */
const places = {
  title_block: { anchor: "title-block", name: "Title block" },
  schedule: { anchor: "schedule", name: "Schedule of results" },
  deviations: { anchor: "deviations", name: "Deviations" },
  statements: { anchor: "statements", name: "Statements" },
  every_sheet: { anchor: "end", name: "Every sheet, end" },
} as const;

/** The annex that says item by item where what a report must state is stated; nothing where no list is given. */
export function renderReportItems(page: Page): Markup {
  const items = page.input.reportItems ?? [];
  if (items.length === 0) return nothing;
  const missing = items.filter(({ text }) => text === null).length;
  const table = html`<table class="data items">
    <caption class="unseen">
      What a test report must state, and where it stands
    </caption>
    <thead>
      <tr>
        <th scope="col">Clause</th>
        <th scope="col">Item</th>
        <th scope="col">Stated</th>
        <th scope="col">Where</th>
      </tr>
    </thead>
    <tbody>
      ${items.map(renderItem)}
    </tbody>
  </table>`;
  const count = missing === 0 ? "All are stated" : `${missing} of ${items.length} are not recorded`;
  return html`<p>The items of ISO/IEC 17025:2017, 7.8.2. ${count}.</p>
    ${renderRegion(table, "What a test report must state, and where it stands")}`;
}

function renderItem({ clause, item, text, place }: ReportItem): Markup {
  const where = place === null ? "–" : html`<a href="#${places[place].anchor}">${places[place].name}</a>`;
  return html`<tr>
    <th scope="row">${clause.replace(" ", "\u00a0")}</th>
    <td>${item}</td>
    <td>${text ?? html`<span class="absent">not recorded</span>`}</td>
    <td>${where}</td>
  </tr> `;
}
