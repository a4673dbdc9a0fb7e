import type { Chart } from "../figures/chart.js";
import type { Table } from "../figures/table.js";
import type { Verdict } from "../metrology/verdict.js";
import type { GroundEntry } from "./ground-book.js";
import type { Markup } from "./markup.js";
import { html, join, nothing } from "./markup.js";
import type { Page } from "./page-state.js";
import type { Place } from "./plan-page.js";
import { renderFigure } from "./render-figure.js";
import { renderMark } from "./render-mark.js";
import { numberText, renderNumber } from "./render-number.js";
import { renderProblemBox } from "./render-problem.js";
import { renderPlateHeading, renderTable } from "./render-table.js";
import { renderVerdictWord } from "./render-verdict.js";

/** What a cell left on the page: its figure, table or criterion, its problem, or nothing for a work cell that ran. */
export function renderCell(page: Page, place: Place): Markup {
  const { outcome } = place;
  if (outcome.status !== "done") {
    const what = outcome.cell.role === "work" ? `Work cell W${outcome.cell.index + 1}` : place.name;
    return renderProblemBox(page, outcome.problem, what, outcome.status, place.anchor);
  }
  const { result } = outcome;
  if (result === null) return nothing;
  const gap = gapOf(result);
  const said = page.lastGap;
  page.lastGap = gap;
  if (gap !== null) return gap === said ? renderLikewise(place) : renderGap(place, gap);
  if (result.kind === "chart") return renderFigure(page, result, place);
  if (result.kind === "table") return renderTable(page, result, place);
  return renderCriterion(page, result, place);
}

/** Why a figure or a table has nothing to show; null where it has. */
function gapOf(result: Chart | Table | Verdict): string | null {
  if (result.kind === "chart") {
    return result.empty ?? (result.data.rows.length === 0 ? `There is nothing to draw. ${result.finding}` : null);
  }
  return result.kind === "table" && result.rows.length === 0 ? result.finding : null;
}

/** A figure or table without content keeps its name and place, and says why, with neither axes nor heads of columns. */
function renderGap(place: Place, words: string): Markup {
  return html`<div class="plate gap" id="${place.anchor}">
    ${renderPlateHeading(place, place.outcome.cell.caption ?? "")}
    <p class="finding">${words}</p>
  </div> `;
}

/** One that has nothing to show for the reason that was said just before. */
function renderLikewise(place: Place): Markup {
  return html`<div class="plate gap likewise" id="${place.anchor}">
    ${renderPlateHeading(place, place.outcome.cell.caption ?? "")}
    <p>likewise</p>
  </div> `;
}

/** Most cited numbers that are printed beside a criterion; its ground lists them all. */
const printedCites = 4;

function renderCriterion(page: Page, verdict: Verdict, place: Place): Markup {
  const { index, caption } = place.outcome.cell;
  const label = caption ?? verdict.statement;
  const entry = page.book.cite(verdict, { label: `${place.name}: ${label}`, workings: [index] });
  page.results.push({
    section: page.book.section,
    label,
    anchor: place.anchor,
    value: nothing,
    verdict: renderVerdictWord(verdict),
  });
  return html`<div class="plate criterion" id="${place.anchor}">
    ${renderPlateHeading(place, label)}
    <p>${renderVerdictWord(verdict)}: ${verdict.statement}${renderMark(page, entry)}.${renderCites(page, verdict)}</p>
  </div> `;
}

function renderCites(page: Page, verdict: Verdict): Markup {
  const cites = verdict.cites.flatMap((number): { number: typeof number; entry: GroundEntry }[] => {
    const entry = page.book.find(number);
    return entry === null ? [] : [{ number, entry }];
  });
  if (cites.length === 0 || cites.length > printedCites) return nothing;
  // A lone number that the statement begins with is not said twice; the verdict's ground leads to it.
  if (cites.length === 1 && verdict.statement.startsWith(`${numberText(cites[0]!.number)} `)) return nothing;
  const list = cites.map(({ number, entry }) => html`${renderNumber(number)}${renderMark(page, entry)}`);
  return html` Rests on ${join(list, ", ")}.`;
}
