import { renderDeviations, renderPlottedValues, renderRawFiles, renderStatements } from "./annexes.js";
import { renderReportItems } from "./render-report-items.js";
import { renderTraces } from "./render-traces.js";
import { policyHash } from "./digest.js";
import { tableScript } from "./script/table-script.js";
import { listFiles } from "./list-files.js";
import { GroundBook } from "./ground-book.js";
import type { DossierInput } from "./input.js";
import { Markup, html, join, nothing } from "./markup.js";
import type { CellOutcome } from "../templates/outcome.js";
import { awaitChart } from "./render-figure.js";
import { awaitTable } from "./render-table.js";
import type { Page } from "./page-state.js";
import type { Section } from "./plan-page.js";
import { planPage } from "./plan-page.js";
import { renderGrounds } from "./render-grounds.js";
import type { ProseRenderer } from "./render-prose.js";
import { proseRenderer } from "./render-prose.js";
import type { AnnexEntry } from "./schedule.js";
import { renderSchedule } from "./schedule.js";
import { styleSheet } from "./styles/style-sheet.js";
import { TraceBook } from "./trace-book.js";
import { dossierName, renderTitleBlock } from "./title-block.js";
import { renderWorkings } from "./workings.js";

/**
 * Renders a run as one self-contained page: title block, schedule of results, sections with their grounds, deviations,
 * statements, and the annexes of plotted values, raw files and workings. The same input gives the same bytes.
 *
 * Cells and values that failed stand as boxes in their place and are counted in the title block. Every text from a record
 * or a template is escaped; the page admits one inline style sheet by its hash, and no script, image or request.
 */
export function renderDossier(input: DossierInput): string {
  const page: Page = {
    input,
    plan: planPage(input.run),
    book: new GroundBook(),
    firstPrinted: new Map(),
    results: [],
    problems: [],
    plotted: [],
    lastGap: null,
    places: new Map(),
    usesTableTools: false,
    chains: new Map(),
    traces: null,
    files: new Map(),
  };
  const prose = proseRenderer(page);
  for (const { outcome } of page.plan.places.values()) awaitCell(page, outcome);
  page.book.open("0");
  const title =
    page.plan.title === null ? html`${input.titleBlock.item.name}` : new Markup(prose.inline(page.plan.title));
  const bodies = page.plan.sections.map((section) => renderBody(page, prose, section)).filter(hasContent);
  page.book.open("");
  page.traces = new TraceBook(page.book);
  page.files = listFiles(input, page.book.all);
  const sections = bodies.map((body) => renderSection(page, body));
  const annexes = renderAnnexes(page);
  const schedule = renderSchedule(page, bodies, annexes.entries);
  const name = page.plan.title === null ? input.titleBlock.item.name : prose.text(page.plan.title);
  const main = html`${renderTitleBlock(page, title)}
    <main>${schedule}${sections}${annexes.body}</main> `;
  return renderDocument(input, name, main, page.usesTableTools ? tableScript : null);
}

function awaitCell(page: Page, outcome: CellOutcome): void {
  if (outcome.status !== "done" || outcome.result === null) return;
  if (outcome.result.kind === "table") awaitTable(page, outcome.result);
  if (outcome.result.kind === "chart") awaitChart(page, outcome.result);
}

interface Body {
  readonly section: Section;
  /** In plain words, for the schedule. */
  readonly title: string;
  readonly heading: Markup;
  readonly prose: Markup;
}

/** Renders a section's text, which gives every number in it its mark; grounds follow when all marks are known. */
function renderBody(page: Page, prose: ProseRenderer, section: Section): Body {
  page.book.open(section.key);
  page.lastGap = null;
  const heading = section.heading === null ? nothing : new Markup(prose.inline(section.heading));
  const opening = page.plan.sections.length > 1 ? "Summary" : "Findings";
  const title = section.heading === null ? opening : prose.text(section.heading);
  return { section, title, heading, prose: new Markup(prose.block(section.tokens)) };
}

/** Whether a part has anything to show: before the first heading there may be nothing but work cells. */
function hasContent({ section, prose }: Body): boolean {
  return section.heading !== null || prose.text.trim() !== "";
}

function renderSection(page: Page, { section, title, heading, prose }: Body): Markup {
  const { anchor, key } = section;
  const grounds = renderGrounds(page, section, sectionName(section));
  if (section.heading === null) {
    return html`<section class="part" id="${anchor}" aria-label="${title}">
      <div class="prose">${prose}</div>
      ${grounds}
    </section> `;
  }
  return html`<section class="part" id="${anchor}" aria-labelledby="${anchor}-h">
    <h2 id="${anchor}-h"><span class="heading-number">${key}</span> ${heading}</h2>
    <div class="prose">${prose}</div>
    ${grounds}
  </section> `;
}

function sectionName(section: Section): string {
  return section.key === "0" ? "the opening part" : `section ${section.key}`;
}

function renderAnnexes(page: Page): { readonly entries: readonly AnnexEntry[]; readonly body: Markup } {
  const parts = [
    { title: "Deviations from the methods", anchor: "deviations", body: renderDeviations(page) },
    { title: "Statements of the laboratory", anchor: "statements", body: renderStatements(page.input) },
    { title: "Items of a test report", anchor: "report-items", body: renderReportItems(page) },
    { title: "Plotted values", anchor: "plotted-values", body: renderPlottedValues(page) },
    { title: "Traces", anchor: "traces", body: renderTraces(page) },
    { title: "Raw files", anchor: "raw-files", body: renderRawFiles(page) },
    { title: "Workings", anchor: "workings", body: renderWorkings(page) },
  ].filter(({ body }) => body.text !== "");
  const entries = parts.map(({ title, anchor }, index) => ({ letter: String.fromCharCode(65 + index), title, anchor }));
  const body = parts.map(
    (part, index) =>
      html`<section class="part annex" id="${part.anchor}" aria-labelledby="${part.anchor}-h">
        <h2 id="${part.anchor}-h"><span class="heading-number">${entries[index]!.letter}</span> ${part.title}</h2>
        <div class="prose">${part.body}</div>
      </section> `,
  );
  return { entries, body: join(body) };
}

function renderDocument(input: DossierInput, name: string, main: Markup, script: string | null): string {
  const { tool } = input;
  const sheet = styleSheet(input.figureStyles, {
    dossier: dossierName(input),
    item: input.titleBlock.item.name,
    laboratory: input.titleBlock.laboratory.name,
  });
  const admitted = script === null ? "" : ` script-src ${policyHash(script)};`;
  const policy = `default-src 'none'; style-src ${policyHash(sheet)};${admitted} img-src data:; base-uri 'none'; form-action 'none'`;
  const made = `${tool.name} ${tool.version}`;
  return html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content="${policy}" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <meta name="referrer" content="no-referrer" />
        <meta name="generator" content="${made}" />
        <title>${name} (${dossierName(input)})</title>
        <link rel="icon" href="data:," />
        ${new Markup(`<style>${sheet}</style>`)}${script === null ? nothing : new Markup(`<script>${script}</script>`)}
      </head>
      <body>
        ${main}
        <footer class="end" id="end">
          <p><strong>End of dossier ${dossierName(input)}</strong></p>
          <p>Made by ${made}.</p>
        </footer>
      </body>
    </html> `.text;
}
