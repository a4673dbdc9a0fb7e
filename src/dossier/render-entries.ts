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
import type { Cited } from "./render-chain.js";
import { renderPath, renderRuns } from "./render-chain.js";
import { citing, renderBack, renderEvidence } from "./render-ground-parts.js";
import { dofText, numberText, placesOf, shortNumberText } from "./render-number.js";
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
  const known = citing(page, roots);
  const ends = entries.map(({ subject }) => {
    const trace = page.traces?.at(subject.evidence) ?? null;
    return trace === null ? evidenceEnds(subject.evidence, known) : { rows: [], known: [trace] };
  });
  const own = withoutCommon(
    ends.map((end) => end.rows),
    (rows) => JSON.stringify(rows),
  );
  const cited = withoutCommon(
    ends.map((end) => end.known),
    (each) => each,
  );
  const files = sameFiles(own);
  const chain = renderEvidence(page, ground, [...roots], new Set(own.flatMap((rows) => rows.map((row) => row.file))));
  if (reason !== null) {
    const items = entries.map((entry, index) => {
      const from = renderFrom(page, own[index]!, cited[index]!, files);
      return html`<span id="${entry.anchor}"
        ><span class="ground-letter">${renderBack(page, entry)}</span>
        ${entry.label}${from === null ? "" : html` ${from}`}</span
      >`;
    });
    return html`<p>Not available: ${reason}.</p>
      ${chain}
      <p class="run-in">${join(items, "; ")}.</p>`;
  }
  const unit = symbols.size === 1 ? [...symbols][0] : undefined;
  const some = quantities.some((quantity) => quantity.u > 0);
  const table = html`<table class="budget entries">
    <thead>
      <tr>
        <th scope="col" class="words">Number</th>
        <th scope="col">Value ± <i>U</i>${unit === undefined || unit === "1" ? "" : ` (${unit})`}</th>
        ${
          some
            ? html`<th scope="col"><i>u</i></th>
                <th scope="col"><i>ν</i></th>
                <th scope="col"><i>k</i></th>`
            : nothing
        }${budgets.columns.map(({ alike }, index) => (alike === null ? html`<th scope="col"><i>u</i><sub>${index + 1}</sub></th>` : nothing))}${budgets.others === null ? nothing : html`<th scope="col">others</th>`}
        <th scope="col" class="words">
          ${
            files === null
              ? "From"
              : html`Rows of
                ${join(
                  files.map((file) => renderPath(page, file)),
                  "; ",
                )}`
          }
        </th>
      </tr>
    </thead>
    <tbody>
      ${entries.map((entry, index) => {
        const at = quantities.findIndex((quantity) => quantity === entry.subject);
        const columnSymbol = unit === undefined ? {} : { columnSymbol: unit };
        const value = numberText(entry.subject, { ...columnSymbol, ...placesOf(page, entry.subject) });
        return html`<tr id="${entry.anchor}">
          <th scope="row"><span class="ground-letter">${renderBack(page, entry)}</span> ${entry.label}</th>
          <td>${value}</td>
          ${some ? renderSpread(entry.subject) : nothing}${contributionCells(budgets, at)}
          <td class="words">
            ${reasonOf(entry.subject)}${renderFrom(page, own[index]!, cited[index]!, files) ?? "as above"}
          </td>
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

/** Why a number is not there; nothing where it is. */
function reasonOf(number: Measured | Count): Content {
  return isCount(number) || !number.absent ? "" : html`<span class="reason">${number.reason}</span>; `;
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

/** What a number rests on beside what all share: rows, then what is cited; null where nothing is left. */
function renderFrom(
  page: Page,
  rows: readonly FileRows[],
  cited: readonly Cited[],
  named: readonly string[] | null,
): Markup | null {
  const parts = [
    ...rows.map((each) => {
      const lines = describeLines(each.ranges);
      return named === null ? html`${renderPath(page, each.file)} ${lines}` : html`${lines}`;
    }),
    ...(cited.length === 0 ? [] : [renderRuns(cited)]),
  ];
  return parts.length === 0 ? null : join(parts, named === null ? ", " : "; ");
}

function contributionCells(budgets: BudgetColumns, at: number): Markup {
  const columns = budgets.columns.flatMap(({ alike }, index) => (alike === null ? [index] : []));
  const width = columns.length + (budgets.others === null ? 0 : 1);
  if (at < 0) return join(Array.from({ length: width }, () => html`<td></td>`));
  const own = columns.map((column) => budgets.contributions[at]![column]!);
  const parts = [...own, ...(budgets.others === null ? [] : [budgets.others[at]!])];
  return join(parts.map((part) => html`<td>${part === null ? "–" : shortNumberText(part)}</td>`));
}

/** What each column of contributions is. */
function renderLegend(budgets: BudgetColumns, symbols: ReadonlySet<string>): Markup {
  if (budgets.columns.length === 0) return nothing;
  const parts = budgets.columns.map(({ label, type, distribution, dof, sources, alike }, index) => {
    const [least, most] = dof.map(dofText);
    const range = least === most ? least! : `${least} to ${most}`;
    const many = sources === 1 ? "" : `, up to ${sources} independent`;
    const size = alike === null ? "" : html` = ${alike} throughout,`;
    return html`<i>u</i><sub>${index + 1}</sub>${size} ${label} (${type}, ${distribution}, <i>ν</i> ${range}${many})`;
  });
  const [symbol] = symbols;
  const unit = symbols.size === 1 && symbol !== undefined && symbol !== "1" ? `In ${symbol}: ` : "";
  return html`<p class="legend">${unit}${join(parts, "; ")}.</p>`;
}

/** What all entries share stands in the chain above and is left out of each. */
function withoutCommon<T>(all: readonly (readonly T[])[], key: (item: T) => unknown): readonly (readonly T[])[] {
  const sets = all.map((items) => new Set(items.map(key)));
  return all.map((items) => items.filter((item) => !sets.every((set) => set.has(key(item)))));
}

/** The files that every entry with rows of its own takes them from, in one order; null where they differ. */
function sameFiles(all: readonly (readonly FileRows[])[]): readonly string[] | null {
  const lists = all.filter((rows) => rows.length > 0).map((rows) => rows.map(({ file }) => file));
  return new Set(lists.map((list) => list.join("\n"))).size === 1 ? lists[0]! : null;
}
