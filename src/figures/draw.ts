import * as Plot from "@observablehq/plot";
import { JSDOM } from "jsdom";
import type { Chart, ChartData } from "./chart.js";
import { axisMarks, axisTitle, axisTitles, scaleOptions, type Frame } from "./drawing/axes.js";
import { renderCsv } from "./drawing/csv.js";
import { normalise } from "./drawing/normalise.js";
import { safeText } from "./drawing/safe-text.js";
import { simplifyPaths } from "./drawing/simplify-paths.js";
import { wrapText } from "./drawing/text-width.js";
import { checkOptions } from "./kit/options.js";
import { colours, sizes } from "./theme.js";

export interface DrawOptions {
  /** The question that the figure answers, or its caption: the drawing's accessible name. */
  readonly title: string;
  /** Width of the drawing in its own px, 300 to 1200; 460 by default, at which its text is largest. */
  readonly widthPx?: number;
}

/** A chart made ready for a page. */
export interface Drawing {
  /** One `svg` element, valid in HTML and as a file of its own: no style sheet, style attribute, class or address. */
  readonly svg: string;
  readonly table: ChartData;
  readonly csv: string;
  readonly title: string;
  /** The finding, then what the axes and the note say. */
  readonly description: string;
  /** Nothing was drawn: `svg` holds the words of `chart.empty`. */
  readonly empty: boolean;
}

/** The one document in which everything is drawn. It is made on import, since a sealed process cannot make it later. */
const page = new JSDOM("").window;

/**
 * Draws a chart. The same chart, id and options give the same bytes whatever was drawn before, in any time zone and
 * locale.
 *
 * @param chart a description made by `chart` or by a figure
 * @param figureId the figure's id on the page, which leads every id inside the drawing: a letter, then letters, digits, - or _
 * @throws RangeError on an unknown option or an id that cannot stand in a page; where a mark loads, links or runs
 *   something; where the drawing library warns of the data, since a page cannot show its warning
 */
export function drawChart(chart: Chart, figureId: string, options: DrawOptions): Drawing {
  checkOptions(options, ["title", "widthPx"], "drawing");
  if (!/^[A-Za-z][\w-]*$/.test(figureId)) throw new RangeError(`"${figureId}" cannot be the id of a figure`);
  const widthPx = options.widthPx ?? sizes.widthPx;
  if (!(widthPx >= 300 && widthPx <= 1200)) throw new RangeError(`the width is ${widthPx} px; it must be 300 to 1200`);
  const title = safeText(options.title);
  const description = describe(chart);
  const svg = chart.empty === undefined ? plot(chart, widthPx) : plotWords(chart.empty, widthPx);
  simplifyPaths(svg);
  nameDrawing(svg, title, description);
  normalise(svg, figureId);
  return {
    svg: new page.XMLSerializer().serializeToString(svg),
    table: chart.data,
    csv: renderCsv(chart.data),
    title,
    description,
    empty: chart.empty !== undefined,
  };
}

function plot(chart: Chart, widthPx: number): SVGSVGElement {
  const noteLines = chart.note === undefined ? [] : wrapText(safeText(chart.note), widthPx - 2, sizes.textPx);
  const noteHeight = noteLines.length === 0 ? 0 : noteLines.length * sizes.linePx + 4;
  const frame: Frame = {
    widthPx,
    heightPx: (chart.height ?? 280) + noteHeight,
    marginTop: chart.marginTop ?? (chart.y.hidden ? 12 : 32),
    marginRight: chart.marginRight ?? 16,
    marginBottom: (chart.marginBottom ?? (chart.x.hidden ? 8 : 46)) + noteHeight,
    marginLeft: chart.marginLeft ?? 44,
  };
  const drawn = Plot.plot({
    ...chart.extra,
    document: page.document,
    width: frame.widthPx,
    height: frame.heightPx,
    marginTop: frame.marginTop,
    marginRight: frame.marginRight,
    marginBottom: frame.marginBottom,
    marginLeft: frame.marginLeft,
    x: scaleOptions(chart.x),
    y: scaleOptions(chart.y),
    marks: [
      ...axisMarks(chart.x, chart.y, frame),
      ...chart.marks,
      ...axisTitles(chart.x, chart.y, frame),
      ...noteMarks(noteLines, frame, noteHeight),
    ],
  });
  if (drawn.localName !== "svg") throw new RangeError("a chart draws no legend or caption of its own: label the marks");
  const svg = drawn as unknown as SVGSVGElement;
  const warning = [...svg.querySelectorAll("text")].find((text) => text.textContent.startsWith("\u26a0"));
  if (warning !== undefined) throw new RangeError(`the drawing library warns: ${warning.textContent.slice(2).trim()}`);
  return svg;
}

function noteMarks(lines: readonly string[], frame: Frame, noteHeight: number): Plot.Markish[] {
  return lines.map((line, index) =>
    Plot.text([line], {
      facet: "super",
      frameAnchor: "bottom-left",
      textAnchor: "start",
      lineAnchor: "bottom",
      fill: colours.quiet,
      fontSize: sizes.textPx,
      dx: -frame.marginLeft + 1,
      dy: frame.marginBottom - noteHeight + (index + 1) * sizes.linePx,
    }),
  );
}

/** Words in place of axes, in a thin frame. */
function plotWords(words: string, widthPx: number): SVGSVGElement {
  const lines = wrapText(safeText(words), widthPx - 32, sizes.textPx);
  const height = lines.length * sizes.linePx + 24;
  const svg = element("svg", { width: widthPx, height, viewBox: `0 0 ${widthPx} ${height}` });
  svg.append(
    element("rect", { x: 0.5, y: 0.5, width: widthPx - 1, height: height - 1, fill: "none", stroke: colours.faint }),
  );
  lines.forEach((line, index) => {
    const text = element("text", {
      x: 16,
      y: 12 + (index + 0.75) * sizes.linePx,
      "text-anchor": "start",
      fill: colours.ink,
    });
    text.textContent = line;
    svg.append(text);
  });
  return svg as SVGSVGElement;
}

/** The pattern that screen readers support best: role img, and one name made of title and description. */
function nameDrawing(svg: SVGSVGElement, title: string, description: string): void {
  const parts = [
    ["title", title],
    ["desc", description],
  ].map(([name, text]) => {
    const part = element(name!, { id: `name-${name}` });
    part.textContent = text!;
    return part;
  });
  svg.prepend(...parts);
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-labelledby", "name-title name-desc");
}

function describe(chart: Chart): string {
  const axes = [
    ["Horizontal axis", chart.x],
    ["Vertical axis", chart.y],
  ] as const;
  const named = chart.empty === undefined ? axes.map(([name, axis]) => `${name}: ${axisTitle(axis)}.`) : [];
  return safeText([chart.finding, ...named, chart.note ?? ""].filter((part) => part !== "").join(" "));
}

function element(name: string, attributes: Readonly<Record<string, string | number>>): SVGElement {
  const made = page.document.createElementNS("http://www.w3.org/2000/svg", name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
  return made as SVGElement;
}
