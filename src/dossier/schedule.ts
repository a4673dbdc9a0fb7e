import { budgetOf } from "../metrology/budget.js";
import { isCount, isVerdict } from "./ground-book.js";
import type { Markup } from "./markup.js";
import { html, join, nothing } from "./markup.js";
import type { Page } from "./page-state.js";
import type { Section } from "./plan-page.js";

/** An annex as the schedule lists it. */
export interface AnnexEntry {
  readonly letter: string;
  readonly title: string;
  readonly anchor: string;
}

/**
 * The schedule of results, which is the contents too: under each section its results; then the annexes. Roles are
 * written out, since a narrow window sets each row as two lines, and a table that is set otherwise loses them.
 */
export function renderSchedule(
  page: Page,
  sections: readonly { readonly section: Section; readonly title: string }[],
  annexes: readonly AnnexEntry[],
): Markup {
  const groups = sections.map(({ section, title }) => {
    const rows = page.results.filter((row) => row.section === section.key);
    const number = section.key === "0" ? nothing : html`${section.key}`;
    return html`<tbody role="rowgroup">
      <tr role="row" class="schedule-section">
        <th role="rowheader" scope="rowgroup" colspan="3">
          <span class="schedule-number">${number}</span> <a href="#${section.anchor}">${title}</a>
        </th>
      </tr>
      ${rows.map(
        (row) =>
          html`<tr role="row">
            <th role="rowheader" scope="row"><a href="#${row.anchor}">${row.label}</a></th>
            <td role="cell" class="numeric">${row.value}</td>
            <td role="cell">${row.verdict}</td>
          </tr> `,
      )}
    </tbody>`;
  });
  const closing = annexes.map(
    ({ letter, title, anchor }) =>
      html`<tr role="row" class="schedule-section">
        <th role="rowheader" scope="row" colspan="3">
          <span class="schedule-number">${letter}</span> <a href="#${anchor}">${title}</a>
        </th>
      </tr>`,
  );
  return html`<section class="schedule" id="schedule" aria-labelledby="schedule-h">
    <h2 id="schedule-h">Schedule of results</h2>
    <table role="table">
      <caption class="unseen">
        Results by section, and the contents of this dossier
      </caption>
      <thead role="rowgroup">
        <tr role="row">
          <th role="columnheader" scope="col">Quantity, by section</th>
          <th role="columnheader" scope="col" class="numeric">Value ± <i>U</i></th>
          <th role="columnheader" scope="col">Verdict</th>
        </tr>
      </thead>
      ${join(groups)}
      <tbody role="rowgroup" class="schedule-annexes">
        ${closing}
      </tbody>
    </table>
    <p class="coverage">${coverageStatement(page)}</p>
  </section> `;
}

/** What ± means on this page, said once (JCGM 100:2008, 7.2.3). */
function coverageStatement(page: Page): Markup {
  const factors = page.book.all.flatMap((ground) =>
    ground.entries.flatMap(({ subject }) => {
      if (isVerdict(subject) || isCount(subject) || subject.absent || subject.u === 0) return [];
      return [budgetOf(subject).expanded.k];
    }),
  );
  if (factors.length === 0) return html`No number in this dossier states an uncertainty.`;
  const least = Math.min(...factors).toFixed(2);
  const most = Math.max(...factors).toFixed(2);
  const range = least === most ? html`<i>k</i> = ${least} throughout` : html`<i>k</i> from ${least} to ${most} here`;
  return html`The number after ± is the expanded uncertainty <i>U</i> = <i>k u</i> for a level of confidence of 95 %,
    with <i>k</i> from Student’s <i>t</i> for the effective degrees of freedom: ${range}. A letter beside a number leads
    to its ground: budget, operations and raw rows. A mark such as W3 leads to the sheet that worked it out.`;
}
