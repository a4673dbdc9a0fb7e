import type { Evidence } from "../metrology/evidence.js";
import { foldEvidence } from "./chain.js";
import type { Ground, GroundEntry } from "./ground-book.js";
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
 * A long chain that another ground has word for word is not said again.
 * @param below files whose lines are listed number by number in a table below the chain
 */
export function renderEvidence(
  page: Page,
  ground: Ground,
  evidence: readonly Evidence[],
  below: ReadonlySet<string>,
): Markup {
  const roots = new Set(evidence);
  const chain = foldEvidence([...roots], citing(page, roots), (node) => page.traces?.at(node) ?? null);
  const markup = renderChain(page, chain, below);
  const known = page.chains.get(markup.text);
  if (known === undefined) page.chains.set(markup.text, ground);
  const said = known === undefined || markup.text.length < longChain ? markup : sayAsIn(known);
  return html`<div class="chain">${said}</div>`;
}

/** Characters of markup from which a chain is longer than the words that point to it. */
const longChain = 500;

function sayAsIn({ section, letter, anchor }: Ground): Markup {
  return html`the steps are those of ground <a class="mark" href="#${anchor}">${section}${letter}</a>`;
}

/** What a node below these roots is listed as elsewhere on the page: a number with a ground of its own, or a trace. */
export function citing(page: Page, roots: ReadonlySet<Evidence>): (node: Evidence) => Cited | null {
  return (node) => (roots.has(node) ? null : page.book.numberAt(node)) ?? page.traces?.at(node) ?? null;
}
