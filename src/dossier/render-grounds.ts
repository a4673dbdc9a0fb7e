import type { Ground } from "./ground-book.js";
import { isVerdict } from "./ground-book.js";
import type { Markup } from "./markup.js";
import { html, join, nothing } from "./markup.js";
import type { Page } from "./page-state.js";
import type { Section } from "./plan-page.js";
import { renderBack } from "./render-ground-parts.js";
import { renderWorkingMarks } from "./render-mark.js";
import { renderNumberGround } from "./render-number-ground.js";
import { renderVerdictGround } from "./render-verdict-ground.js";

/** The grounds of a section, at its end; nothing where it prints no number that rests on raw rows. */
export function renderGrounds(page: Page, section: Section, sectionName: string): Markup {
  const grounds = page.book.of(section.key);
  if (grounds.length === 0) return nothing;
  const anchor = `grounds-${section.key}`;
  return html`<section class="grounds" id="${anchor}" aria-labelledby="${anchor}-h">
    <h3 id="${anchor}-h">Grounds of ${sectionName}</h3>
    <div class="ground-list">${join(grounds.map((ground) => renderGround(page, ground)))}</div>
  </section> `;
}

function renderGround(page: Page, ground: Ground): Markup {
  const first = ground.entries[0]!;
  const several = ground.entries.length > 1;
  const body = isVerdict(first.subject) ? renderVerdictGround(page, ground) : renderNumberGround(page, ground);
  const kind = several ? "ground several" : "ground";
  const name = several ? html`${ground.section}${ground.letter}` : renderBack(page, first);
  return html`<div class="${kind}" ${several ? html` id="${ground.anchor}"` : html` id="${first.anchor}"`}>
    <h4>
      <span class="ground-letter">${name}</span>
      <span class="ground-label">${ground.head.label}</span>${renderWorkingMarks(ground.head.workings)}
    </h4>
    ${body}
  </div> `;
}
