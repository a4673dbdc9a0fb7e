import type { TemplateProblem } from "../templates/outcome.js";
import type { Markup } from "./markup.js";
import { html } from "./markup.js";
import type { Page, PlacedProblem } from "./page-state.js";

/** What stands in place of a cell that failed or was not run: a box with the problem, its place and its remedy. */
export function renderProblemBox(
  page: Page,
  problem: TemplateProblem,
  what: string,
  status: PlacedProblem["status"],
  anchor: string,
): Markup {
  page.problems.push({ problem, anchor, what, status });
  const verb = status === "failed" ? "could not be made" : "was not run";
  return html`<div class="problem" id="${anchor}" role="group" aria-label="Problem: ${what} ${verb}">
    <p class="problem-head"><strong>${what} ${verb}</strong> <code>${problem.code}</code></p>
    <p>${problem.message}</p>
    <p class="problem-hint">${problem.hint}</p>
    <p class="problem-place">${placeLink(problem)}</p>
  </div> `;
}

/** What stands in place of an inline value that failed or was not run. */
export function renderProblemInline(
  page: Page,
  problem: TemplateProblem,
  status: PlacedProblem["status"],
  anchor: string,
): Markup {
  page.problems.push({ problem, anchor, what: "A value in the text", status });
  const word = status === "failed" ? "value missing" : "value not worked out";
  return html`<span class="problem-inline" id="${anchor}"
    ><strong>${word}</strong> <code>${problem.code}</code> ${problem.message} (${problem.hint};
    ${placeLink(problem)})</span
  >`;
}

/** `file:line:column`, which leads to the line's sheet in the workings. */
function placeLink(problem: TemplateProblem): Markup {
  return html`<a href="#${problemLineAnchor(problem.line)}">${problem.file}:${problem.line}:${problem.column}</a>`;
}

/** Anchor of a template's line that has a problem. */
export function problemLineAnchor(line: number): string {
  return `line-${line}`;
}
