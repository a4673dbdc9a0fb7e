import type { Chart, DataCell } from "../figures/chart.js";
import type { TemplateProblem } from "../templates/outcome.js";
import type { DrawnChart } from "./input.js";
import type { Markup } from "./markup.js";
import { Markup as Raw, dataAddress, html } from "./markup.js";
import type { Page } from "./page-state.js";
import type { Place } from "./plan-page.js";
import { renderPlateHeading } from "./render-table.js";
import { renderProblemBox } from "./render-problem.js";

/** A `figure` cell: the question as heading, the drawing, its finding, and the way to what was drawn. */
export function renderFigure(page: Page, chart: Chart, place: Place): Markup {
  const drawn = drawOrProblem(page, chart, place);
  if ("code" in drawn) {
    page.input.onProblem?.(drawn);
    return renderProblemBox(page, drawn, place.name, "failed", place.anchor);
  }
  const caption = place.outcome.cell.caption ?? drawn.title;
  citeData(page, chart, place);
  const mark = `V${page.plotted.length + 1}`;
  page.plotted.push({ place, chart, drawn, mark });
  const download = `${place.anchor.replace(/^r-/, "")}.csv`;
  return html`<figure class="plate figure" id="${place.anchor}">
    ${renderPlateHeading(place, caption)}
    <div class="drawing">${new Raw(drawn.svg)}</div>
    <figcaption>
      <p class="finding">${unbroken(chart.finding)}</p>
      <p class="to-values">
        What was drawn: <a href="#${mark}">table ${mark}</a>,
        <a download="${download}" href="${dataAddress("text/csv", drawn.csv)}">CSV file</a>
      </p>
    </figcaption>
  </figure> `;
}

/** Keeps a value and its uncertainty on one line. */
function unbroken(text: string): string {
  return text.replaceAll(" ± ", "\u00a0±\u00a0");
}

/** Announces every number that a chart's data hold, before anything on the page is rendered. */
export function awaitChart(page: Page, chart: Chart): void {
  for (const row of chart.data.rows) for (const cell of row) if (isMeasured(cell)) page.book.await(cell);
}

/** Measured values of one column of the data share one ground, unless they are printed, and so grounded, before. */
function citeData(page: Page, chart: Chart, place: Place): void {
  chart.data.columns.forEach((column, at) => {
    const subjects = chart.data.rows.flatMap((row, index) => {
      const cell = row[at] ?? null;
      return isMeasured(cell) ? [{ subject: cell, label: rowLabel(row, index) }] : [];
    });
    const head = {
      label: `${column.label} (${place.name})`,
      workings: [place.outcome.cell.index],
      drawn: true,
    } as const;
    if (subjects.length > 0) page.book.citeAll(subjects, head);
  });
}

function rowLabel(row: readonly DataCell[], index: number): string {
  const names: string[] = [];
  for (const cell of row) {
    if (typeof cell !== "string" && typeof cell !== "number") break;
    names.push(String(cell));
  }
  return names.length > 0 ? names.join(", ") : `row ${index + 1}`;
}

/** Whether a cell of a chart's data carries an uncertainty or a reason. */
export function isMeasured(cell: DataCell): cell is Exclude<DataCell, string | number | null> {
  return typeof cell === "object" && cell !== null;
}

/** What a drawing must not hold: it would be blocked by the page's policy, or let a record's text act. */
const barred =
  /<(?:script|style|foreignObject|iframe|image|a)\b|\s(?:style|on[a-z]+)\s*=|(?:href|src)\s*=\s*["'](?!#)|javascript:/i;

function drawOrProblem(page: Page, chart: Chart, place: Place): DrawnChart | TemplateProblem {
  const { cell } = place.outcome;
  const problem = (code: string, message: string, hint: string): TemplateProblem => ({
    code,
    severity: "error",
    file: page.input.run.file,
    line: cell.fenceLine,
    column: 1,
    length: 1,
    message,
    hint,
  });
  let drawn: DrawnChart;
  try {
    drawn = page.input.draw(chart, `drawing-${cell.index + 1}`, { title: cell.caption ?? place.name });
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return problem("E_DRAW", `the chart could not be drawn: ${message}`, "check the chart's marks and scales");
  }
  const found = barred.exec(drawn.svg.replace(/>[^<]*</g, "><"));
  if (found === null) return drawn;
  return problem("E_DRAW", `the drawing holds "${found[0]}", which a page may not`, "draw with marks that need none");
}
