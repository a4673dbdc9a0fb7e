import { chart, type Axis, type Chart, type ChartData } from "../chart.js";

/** A chart that has nothing to draw: words in place of empty axes, and the table of what is missing and why. */
export function emptyChart(words: string, axes: { readonly x: Axis; readonly y: Axis }, data: ChartData): Chart {
  return chart({ marks: [], x: axes.x, y: axes.y, empty: words }, { finding: words, data });
}
