import type { Verdict } from "../metrology/verdict.js";
import { verdictWord } from "../metrology/verdict.js";
import type { Markup } from "./markup.js";
import { html } from "./markup.js";

/** A verdict as a word with its shape: filled for yes, half for undecided, hollow for no; never a colour. */
export function renderVerdictWord(verdict: Verdict): Markup {
  return html`<span class="verdict is-${verdict.outcome}">${verdictWord(verdict)}</span>`;
}
