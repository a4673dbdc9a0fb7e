import type { GroundEntry } from "./ground-book.js";
import { markText } from "./ground-book.js";
import type { Markup } from "./markup.js";
import { html, join, nothing } from "./markup.js";
import type { Page } from "./page-state.js";
import type { Trace } from "./trace-book.js";

/**
 * The mark beside a printed number that leads to its ground; nothing where it has none. The first mark of a number is
 * also where its ground leads back to. In the text the mark says aloud that it is one; a table would say it too often.
 */
export function renderMark(page: Page, entry: GroundEntry | null, where: "text" | "table" = "text"): Markup {
  if (entry === null) return nothing;
  const text = markText(entry, page.book.section);
  const spoken = where === "text" ? html` aria-label="Ground ${text}"` : nothing;
  const target = html`href="#${entry.anchor}"${spoken}`;
  if (page.firstPrinted.has(entry)) return html` <a class="mark" ${target}>${text}</a>`;
  const anchor = entry.anchor.replace(/^g/, "n");
  page.firstPrinted.set(entry, anchor);
  return html` <a class="mark" id="${anchor}" ${target}>${text}</a>`;
}

/** A mark outside the text, read from anywhere on the page: "2c3". */
export function renderCitation(entry: GroundEntry): Markup {
  return html`<a class="mark" href="#${entry.anchor}">${markText(entry, "")}</a>`;
}

/** The mark of a trace: "T7". */
export function renderTraceMark({ number }: Trace): Markup {
  return html`<a class="mark" href="#T${number}">T${number}</a>`;
}

/** Marks of the sheets that worked something out: "W3", "W1 W3". */
export function renderWorkingMarks(indices: readonly number[]): Markup {
  return join(indices.map((index) => html` <a class="working-mark" href="#W${index + 1}">W${index + 1}</a>`));
}
