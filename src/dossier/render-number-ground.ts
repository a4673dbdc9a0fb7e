import { budgetOf } from "../metrology/budget.js";
import type { Count, Measured } from "../metrology/quantity.js";
import type { Ground } from "./ground-book.js";
import { isCount, isVerdict } from "./ground-book.js";
import type { Content, Markup } from "./markup.js";
import { html, nothing } from "./markup.js";
import type { Page } from "./page-state.js";
import type { NumberEntry } from "./render-entries.js";
import { renderEntries } from "./render-entries.js";
import { renderEvidence } from "./render-ground-parts.js";
import { dofText, numberText, shareText, shortNumberText } from "./render-number.js";
import { renderRegion } from "./render-table.js";

/** The ground of one number, or of several that share a column. */
export function renderNumberGround(page: Page, ground: Ground): Markup {
  const entries = ground.entries.filter((entry): entry is NumberEntry => !isVerdict(entry.subject));
  const [only] = entries;
  if (entries.length === 1 && only !== undefined) {
    const chain = renderEvidence(page, ground, [only.subject.evidence], new Set());
    const budget = renderBudget(only.subject, `Budget of ground ${ground.section}${ground.letter}`);
    return html`<p class="ground-value">${numberLine(only.subject)}</p>
      ${chain}${budget}`;
  }
  return renderEntries(page, ground, entries);
}

/** "(45.2 ± 1.3) cN; u = 0.62 cN, ν = 17, k = 2.11"; an absence with its reason. */
function numberLine(number: Measured | Count): Markup {
  if (isCount(number)) return html`${number.count}, counted`;
  if (number.absent) return html`${numberText(number)}: ${number.reason}`;
  const { u, expanded } = budgetOf(number);
  if (u === 0) return html`${numberText(number)}, no uncertainty stated`;
  const unit = number.symbol === "1" ? "" : `\u00a0${number.symbol}`;
  const dof = dofText(expanded.dof).startsWith(">") ? dofText(expanded.dof) : `= ${dofText(expanded.dof)}`;
  return html`${numberText(number)}; <i>u</i> = ${shortNumberText(u)}${unit}, <i>ν</i> ${dof}, <i>k</i> =
    ${expanded.k.toFixed(2)}`;
}

function renderBudget(number: Measured | Count, label: string): Markup {
  if (isCount(number) || number.absent) return nothing;
  const { lines } = budgetOf(number);
  if (lines.length === 0) return nothing;
  const unit = number.symbol === "1" ? "" : ` (${number.symbol})`;
  const table = html`<table class="budget">
    <thead>
      <tr>
        <th scope="col" class="words">Source</th>
        <th scope="col" class="words">Type</th>
        <th scope="col"><i>ν</i></th>
        <th scope="col"><i>c u</i>${unit}</th>
        <th scope="col">of <i>u</i>²</th>
      </tr>
    </thead>
    <tbody>
      ${lines.map(
        (line) =>
          html`<tr>
            <th scope="row">${line.label}${several(line.sources)}</th>
            <td class="words">${line.type}, ${line.distribution}</td>
            <td>${dofText(line.dof)}</td>
            <td>${shortNumberText(line.contribution)}</td>
            <td>${shareText(line.share)}</td>
          </tr>`,
      )}
    </tbody>
  </table>`;
  return renderRegion(table, label);
}

function several(sources: number): Content {
  return sources === 1 ? "" : html` <span class="note">(${sources} independent)</span>`;
}
