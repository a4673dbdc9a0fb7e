import * as Plot from "@observablehq/plot";
import { roundToPlaces } from "../../metrology/print.js";
import type { Axis } from "../chart.js";
import { colours, sizes, strokes } from "../theme.js";
import { sayDate } from "../kit/dates.js";
import { safeLabel } from "./safe-text.js";

/** The margins and sizes of one drawing, px. */
export interface Frame {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly marginLeft: number;
  readonly marginRight: number;
  readonly marginTop: number;
  readonly marginBottom: number;
}

/** How far below the drawing's upper edge the y axis's title ends, px. */
const titleBottomPx = 22;

/** Least distance between ticks, px: along x room for the number, for an ISO date; along y for a line of text. */
const tickSpacingPx = { x: 62, date: 104, y: 44 };

/** The axis as the page names it: "Displacement (mm)"; ratios and counts have no unit of measure to name. */
export function axisTitle(axis: Axis): string {
  const label = safeLabel(axis.label);
  return axis.symbol === undefined || axis.symbol === "1" || axis.symbol === "" ? label : `${label} (${axis.symbol})`;
}

/** Scale options of the drawing library for one axis. Without a domain the marks give it, widened to round numbers. */
export function scaleOptions(axis: Axis): Plot.ScaleOptions {
  const band = axis.type === "band" || axis.type === "point";
  return {
    axis: null,
    label: null,
    ...(axis.type === undefined ? {} : { type: axis.type }),
    ...(axis.domain === undefined ? (band ? {} : { nice: true }) : { domain: [...axis.domain] as number[] }),
    ...(axis.zero === undefined || band ? {} : { zero: axis.zero }),
    ...(axis.reverse === undefined ? {} : { reverse: axis.reverse }),
  } as Plot.ScaleOptions;
}

/** Marks below the data: grid lines, the base line, ticks and their numbers. */
export function axisMarks(x: Axis, y: Axis, frame: Frame): Plot.Markish[] {
  const along = {
    x: frame.widthPx - frame.marginLeft - frame.marginRight,
    y: frame.heightPx - frame.marginTop - frame.marginBottom,
  };
  const options = {
    x: tickOptions(x, along.x, x.type === "utc" ? tickSpacingPx.date : tickSpacingPx.x),
    y: tickOptions(y, along.y, tickSpacingPx.y),
  };
  const grid = { stroke: colours.rule, strokeOpacity: 1, strokeWidth: strokes.grid };
  const text = { fill: colours.quiet, fontSize: sizes.textPx, label: null, tickPadding: 4 };
  const tick = { stroke: colours.quiet, strokeWidth: strokes.axis };
  return [
    (y.grid ?? (y.tickLabels === undefined && !isOrdinal(y))) && !y.hidden
      ? Plot.gridY({ ...options.y.ticks, ...grid })
      : null,
    (x.grid ?? false) && !x.hidden ? Plot.gridX({ ...options.x.ticks, ...grid }) : null,
    x.hidden ? null : Plot.axisX({ ...options.x.ticks, ...options.x.format, ...text, ...tick, tickSize: sizes.tickPx }),
    x.hidden ? null : Plot.frame({ anchor: "bottom", ...tick }),
    y.hidden
      ? null
      : Plot.axisY({ ...options.y.ticks, ...options.y.format, ...text, tickSize: 0, tickPadding: 7, marginLeft: 0 }),
  ];
}

/** The axes' titles: y above its numbers, x below its numbers at the right end, both upright. */
export function axisTitles(x: Axis, y: Axis, frame: Frame): Plot.Markish[] {
  const text = { facet: "super", fill: colours.ink, fontSize: sizes.textPx } as const;
  return [
    y.hidden
      ? null
      : Plot.text([axisTitle(y)], {
          ...text,
          frameAnchor: "top-left",
          textAnchor: "start",
          lineAnchor: "bottom",
          dx: -frame.marginLeft + 1,
          dy: titleBottomPx - frame.marginTop,
        }),
    x.hidden
      ? null
      : Plot.text([axisTitle(x)], {
          ...text,
          frameAnchor: "bottom-right",
          textAnchor: "end",
          lineAnchor: "top",
          dy: 25,
        }),
  ];
}

function isOrdinal(axis: Axis): boolean {
  return axis.type === "band" || axis.type === "point";
}

function tickOptions(axis: Axis, lengthPx: number, spacingPx: number): { ticks: object; format: object } {
  const ticks =
    axis.ticks === undefined
      ? isOrdinal(axis)
        ? {}
        : { ticks: Math.max(1, Math.floor(lengthPx / spacingPx)) }
      : { ticks: [...axis.ticks] };
  if (axis.tickLabels !== undefined) {
    const labels = axis.tickLabels;
    return { ticks, format: { tickFormat: (_: unknown, index: number) => labels[index] ?? "" } };
  }
  if (axis.type === "utc")
    return { ticks, format: { tickFormat: dateTick(Math.max(1, Math.floor(lengthPx / spacingPx))) } };
  if (isOrdinal(axis)) return { ticks, format: { tickFormat: (at: unknown) => safeLabel(String(at)) } };
  return { ticks, format: { tickFormat: formatTick } };
}

/** Dates of ticks; every second, third ... only, where the library has set more of them than there is room for. */
function dateTick(most: number): (at: Date, index: number, all: readonly Date[]) => string {
  return (at, index, all) => (index % Math.ceil(all.length / most) === 0 ? sayDate(at.getTime()) : "");
}

/**
 * One tick's text: a number with the decimals that all ticks of the axis need, so that they align; else a date or a name.
 * Ticks of a logarithmic axis come one by one, each with its own decimals.
 */
function formatTick(at: unknown, _index?: number, all: readonly unknown[] = [at]): string {
  if (at instanceof Date) return sayDate(at.getTime());
  if (typeof at !== "number") return safeLabel(String(at));
  const numbers = [...all].filter((tick) => typeof tick === "number");
  const decimals = numbers.map((tick) => (/\.(\d+)$/.exec(String(Number(tick.toPrecision(12))))?.[1] ?? "").length);
  return roundToPlaces(at, Math.max(...decimals));
}
