import type { DossierInput } from "./input.js";
import type { Content, Markup } from "./markup.js";
import { html, join, nothing } from "./markup.js";
import type { Page } from "./page-state.js";

/** How a dossier is named on every sheet: its number, or DRAFT. */
export function dossierName(input: DossierInput): string {
  return input.titleBlock.number ?? "DRAFT";
}

/** Dates of work as one ISO 8601 date or interval. */
export function workDates(input: DossierInput): string {
  const { work } = input.titleBlock;
  if (work === null) return "no measurement for this dossier";
  return work.start === work.end ? work.start : `${work.start} to ${work.end}`;
}

/** The block that heads a dossier: what identifies it, its item, its methods and who answers for it. */
export function renderTitleBlock(page: Page, title: Markup): Markup {
  const { titleBlock: block, run } = page.input;
  const { item, laboratory } = block;
  const methods = block.methods.map(
    ({ id, title: name }) => html`<span class="line"><code>${id}</code> ${name}</span>`,
  );
  const particulars = item.particulars.map(
    ({ label, text }) => html`<span class="line"><span class="particular">${label}</span> ${text}</span>`,
  );
  return html`<header class="title-block" id="title-block">
    <div class="title-cell">
      <p class="field">Test dossier</p>
      <h1>${title}</h1>
    </div>
    <dl>
      ${field("number", "Dossier", html`<strong>${dossierName(page.input)}</strong>`)}
      ${field("revision", "Revision", block.revision)}
      ${field("sheet", "Sheet", html`<span class="on-screen">one, continuous</span><span class="on-paper">see each foot</span>`)}
      ${field(
        "item",
        "Item",
        html`<span class="line"><strong>${item.name}</strong></span
          >${particulars}`,
      )}
      ${field("methods", "Methods", methods.length === 0 ? "none: nothing was measured for this dossier" : join(methods))}
      ${field("work", "Dates of work", workDates(page.input))}
      ${field(
        "laboratory",
        "Laboratory, and place of work",
        html`<span class="line"><strong>${laboratory.name}</strong></span
          ><span class="line">${laboratory.address}</span><span class="line">${laboratory.contact}</span>`,
      )}
      ${field("customer", "Customer", block.customer)} ${field("issued", "Issued", block.issued ?? "not issued")}
      ${field("approved", "Approved by", block.approvedBy ?? "not approved")}
      ${field("template", "Template", html`<code>${run.file}</code>`)}
      ${block.amends === undefined ? nothing : field("amends", "Amendment", `Amendment to dossier ${block.amends.number}: ${block.amends.reason}`)}
    </dl>
    ${renderProblemCount(page)}
  </header> `;
}

function field(name: string, label: string, content: Content): Markup {
  return html`<div class="field-${name}">
    <dt>${label}</dt>
    <dd>${content}</dd>
  </div>`;
}

/** How many cells and values are missing, with the way to each; nothing where none is. */
function renderProblemCount(page: Page): Markup {
  const { problems } = page;
  if (problems.length === 0) return nothing;
  const failed = problems.filter((placed) => placed.status === "failed").length;
  const notRun = problems.length - failed;
  const counts = [
    ...(failed > 0 ? [`${failed} could not be made`] : []),
    ...(notRun > 0 ? [`${notRun} ${notRun === 1 ? "was" : "were"} not run`] : []),
  ];
  const things = problems.length === 1 ? "1 part is missing" : `${problems.length} parts are missing`;
  const list = problems.map(
    ({ anchor, what, problem }) => html`<li><a href="#${anchor}">${what}</a>: <code>${problem.code}</code></li>`,
  );
  return html`<div class="problem problem-count">
    <p><strong>This dossier is incomplete: ${things}</strong> (${counts.join(", ")}).</p>
    <ul>
      ${list}
    </ul>
  </div>`;
}
