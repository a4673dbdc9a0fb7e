import type * as Plot from "@observablehq/plot";
import { isQuantity, type Measured } from "../metrology/quantity.js";
import { checkOptions } from "./kit/options.js";

/** A cell of the table beside a chart. */
export type DataCell = string | number | Measured | null;

/** A column of the table beside a chart. */
export interface DataColumn {
  /** Name in the CSV file: `actuation_force`; the unit of measure is added there. */
  readonly name: string;
  readonly label: string;
  /** Unit of measure of the column's numbers. */
  readonly symbol?: string;
}

/** What was drawn, as a table: the same values as the marks show, before any simplification to pixels. */
export interface ChartData {
  readonly columns: readonly DataColumn[];
  readonly rows: readonly (readonly DataCell[])[];
  /** What a reader of the table must know, such as which share of a long curve's points it lists. */
  readonly note?: string;
}

/** Options of one axis. `label` without the unit of measure; `symbol` adds it: "Displacement (mm)". */
export interface Axis {
  readonly label: string;
  readonly symbol?: string;
  readonly domain?: readonly [number, number] | readonly string[];
  /** `utc`: milliseconds since 1970-01-01T00:00Z, ticks printed as ISO dates. */
  readonly type?: "linear" | "log" | "band" | "point" | "utc";
  readonly zero?: boolean;
  readonly reverse?: boolean;
  /** Positions of the ticks; default: round numbers, as many as the space allows. */
  readonly ticks?: readonly (number | string)[];
  /** Texts of `ticks`, one each; default: the numbers, all with the same decimals. */
  readonly tickLabels?: readonly string[];
  /** Lines across the chart at the ticks; default: on the y axis of numbers only. */
  readonly grid?: boolean;
  /** Draws neither line, ticks nor label; the description still names the axis. */
  readonly hidden?: boolean;
}

/** A chart as a plain description; drawn by `drawChart` alone. */
export interface Chart {
  readonly kind: "chart";
  readonly marks: readonly Plot.Markish[];
  readonly x: Axis;
  readonly y: Axis;
  readonly height?: number;
  readonly marginLeft?: number;
  readonly marginRight?: number;
  readonly marginTop?: number;
  readonly marginBottom?: number;
  /** A line under the chart: what is not drawn and why, or how to read a shade. */
  readonly note?: string;
  /** Set where there is nothing to draw: the words that stand in place of axes. */
  readonly empty?: string;
  /** One sentence: what the data in the chart say. Becomes caption and description. */
  readonly finding: string;
  readonly data: ChartData;
  /** Further scales and options of the drawing library; see `extraOptions` for those allowed. */
  readonly extra?: Readonly<Record<string, unknown>>;
}

/** How a chart looks; everything of `Chart` but what it says. */
export type ChartDescription = Omit<Chart, "kind" | "finding" | "data">;

const descriptionOptions = [
  "marks",
  "x",
  "y",
  "height",
  "marginLeft",
  "marginRight",
  "marginTop",
  "marginBottom",
  "note",
  "empty",
  "extra",
] as const;

const axisOptions = [
  "label",
  "symbol",
  "domain",
  "type",
  "zero",
  "reverse",
  "ticks",
  "tickLabels",
  "grid",
  "hidden",
] as const;

/** What `extra` may hold. Styles, legends, captions and anything that would load a resource are not among them. */
export const extraOptions = ["fx", "fy", "color", "symbol", "r", "opacity", "length", "clip", "inset"] as const;

/**
 * Builds a chart from marks and axes, and refuses one that does not say what it shows.
 *
 * @param description `marks` of the drawing library, drawn in order; `x` and `y` axes, each with a `label` and, for
 *   measured values, its `symbol`; `height` and margins in px of a chart 460 px wide; `note`; `empty`; `extra`
 * @param says `finding`: one sentence that states what the data say; `data`: what was drawn, as a table
 * @throws RangeError on an unknown option (with the nearest known one), an empty finding, an axis without a label, tick
 *   labels that do not match the ticks, a row whose length is not that of the columns, or a number that is not finite
 */
export function chart(
  description: ChartDescription,
  says: { readonly finding: string; readonly data: ChartData },
): Chart {
  checkOptions(description, descriptionOptions, "chart");
  checkOptions(says, ["finding", "data"], "chart");
  checkOptions(description.extra ?? {}, extraOptions, "chart's `extra`");
  for (const [name, scale] of Object.entries(description.extra ?? {})) {
    if (typeof scale === "object" && scale !== null && "legend" in scale) {
      throw new RangeError(`the chart's \`extra.${name}\` asks for a legend; there is none: label the marks directly`);
    }
  }
  if (!Array.isArray(description.marks)) throw new RangeError("a chart needs `marks`, a list of marks");
  checkAxis(description.x, "x");
  checkAxis(description.y, "y");
  for (const name of ["height", "marginLeft", "marginRight", "marginTop", "marginBottom"] as const) {
    const value = description[name];
    if (value !== undefined && !(value >= 0 && Number.isFinite(value))) {
      throw new RangeError(`the chart's ${name} is ${value}; it must be a number of px of at least 0`);
    }
  }
  if (typeof says.finding !== "string" || says.finding.trim() === "") {
    throw new RangeError("a chart needs a `finding`: one sentence that says what the data show");
  }
  checkData(says.data);
  return Object.freeze({ kind: "chart", ...description, finding: says.finding, data: says.data });
}

function checkAxis(axis: Axis, name: "x" | "y"): void {
  if (axis === undefined || axis === null) throw new RangeError(`a chart needs a ${name} axis: { label, symbol }`);
  checkOptions(axis, axisOptions, `${name} axis`);
  if (typeof axis.label !== "string" || axis.label.trim() === "")
    throw new RangeError(`the ${name} axis needs a label`);
  if (axis.tickLabels !== undefined && axis.tickLabels.length !== axis.ticks?.length) {
    throw new RangeError(
      `the ${name} axis has ${axis.tickLabels.length} tick labels but ${axis.ticks?.length ?? "no"} ticks`,
    );
  }
}

function checkData(data: ChartData): void {
  if (data === undefined || data === null || !Array.isArray(data.columns) || data.columns.length === 0) {
    throw new RangeError("a chart needs `data`: the table of what was drawn, with its columns");
  }
  data.rows.forEach((row, index) => {
    if (row.length !== data.columns.length) {
      throw new RangeError(
        `row ${index + 1} of the chart's data has ${row.length} cells for ${data.columns.length} columns`,
      );
    }
    row.forEach((cell, column) => checkCell(cell, data.columns[column]!, index));
  });
}

function checkCell(cell: DataCell, column: DataColumn, index: number): void {
  const where = `row ${index + 1}, column "${column.name}" of the chart's data`;
  if (typeof cell === "number" && !Number.isFinite(cell)) {
    throw new RangeError(`${where} is ${cell}; use null, or an absence with its reason`);
  }
  if (cell === undefined) throw new RangeError(`${where} is undefined; use null for an empty cell`);
  if (typeof cell === "object" && cell !== null && isQuantity(cell) && cell.symbol !== (column.symbol ?? "1")) {
    throw new RangeError(`${where} is in ${cell.symbol}, but the column is in ${column.symbol ?? "1"}`);
  }
}
