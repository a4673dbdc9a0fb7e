import { budgetOf } from "../metrology/budget.js";
import type { Count, Measured } from "../metrology/quantity.js";
import type { BudgetColumns } from "./budget-columns.js";
import { budgetColumns } from "./budget-columns.js";
import { evidenceEnds } from "./chain.js";
import type { Ground, GroundEntry } from "./ground-book.js";
import { isCount, isPlainQuantity } from "./ground-book.js";
import type { FileRows } from "./line-ranges.js";
import { describeLines } from "./line-ranges.js";
import type { Content, Markup } from "./markup.js";
import { html, join, nothing } from "./markup.js";
import type { Page } from "./page-state.js";
import { renderPath } from "./render-chain.js";
import { renderBack, renderEvidence } from "./render-ground-parts.js";
import { renderCitation } from "./render-mark.js";
import { dofText, numberText, shortNumberText } from "./render-number.js";
import { renderRegion } from "./render-table.js";

/** An entry of a ground whose subject is a number. */
export type NumberEntry = GroundEntry & { readonly subject: Measured | Count };

/** The ground of several numbers: their chain together, then each with its own rows and its part of the budget. */
export function renderEntries(page: Page, ground: Ground, entries: readonly NumberEntry[]): Markup {
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
  if (reason !== null) {
    const items = entries.map((entry, index) => {
      const lines = own[index]!.map(
        (rows) => html` ${file === null ? renderPath(page, rows.file) : ""} ${describeLines(rows.ranges)}`,
      );
      return html`<span id="${entry.anchor}"
        ><span class="ground-letter">${renderBack(page, entry)}</span> ${entry.label}${lines}</span
      >`;
    });
    return html`<p>Not available: ${reason}.</p>
      ${chain}
      <p class="run-in">${join(items, "; ")}.</p>`;
  }
  const some = quantities.some((quantity) => quantity.u > 0);
  const table = html`<table class="budget entries">
    <thead>
      <tr>
        <th scope="col" class="words">Number</th>
        <th scope="col">Value ± <i>U</i></th>
        ${
          some
            ? html`<th scope="col"><i>u</i></th>
                <th scope="col"><i>ν</i></th>
                <th scope="col"><i>k</i></th>`
            : nothing
        }${budgets.columns.map((_, index) => html`<th scope="col"><i>u</i><sub>${index + 1}</sub></th>`)}${budgets.others === null ? nothing : html`<th scope="col">others</th>`}
        <th scope="col" class="words">${file === null ? "Rows" : html`Rows of ${renderPath(page, file)}`}</th>
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
          <td>${entryText(entry.subject)}</td>
          ${some ? renderSpread(entry.subject) : nothing}${contributionCells(budgets, at)}
          <td class="words">${from.length === 0 ? "as above" : join(from, ", ")}</td>
        </tr> `;
      })}
    </tbody>
  </table>`;
  const region = renderRegion(table, `Numbers of ground ${ground.section}${ground.letter}`);
  return html`${chain}${region}${renderLegend(budgets, symbols)}`;
}

/** The reason why none of the numbers is there, where they share it; it is then said once. */
function commonReason(entries: readonly NumberEntry[]): string | null {
  const reasons = new Set(entries.map(({ subject }) => (isCount(subject) || !subject.absent ? null : subject.reason)));
  return reasons.size === 1 ? [...reasons][0]! : null;
}

function entryText(number: Measured | Count): Content {
  if (isCount(number) || !number.absent) return numberText(number);
  return html`${numberText(number)}: <span class="reason">${number.reason}</span>`;
}

function renderSpread(number: Measured | Count): Markup {
  if (!isPlainQuantity(number) || number.u === 0)
    return html`<td></td>
      <td></td>
      <td></td>`;
  const { u, expanded } = budgetOf(number);
  return html`<td>${shortNumberText(u)}</td>
    <td>${dofText(expanded.dof)}</td>
    <td>${expanded.k.toFixed(2)}</td>`;
}

function contributionCells(budgets: BudgetColumns, at: number): Markup {
  const width = budgets.columns.length + (budgets.others === null ? 0 : 1);
  if (at < 0) return join(Array.from({ length: width }, () => html`<td></td>`));
  const parts = [...budgets.contributions[at]!, ...(budgets.others === null ? [] : [budgets.others[at]!])];
  return join(parts.map((part) => html`<td>${part === null ? "–" : shortNumberText(part)}</td>`));
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
