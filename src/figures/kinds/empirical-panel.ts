import * as Plot from "@observablehq/plot";
import { isQuantity, type Measured } from "../../metrology/quantity.js";
import { safeLabel } from "../drawing/safe-text.js";
import { positionOn, svgElement, svgText } from "../kit/svg.js";
import { sayPair } from "../kit/words.js";
import { colours, sizes, strokes } from "../theme.js";

/** One reading of a sample. Those that do not count stay visible as ticks and are not in the curve. */
export interface SampleReading {
  readonly value: Measured;
  /** Name in the table: "press 3". */
  readonly name: string;
  /** `counted` is in the curve; `apart` is in the curve and drawn as a short tick (valid, but not kept by the method);
   *  `excluded` is drawn below the others and is not in the curve. Default `counted`. */
  readonly standing?: "counted" | "apart" | "excluded";
  /** Why it stands apart or is excluded. */
  readonly reason?: string;
}

/** A value of a sample to mark with an upright line: its mean, its published result. */
export interface SampleMark {
  readonly name: string;
  readonly value: Measured;
}

/** One sample of the chart, ready to draw. */
export interface Panel {
  readonly label: string;
  readonly counted: readonly number[];
  readonly readings: readonly SampleReading[];
  readonly marks: readonly SampleMark[];
  /** Height of the panel's base line on the common y axis. */
  readonly base: number;
}

/** Dashes of the marks, first to third. */
const markDashes = ["", "6 3", "2 3"] as const;

/** The values of the readings that have one. */
export function valuesOf(readings: readonly SampleReading[]): readonly number[] {
  return readings.flatMap(({ value }) => (isQuantity(value) ? [value.value] : []));
}

/**
 * Every reading as a tick below its panel: long where counted, short where apart, a cross on a lower line where excluded.
 * Equal readings stand under one another and share the height, so that each is seen.
 */
export function tickMarks(panel: Panel): Plot.Markish[] {
  const at = (standing: SampleReading["standing"]): readonly number[] =>
    valuesOf(panel.readings.filter((reading) => (reading.standing ?? "counted") === standing));
  const [counted, apart] = [at("counted"), at("apart")];
  const all = [...counted, ...apart];
  const ticks = all.map((x, index) => {
    const equal = all.filter((other) => isSame(other, x)).length;
    const before = all.slice(0, index).filter((other) => isSame(other, x)).length;
    const height = 0.16 / equal;
    const y1 = panel.base - 0.04 - before * height;
    const share = (index < counted.length ? 1 : 0.375) * (equal > 1 ? 0.75 : 1);
    return { x, y1, y2: y1 - share * height };
  });
  const tick = { stroke: colours.ink, strokeWidth: strokes.thin } as const;
  return [
    Plot.ruleX(ticks, { x: "x", y1: "y1", y2: "y2", ...tick }),
    Plot.dot(at("excluded"), {
      x: (value: number) => value,
      y: () => panel.base - 0.28,
      symbol: "times",
      r: 3,
      stroke: colours.second,
      strokeWidth: strokes.curve,
    }),
  ];
}

/** Readings that came from the same count of frames differ by rounding alone. */
function isSame(a: number, b: number): boolean {
  return Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a));
}

/** The marked values of a panel as upright lines. */
export function markLines(panel: Panel): Plot.Markish[] {
  return panel.marks.flatMap(({ value }, index) =>
    value.absent
      ? []
      : [
          Plot.ruleX([value.value], {
            y1: panel.base,
            y2: panel.base + 1,
            stroke: colours.ink,
            strokeWidth: strokes.thin,
            ...(markDashes[index] === "" ? {} : { strokeDasharray: markDashes[index]! }),
          }),
        ],
  );
}

/** A line of words beside a panel. */
export interface SideLine {
  readonly text: string;
  /** Dash of the line sample before the text; undefined for no sample. */
  readonly dash?: string;
}

/** The marked values in words, for the margin beside their panel. */
export function sideLines(panel: Panel): readonly SideLine[] {
  return panel.marks.map(({ name, value }, index) => ({
    text: `${safeLabel(name)} ${value.absent ? "not available" : sayPair(value)}`,
    dash: markDashes[index]!,
  }));
}

/** The name of each panel and its marked values, each with a sample of its line, in the right margin. */
export function sideTexts(panels: readonly Panel[], side: readonly (readonly SideLine[])[]): Plot.RenderFunction {
  return (_index, scales, _values, dimensions, context) => {
    const x = dimensions.width - dimensions.marginRight + 12;
    return svgElement(
      context,
      "g",
      {},
      panels.flatMap((panel, index) => {
        const top = positionOn(scales.y, panel.base + 1) + 6;
        return [
          svgText(context, x, top, panel.label, { weight: "bold" }),
          ...side[index]!.flatMap(({ text, dash }, line) => {
            const y = top + (line + 1) * (sizes.linePx + 1);
            const sample = { x1: x, x2: x + 20, y1: y, y2: y, stroke: colours.ink, "stroke-width": strokes.thin };
            return [
              svgElement(context, "line", { ...sample, "stroke-dasharray": dash === "" ? undefined : dash }),
              svgText(context, x + 26, y, text),
            ];
          }),
        ];
      }),
    );
  };
}
