import type { Cell, CellOutcome, InlineOutcome } from "../templates/outcome.js";
import { byteLength, sha256 } from "./digest.js";
import type { Markup } from "./markup.js";
import { dataAddress, html, join, nothing } from "./markup.js";
import type { Page } from "./page-state.js";
import { renderWorkingMarks } from "./render-mark.js";
import { problemLineAnchor } from "./render-problem.js";

const roleWords = { work: "Work", figure: "Makes", table: "Makes", criterion: "Decides" } as const;

/** The annex of workings: every cell as a numbered sheet with the template's own lines, then the values in the text. */
export function renderWorkings(page: Page): Markup {
  const { run } = page.input;
  const faults = new Set([...run.cells, ...run.inlines].flatMap((o) => (o.status === "done" ? [] : [o.problem.line])));
  const inSheets = new Set<number>();
  const sheets = run.cells.map((outcome) => renderSheet(page, outcome, faults, inSheets));
  const values = renderValues(page, faults, inSheets);
  const strays = [...faults].filter((line) => !inSheets.has(line)).sort((a, b) => a - b);
  return html`<p>
      The template <code>${run.file}</code> made this dossier: ${byteLength(run.source)} bytes, sha256
      <code class="digest">${sha256(run.source)}</code>,
      <a download="template.md" href="${dataAddress("text/markdown", run.source)}">as a file</a>. Its cells follow with
      the line numbers they have there.
    </p>
    ${join(sheets)}${values}${strays.map((line) => renderStray(run.source, line))}`;
}

function renderSheet(page: Page, outcome: CellOutcome, faults: ReadonlySet<number>, seen: Set<number>): Markup {
  const { cell } = outcome;
  const mark = `W${cell.index + 1}`;
  const place = page.plan.places.get(cell.index);
  const makes =
    cell.role === "work" || place === undefined ? nothing : html` <a href="#${place.anchor}">${place.name}</a>`;
  const caption = cell.caption === null ? nothing : html`, ${cell.caption}`;
  const state =
    outcome.status === "done"
      ? nothing
      : html` <strong class="state">${outcome.status === "failed" ? "failed" : "not run"}</strong>`;
  return html`<section class="sheet" id="${mark}" aria-labelledby="${mark}-h">
    <h3 id="${mark}-h">
      <span class="sheet-mark">${mark}</span>
      <span class="sheet-role">${roleWords[cell.role]}${makes}${caption}${state}</span>
      <span class="sheet-lines">${linesText(cell)}</span>
    </h3>
    <ol class="code" start="${cell.firstLine}">
      ${codeLines(cell, faults, seen)}
    </ol>
  </section> `;
}

function linesText({ firstLine, lastLine }: Cell): string {
  if (lastLine < firstLine) return "no lines";
  return firstLine === lastLine ? `line ${firstLine}` : `lines ${firstLine}–${lastLine}`;
}

function codeLines(cell: Cell, faults: ReadonlySet<number>, seen: Set<number>): Markup {
  const lines = cell.source.replace(/\n$/, "").split("\n");
  return join(lines.map((text, index) => codeLine(text, cell.firstLine + index, faults, seen)));
}

function codeLine(text: string, line: number, faults: ReadonlySet<number>, seen: Set<number>): Markup {
  if (!faults.has(line) || seen.has(line)) return html`<li><code>${text}</code></li>`;
  seen.add(line);
  return html`<li class="at-fault" id="${problemLineAnchor(line)}"><code>${text}</code></li>`;
}

function renderValues(page: Page, faults: ReadonlySet<number>, seen: Set<number>): Markup {
  const { inlines } = page.input.run;
  if (inlines.length === 0) return nothing;
  const rows = inlines.map((outcome) => {
    const { line, column, source } = outcome.inline;
    const first = faults.has(line) && !seen.has(line);
    if (first) seen.add(line);
    const anchor = first ? html` id="${problemLineAnchor(line)}"` : nothing;
    return html`<tr${anchor}><th scope="row">${line}:${column}</th><td><code>${source.trim()}</code></td><td>${renderSources(outcome)}</td></tr>
`;
  });
  return html`<section class="sheet" id="W-text" aria-labelledby="W-text-h">
    <h3 id="W-text-h">
      <span class="sheet-mark">W</span>
      <span class="sheet-role">Values in the text, by their place in the template</span>
    </h3>
    <div class="region" role="region" tabindex="0" aria-label="Values in the text">
      <table class="data">
        <thead>
          <tr>
            <th scope="col">Line</th>
            <th scope="col">Expression</th>
            <th scope="col">From</th>
          </tr>
        </thead>
        <tbody>
          ${rows}
        </tbody>
      </table>
    </div>
  </section> `;
}

function renderSources(outcome: InlineOutcome): Markup {
  if (outcome.status !== "done")
    return html`<strong class="state">${outcome.status === "failed" ? "failed" : "not run"}</strong>`;
  return renderWorkingMarks(outcome.workCells);
}

/** A line with a problem that belongs to no cell, so that the problem's link leads somewhere. */
function renderStray(source: string, line: number): Markup {
  const text = source.split("\n")[line - 1] ?? "";
  return html`<section class="sheet">
    <ol class="code" start="${line}">
      <li class="at-fault" id="${problemLineAnchor(line)}"><code>${text}</code></li>
    </ol>
  </section> `;
}
