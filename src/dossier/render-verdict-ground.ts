import type { Verdict } from "../metrology/verdict.js";
import type { Ground, GroundEntry } from "./ground-book.js";
import { isVerdict } from "./ground-book.js";
import type { Content, Markup } from "./markup.js";
import { html, join, nothing } from "./markup.js";
import type { Page } from "./page-state.js";
import { renderBack } from "./render-ground-parts.js";
import { renderCitation } from "./render-mark.js";
import { numberText } from "./render-number.js";
import { renderRegion } from "./render-table.js";
import { renderVerdictWord } from "./render-verdict.js";

type VerdictEntry = GroundEntry & { readonly subject: Verdict };

/** The ground of one verdict, or of several in a column: what was decided, by which rule, on which numbers. */
export function renderVerdictGround(page: Page, ground: Ground): Markup {
  const entries = ground.entries.filter((entry): entry is VerdictEntry => isVerdict(entry.subject));
  const rules = [...new Set(entries.map((entry) => entry.subject.rule))];
  const [only] = entries;
  if (entries.length === 1 && only !== undefined) {
    const { subject } = only;
    return html`<p class="ground-value">${renderVerdictWord(subject)}: ${subject.statement}.</p>
      <p>Rule: ${renderRule(page, subject, ground)}.</p>
      ${renderRestsOn(page, subject)}`;
  }
  const shared = rules.length === 1 ? html`<p>Rule: ${renderRule(page, only!.subject, ground)}.</p>` : nothing;
  const isCiting = entries.some(({ subject }) => subject.cites.length > 0);
  const table = html`<table class="budget entries said">
    <thead>
      <tr>
        <th scope="col">Verdict</th>
        <th scope="col">Says</th>
        ${shared === nothing ? html`<th scope="col">Rule</th>` : nothing}
        ${isCiting ? html`<th scope="col">On</th>` : nothing}
      </tr>
    </thead>
    <tbody>
      ${entries.map(
        (entry) =>
          html`<tr id="${entry.anchor}">
            <th scope="row"><span class="ground-letter">${renderBack(page, entry)}</span> ${entry.label}</th>
            <td>${renderVerdictWord(entry.subject)}: ${entry.subject.statement}</td>
            ${shared === nothing ? html`<td>${entry.subject.rule}</td>` : nothing}
            ${isCiting ? html`<td>${join(citations(page, entry.subject), ", ")}</td>` : nothing}
          </tr> `,
      )}
    </tbody>
  </table>`;
  return html`${shared}${renderRegion(table, `Verdicts of ground ${ground.section}${ground.letter}`)}`;
}

/** The rule in words where the page states it first, then by its ground. */
function renderRule(page: Page, verdict: Verdict, ground: Ground): Content {
  const first = page.book.all.find((other) =>
    other.entries.some((entry) => isVerdict(entry.subject) && entry.subject.rule === verdict.rule),
  );
  if (first === undefined || first === ground) return verdict.rule;
  return html`as in ground ${renderCitation(first.entries[0]!)}`;
}

function renderRestsOn(page: Page, verdict: Verdict): Markup {
  const cites = citations(page, verdict);
  return cites.length === 0 ? nothing : html`<p>Rests on ${join(cites, ", ")}.</p>`;
}

/** The numbers that a verdict cites, each once, with the mark of its ground. */
function citations(page: Page, verdict: Verdict): readonly Markup[] {
  return [...new Set(verdict.cites)].map((number) => {
    const entry = page.book.find(number);
    return html`${numberText(number)}${entry === null ? nothing : html` ${renderCitation(entry)}`}`;
  });
}
