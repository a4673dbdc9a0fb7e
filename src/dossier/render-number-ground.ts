import { budgetOf } from "../metrology/budget.js";
import type { Count, Measured } from "../metrology/quantity.js";
import type { BudgetColumns } from "./budget-columns.js";
import { budgetColumns } from "./budget-columns.js";
import { evidenceEnds } from "./chain.js";
import type { Ground, GroundEntry } from "./ground-book.js";
import { isCount, isPlainQuantity, isVerdict } from "./ground-book.js";
import type { FileRows } from "./line-ranges.js";
import { describeLines } from "./line-ranges.js";
import type { Content, Markup } from "./markup.js";
import { html, join, nothing } from "./markup.js";
import type { Page } from "./page-state.js";
import { renderPath } from "./render-chain.js";
import { renderBack, renderEvidence } from "./render-ground-parts.js";
import { renderCitation } from "./render-mark.js";
import { dofText, numberText, shareText, shortNumberText } from "./render-number.js";
import { renderRegion } from "./render-table.js";

type NumberEntry = GroundEntry & { readonly subject: Measured | Count };

/** The ground of one number, or of several that share a column. */
export function renderNumberGround(page: Page, ground: Ground): Markup {
  const entries = ground.entries.filter((entry): entry is NumberEntry => !isVerdict(entry.subject));
  const [only] = entries;
  if (entries.length === 1 && only !== undefined) {
    const chain = renderEvidence(page, [only.subject.evidence], new Set());
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
  return html`${numberText(number)}; <i>u</i> = ${shortNumberText(u)}${unit}, <i>ν</i> = ${dofText(expanded.dof)},
    <i>k</i> = ${expanded.k.toFixed(2)}`;
}

function renderBudget(number: Measured | Count, label: string): Markup {
  if (isCount(number) || number.absent) return nothing;
  const { lines } = budgetOf(number);
  if (lines.length === 0) return nothing;
  const unit = number.symbol === "1" ? "" : ` (${number.symbol})`;
  const table = html`<table class="budget">
    <thead>
      <tr>
        <th scope="col">Source</th>
        <th scope="col">Type</th>
        <th scope="col" class="numeric"><i>ν</i></th>
        <th scope="col" class="numeric"><i>c u</i>${unit}</th>
        <th scope="col" class="numeric">of <i>u</i>²</th>
      </tr>
    </thead>
    <tbody>
      ${lines.map(
        (line) =>
          html`<tr>
            <th scope="row">${line.label}${several(line.sources)}</th>
            <td>${line.type}, ${line.distribution}</td>
            <td class="numeric">${dofText(line.dof)}</td>
            <td class="numeric">${shortNumberText(line.contribution)}</td>
            <td class="numeric">${shareText(line.share)}</td>
          </tr>`,
      )}
    </tbody>
  </table>`;
  return renderRegion(table, label);
}

function several(sources: number): Content {
  return sources === 1 ? "" : html` <span class="note">(${sources} independent)</span>`;
}

function renderEntries(page: Page, ground: Ground, entries: readonly NumberEntry[]): Markup {
  const quantities = entries.map(({ subject }) => subject).filter(isPlainQuantity);
  const budgets = budgetColumns(quantities);
  const symbols = new Set(quantities.map((quantity) => quantity.symbol));
  const reason = commonReason(entries);
  const roots = new Set(entries.map((entry) => entry.subject.evidence));
  const ends = entries.map(({ subject }) =>
    evidenceEnds(subject.evidence, (node) => (roots.has(node) ? null : page.book.numberAt(node))),
  );
  const own = withoutCommon(ends.map((end) => end.rows));
  const file = onlyFile(own);
  const chain = renderEvidence(page, [...roots], new Set(own.flatMap((rows) => rows.map((row) => row.file))));
  const some = quantities.some((quantity) => quantity.u > 0);
  const table = html`<table class="budget entries">
    <thead>
      <tr>
        <th scope="col">Number</th>
        <th scope="col" class="numeric">Value ± <i>U</i></th>
        ${
          some
            ? html`<th scope="col" class="numeric"><i>u</i></th>
                <th scope="col" class="numeric"><i>ν</i></th>
                <th scope="col" class="numeric"><i>k</i></th>`
            : nothing
        }${budgets.columns.map((_, index) => html`<th scope="col" class="numeric"><i>u</i><sub>${index + 1}</sub></th>`)}${budgets.others === null ? nothing : html`<th scope="col" class="numeric">others</th>`}
        <th scope="col">${file === null ? "Rows" : html`Rows of ${renderPath(page, file)}`}</th>
      </tr>
    </thead>
    <tbody>
      ${entries.map((entry, index) => {
        const at = quantities.findIndex((quantity) => quantity === entry.subject);
        const from = [
          ...own[index]!.map((rows) =>
            file === null
              ? html`${renderPath(page, rows.file)} ${describeLines(rows.ranges)}`
              : html`${describeLines(rows.ranges)}`,
          ),
          ...ends[index]!.known.map(renderCitation),
        ];
        return html`<tr id="${entry.anchor}">
          <th scope="row"><span class="ground-letter">${renderBack(page, entry)}</span> ${entry.label}</th>
          <td class="numeric">${entryText(entry.subject, reason)}</td>
          ${some ? renderSpread(entry.subject) : nothing}${contributionCells(budgets, at)}
          <td>${from.length === 0 ? "as above" : join(from, ", ")}</td>
        </tr> `;
      })}
    </tbody>
  </table>`;
  const region = renderRegion(table, `Numbers of ground ${ground.section}${ground.letter}`);
  const why = reason === null ? nothing : html`<p>Not available: ${reason}.</p>`;
  return html`${why}${chain}${region}${renderLegend(budgets, symbols)}`;
}

/** The reason that several absences share; it is then said once. */
function commonReason(entries: readonly NumberEntry[]): string | null {
  const reasons = entries.flatMap(({ subject }) => (isCount(subject) || !subject.absent ? [] : [subject.reason]));
  return reasons.length > 1 && new Set(reasons).size === 1 ? reasons[0]! : null;
}

function entryText(number: Measured | Count, said: string | null): Content {
  if (isCount(number) || !number.absent || number.reason === said) return numberText(number);
  return html`${numberText(number)}: <span class="reason">${number.reason}</span>`;
}

function renderSpread(number: Measured | Count): Markup {
  if (!isPlainQuantity(number) || number.u === 0)
    return html`<td></td>
      <td></td>
      <td></td>`;
  const { u, expanded } = budgetOf(number);
  return html`<td class="numeric">${shortNumberText(u)}</td>
    <td class="numeric">${dofText(expanded.dof)}</td>
    <td class="numeric">${expanded.k.toFixed(2)}</td>`;
}

function contributionCells(budgets: BudgetColumns, at: number): Markup {
  const width = budgets.columns.length + (budgets.others === null ? 0 : 1);
  if (at < 0) return join(Array.from({ length: width }, () => html`<td></td>`));
  const parts = [...budgets.contributions[at]!, ...(budgets.others === null ? [] : [budgets.others[at]!])];
  return join(parts.map((part) => html`<td class="numeric">${part === null ? "–" : shortNumberText(part)}</td>`));
}

/** What each column of contributions is. */
function renderLegend(budgets: BudgetColumns, symbols: ReadonlySet<string>): Markup {
  if (budgets.columns.length === 0) return nothing;
  const parts = budgets.columns.map(({ label, type, distribution, dof, sources }, index) => {
    const [least, most] = dof.map(dofText);
    const range = least === most ? least! : `${least} to ${most}`;
    const many = sources === 1 ? "" : `, up to ${sources} independent`;
    return html`<i>u</i><sub>${index + 1}</sub> ${label} (${type}, ${distribution}, <i>ν</i> ${range}${many})`;
  });
  const [symbol] = symbols;
  const unit = symbols.size === 1 && symbol !== undefined && symbol !== "1" ? `In ${symbol}: ` : "";
  return html`<p class="legend">${unit}${join(parts, "; ")}.</p>`;
}

/** Rows that all entries share stand in the chain above and are left out of each. */
function withoutCommon(all: readonly (readonly FileRows[])[]): readonly (readonly FileRows[])[] {
  const key = (rows: FileRows): string => JSON.stringify(rows);
  const sets = all.map((rows) => new Set(rows.map(key)));
  return all.map((rows) => rows.filter((row) => !sets.every((set) => set.has(key(row)))));
}

/** The one file that all rows come from, or null. */
function onlyFile(all: readonly (readonly FileRows[])[]): string | null {
  const files = new Set(all.flatMap((rows) => rows.map((row) => row.file)));
  return files.size === 1 ? [...files][0]! : null;
}
