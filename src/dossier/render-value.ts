import type { InlineOutcome, Printable, Result, SinglePrintable } from "../templates/outcome.js";
import type { Count, Measured } from "../metrology/quantity.js";
import type { Verdict } from "../metrology/verdict.js";
import { verdictWord } from "../metrology/verdict.js";
import { renderLink } from "./links.js";
import type { GroundHead } from "./ground-book.js";
import type { Markup } from "./markup.js";
import { html, join, nothing } from "./markup.js";
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
  const parts = typeof result === "object" && "kind" in result && result.kind === "phrase" ? result.parts : [result];
  const anchor = (at: number): string => (parts.length === 1 ? `v-${index + 1}` : `v-${index + 1}-${at + 1}`);
  return join(parts.map((part, at) => renderPart(page, part as SinglePrintable, workCells, anchor(at))));
}

function renderPart(page: Page, part: SinglePrintable, workings: readonly number[], anchor: string): Markup {
  if (typeof part === "string") return html`${part}`;
  if (!("kind" in part)) return renderCitedNumber(page, part, { label: numberLabel(part), workings });
  if (part.kind === "verdict") return renderCitedVerdict(page, part, { label: "Verdict in the text", workings });
  if (part.kind === "link") return renderLink(part);
  if (part.kind === "reference") return renderReference(page, part.target);
  return renderResult(page, part, workings, anchor);
}

function renderResult(page: Page, result: Result, workings: readonly number[], anchor: string): Markup {
  const { label, value, verdict } = result;
  const number = renderCitedNumber(page, value, { label, workings });
  // Without a ground the number bears the marks of its workings already.
  const marked = html`${number}${page.book.find(value) === null ? nothing : renderWorkingMarks(workings)}`;
  const said =
    verdict === undefined
      ? nothing
      : html` ${renderCitedVerdict(page, verdict, { label: `Verdict: ${label}`, workings })}`;
  page.results.push({
    section: page.book.section,
    label,
    anchor,
    value: renderNumber(value),
    verdict: verdict === undefined ? nothing : renderVerdictWord(verdict),
  });
  return html`<span class="result" id="${anchor}">${marked}${said}</span>`;
}

/** What heads the ground of a number in the text, which has no name of its own: the last thing that was done to it. */
function numberLabel({ evidence }: Measured | Count): string {
  return evidence.kind === "step" ? `Value in the text: ${evidence.operation}` : "Value in the text";
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
  if (result.kind === "phrase") return result.parts.map((part) => printableText(page, part)).join("");
  if (result.kind === "verdict") return verdictWord(result);
  if (result.kind === "link") return result.text;
  if (result.kind === "reference") return page.plan.byId.get(result.target)?.name ?? result.target;
  return numberText(result.value);
}
