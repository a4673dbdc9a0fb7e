import type * as Plot from "@observablehq/plot";
import type { Measured } from "../metrology/quantity.js";

/** A cell of the table beside a chart. */
export type DataCell = string | number | Measured | null;

/** What was drawn, as a table: the same values as the marks show, before any simplification to pixels. */
export interface ChartData {
  readonly columns: readonly { readonly name: string; readonly label: string; readonly symbol?: string }[];
  readonly rows: readonly (readonly DataCell[])[];
}

/** Options of one axis. `label` without the unit of measure; `symbol` adds it: "Displacement (mm)". */
export interface Axis {
  readonly label: string;
  readonly symbol?: string;
  readonly domain?: readonly [number, number] | readonly string[];
  readonly type?: "linear" | "log" | "band" | "point";
  readonly zero?: boolean;
  readonly reverse?: boolean;
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
  /** One sentence: what the data in the chart say. Becomes caption and description. */
  readonly finding: string;
  readonly data: ChartData;
  readonly extra?: Readonly<Record<string, unknown>>;
}
