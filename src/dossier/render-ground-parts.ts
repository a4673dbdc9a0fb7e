import type { Evidence } from "../metrology/evidence.js";
import { foldEvidence } from "./chain.js";
import type { GroundEntry } from "./ground-book.js";
import { markText } from "./ground-book.js";
import type { Markup } from "./markup.js";
import { html } from "./markup.js";
import type { Page } from "./page-state.js";
import type { Cited } from "./render-chain.js";
import { renderChain } from "./render-chain.js";

/** The mark of an entry in its own ground; leads back to the number where that is printed in the text. */
export function renderBack(page: Page, entry: GroundEntry): Markup {
  const text = markText(entry, "");
  const anchor = page.firstPrinted.get(entry);
  if (anchor === undefined) return html`${text}`;
  return entry.place > 0
    ? html`<a href="#${anchor}">${text}</a>`
    : html`<a href="#${anchor}" aria-label="${text}, back to the number">${text}</a>`;
}

/**
 * The evidence of numbers as a chain; numbers printed elsewhere on the page are cited instead of followed.
 * @param below files whose lines are listed number by number in a table below the chain
 */
export function renderEvidence(page: Page, evidence: readonly Evidence[], below: ReadonlySet<string>): Markup {
  const roots = new Set(evidence);
  const chain = foldEvidence([...roots], citing(page, roots), (node) => page.traces?.at(node) ?? null);
  return html`<div class="chain">${renderChain(page, chain, below)}</div>`;
}

/** What a node below these roots is listed as elsewhere on the page: a number with a ground of its own, or a trace. */
export function citing(page: Page, roots: ReadonlySet<Evidence>): (node: Evidence) => Cited | null {
  return (node) => (roots.has(node) ? null : page.book.numberAt(node)) ?? page.traces?.at(node) ?? null;
}
