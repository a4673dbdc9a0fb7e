import type { InlineOutcome, Printable } from "../templates/outcome.js";
import type { Count, Measured } from "../metrology/quantity.js";
import type { Verdict } from "../metrology/verdict.js";
import { verdictWord } from "../metrology/verdict.js";
import { renderLink } from "./links.js";
import type { GroundHead } from "./ground-book.js";
import type { Markup } from "./markup.js";
import { html, nothing } from "./markup.js";
import type { Page } from "./page-state.js";
import { numberText, renderNumber } from "./render-number.js";
import { renderMark, renderWorkingMarks } from "./render-mark.js";
import { renderProblemInline } from "./render-problem.js";
import { renderVerdictWord } from "./render-verdict.js";

/** An inline value in its place in the text; a `Result` also enters the schedule. */
export function renderValue(page: Page, outcome: InlineOutcome): Markup {
  const { index } = outcome.inline;
  if (outcome.status !== "done") return renderProblemInline(page, outcome.problem, outcome.status, `v-${index + 1}`);
  const { result, workCells } = outcome;
  const head: GroundHead = { label: outcome.inline.source.trim(), workings: workCells };
  if (typeof result === "string") return html`${result}`;
  if (!("kind" in result)) return renderCitedNumber(page, result, head);
  if (result.kind === "verdict") return renderCitedVerdict(page, result, head);
  if (result.kind === "link") return renderLink(result);
  if (result.kind === "reference") return renderReference(page, result.target);
  const named = { ...head, label: result.label };
  const value = renderNumber(result.value);
  const marked = html`${renderCitedNumber(page, result.value, named)}${renderWorkingMarks(workCells)}`;
  const verdict =
    result.verdict === undefined
      ? nothing
      : html` ${renderCitedVerdict(page, result.verdict, { ...head, label: `Verdict: ${result.label}` })}`;
  const anchor = `v-${index + 1}`;
  page.results.push({
    section: page.book.section,
    label: result.label,
    anchor,
    value,
    verdict: result.verdict === undefined ? nothing : renderVerdictWord(result.verdict),
  });
  return html`<span class="result" id="${anchor}">${marked}${verdict}</span>`;
}

function renderCitedNumber(page: Page, number: Measured | Count, head: GroundHead): Markup {
  const entry = page.book.cite(number, head);
  const mark = entry === null ? renderWorkingMarks(head.workings) : renderMark(page, entry);
  return html`<span class="cited">${renderNumber(number)}${mark}</span>`;
}

function renderCitedVerdict(page: Page, verdict: Verdict, head: GroundHead): Markup {
  return html`<span class="cited"
    >${renderVerdictWord(verdict)}${renderMark(page, page.book.cite(verdict, head))}</span
  >`;
}

/** "Figure 2.1", leading there; the name alone where the page has no such thing (the compiler refuses that case). */
function renderReference(page: Page, target: string): Markup {
  const place = page.plan.byId.get(target);
  return place === undefined ? html`${target}` : html`<a href="#${place.anchor}">${place.name}</a>`;
}

/** An inline value as plain text, for titles and the schedule; empty where it failed. */
export function valueText(page: Page, outcome: InlineOutcome): string {
  if (outcome.status !== "done") return `[${outcome.problem.code}]`;
  return printableText(page, outcome.result);
}

function printableText(page: Page, result: Printable): string {
  if (typeof result === "string") return result;
  if (!("kind" in result)) return numberText(result);
  if (result.kind === "verdict") return verdictWord(result);
  if (result.kind === "link") return result.text;
  if (result.kind === "reference") return page.plan.byId.get(result.target)?.name ?? result.target;
  return numberText(result.value);
}
