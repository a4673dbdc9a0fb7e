import type { Chart } from "../../src/figures/chart.js";
import { expand } from "../../src/metrology/expanded.js";
import type { DrawnChart } from "../../src/dossier/index.js";
import { escapeText } from "../../src/dossier/markup.js";

/** Colours as the figures' own style sheet names them. */
export const stubStyles = `:root { --figure-paper: #fff; --figure-ink: #1a1d21; --figure-rule: #e1e4e8; --figure-first: #0072b2; }
@media screen and (prefers-color-scheme: dark) { :root { --figure-paper: #14171b; --figure-ink: #e8eaed; --figure-rule: #2c3138; --figure-first: #56b4e9; } }
.figure-drawing { display: block; width: 100%; max-width: 560px; height: auto; color: var(--figure-ink); font-family: sans-serif; }`;

/** A plain drawing of a chart's data: a line for pairs of numbers, else a row of intervals. */
export function drawStub(chart: Chart, figureId: string): DrawnChart {
  const title = `${chart.y.label} against ${chart.x.label.toLowerCase()}`;
  const numbers = chart.data.rows.every((row) => row.every((cell) => typeof cell === "number"));
  const marks = numbers ? line(chart) : intervals(chart);
  const label = (axis: Chart["x"]): string =>
    escapeText(axis.symbol === undefined ? axis.label : `${axis.label} (${axis.symbol})`);
  const svg = `<svg class="figure-drawing" role="img" aria-labelledby="${figureId}-1 ${figureId}-2" viewBox="0 0 460 300" width="460" height="300" fill="currentColor" font-size="12.5"><title id="${figureId}-1">${escapeText(title)}</title><desc id="${figureId}-2">${escapeText(chart.finding)}</desc><g stroke="var(--figure-rule)" stroke-width="0.6">${[60, 110, 160, 210].map((y) => `<line x1="60" x2="445" y1="${y}" y2="${y}"/>`).join("")}</g><line x1="60" x2="445" y1="260" y2="260" stroke="currentColor" stroke-width="0.9"/>${marks}<text x="252" y="292" text-anchor="middle">${label(chart.x)}</text><text x="60" y="20" text-anchor="start">${label(chart.y)}</text></svg>`;
  return { svg, csv: csvOf(chart), title, description: chart.finding };
}

function line(chart: Chart): string {
  const points = chart.data.rows.map((row) => [Number(row[0]), Number(row[1])] as const);
  const path = points.map(([x, y]) => `${(60 + x * 95).toFixed(2)},${(260 - y * 1.8).toFixed(2)}`).join("L");
  return `<path d="M${path}" fill="none" stroke="var(--figure-first)" stroke-width="1.9"/>`;
}

function intervals(chart: Chart): string {
  const measured = chart.data.rows.flatMap((row) =>
    row.filter((cell) => typeof cell === "object" && cell !== null && !cell.absent),
  );
  const values = measured.map((q) =>
    typeof q === "object" && q !== null && !q.absent ? ([q.value, expand(q).U] as const) : ([0, 0] as const),
  );
  const least = Math.min(...values.map(([v, U]) => v - U));
  const most = Math.max(...values.map(([v, U]) => v + U));
  const x = (value: number): string => (70 + ((value - least) / (most - least)) * 360).toFixed(2);
  return values
    .map(([v, U], index) => {
      const y = (40 + (index * 210) / values.length).toFixed(2);
      return `<line x1="${x(v - U)}" x2="${x(v + U)}" y1="${y}" y2="${y}" stroke="var(--figure-first)" stroke-width="1.2"/><circle cx="${x(v)}" cy="${y}" r="3" fill="var(--figure-first)"/>`;
    })
    .join("");
}

function csvOf(chart: Chart): string {
  const header = chart.data.columns.map((column) => column.name).join(",");
  const cells = chart.data.rows.map((row) =>
    row
      .map((cell) => (typeof cell === "object" && cell !== null ? (cell.absent ? "" : cell.value) : (cell ?? "")))
      .join(","),
  );
  return `${[header, ...cells].join("\r\n")}\r\n`;
}
