import type * as Plot from "@observablehq/plot";
import { extent } from "d3-array";
import { textWidth } from "../drawing/text-width.js";
import { colours, sizes, strokes } from "../theme.js";
import { boundsOf, isSymmetric, sayLimit, type FigureLimit } from "./limits.js";
import { spreadLabels } from "./spread.js";
import { positionOn, svgElement, svgText } from "./svg.js";
import { capitalise, sayStated } from "./words.js";

/** Dashes that tell limits apart, in the order given; a nominal value is dotted. */
const dashes = ["6 3", "2 3", "10 3 2 3"] as const;
const dashNames = ["dashed", "short dashes", "dash-dot"] as const;

/** Limits far beyond the values would press them together: those further out than this many spans are said, not drawn. */
const farthestSpans = 4;

export interface DrawnLimits {
  /** Bounds that the axis must hold. */
  readonly values: readonly number[];
  readonly marks: Plot.Markish[];
  /** What the lines are, for the note under the chart. */
  readonly note: string;
}

/**
 * Limits as upright lines with their numbers above the chart, and the words that say what they are.
 * @param limits as given; none gives no marks and no words
 * @param values what else the axis holds, at least one
 */
export function limitMarks(limits: readonly FigureLimit[], values: readonly number[]): DrawnLimits {
  const [low = 0, high = 0] = extent(values);
  const span = high - low || Math.abs(high) / 4 || 1;
  const isNear = (value: number): boolean =>
    value >= low - farthestSpans * span && value <= high + farthestSpans * span;
  const lines = limits.flatMap((limit, index): readonly LimitLine[] => {
    const dash = dashes[index % dashes.length]!;
    const { value: half = 0 } = limit.max ?? {};
    if (isSymmetric(limit) && isNear(half) && isNear(-half)) {
      return [
        { value: -half, dash, label: null },
        { value: half, dash, label: { at: 0, word: "±", value: half } },
      ];
    }
    const line = (value: number, word: string, style: string = dash): LimitLine => ({
      value,
      dash: style,
      label: { at: value, word, value },
    });
    return [
      ...(limit.min === undefined ? [] : [line(limit.min.value, "min")]),
      ...(limit.max === undefined ? [] : [line(limit.max.value, "max")]),
      ...(limit.nominal === undefined ? [] : [line(limit.nominal.value, "nominal", "1 3")]),
    ].filter(({ value }) => isNear(value));
  });
  const note = limits.map((limit, index) => {
    const far = boundsOf(limit).filter((bound) => !isNear(bound.value));
    const judged = limit.min !== undefined || limit.max !== undefined;
    const what = `${capitalise(judged ? dashNames[index % dashes.length]! : "dotted")}: ${sayLimit(limit)}`;
    const source = limit.source === undefined ? "" : ` (${limit.source})`;
    const kind =
      limit.force === "typical"
        ? ", typical, not judged"
        : limit.binds === "mean"
          ? ", binds the mean, not judged here"
          : "";
    const beyond =
      far.length === 0 ? "" : `; ${far.map((b) => sayStated(b.value, b.symbol)).join(" and ")} beyond the axis`;
    return `${what}${source}${kind}${beyond}.`;
  });
  return {
    values: lines.map((line) => line.value),
    marks: lines.length === 0 ? [] : [draw(lines)],
    note: note.join(" "),
  };
}

/** An upright line, and where which words stand for it; a limit equally far from zero on both sides has one label in the middle. */
interface LimitLine {
  readonly value: number;
  readonly dash: string;
  readonly label: LimitLabel | null;
}

interface LimitLabel {
  readonly at: number;
  readonly word: string;
  readonly value: number;
}

function draw(lines: readonly LimitLine[]): Plot.RenderFunction {
  return (_index, scales, _values, dimensions, context) => {
    const top = dimensions.marginTop;
    const bottom = dimensions.height - dimensions.marginBottom;
    const at = lines.map((line) => positionOn(scales.x, line.value));
    const range = [dimensions.marginLeft - 6, dimensions.width - dimensions.marginRight + 4] as const;
    const labels = lines.flatMap(({ label }) => label ?? []);
    const texts = limitTexts(labels, range[1] - range[0]);
    const wanted = labels.map((label) => positionOn(scales.x, label.at));
    const centres = spreadLabels(wanted, texts.map(roomOf), range);
    return svgElement(context, "g", {}, [
      ...lines.map((line, index) =>
        svgElement(context, "line", {
          x1: at[index],
          x2: at[index],
          y1: top,
          y2: bottom,
          stroke: colours.ink,
          "stroke-width": strokes.thin,
          "stroke-dasharray": line.dash,
        }),
      ),
      ...texts.map((text, index) => svgText(context, centres[index]!, top - 15, text, { anchor: "middle" })),
    ]);
  };
}

/** "min 40" and so on; the numbers alone where the chart is too narrow for the words, since the note names them too. */
function limitTexts(labels: readonly LimitLabel[], room: number): readonly string[] {
  const whole = labels.map(({ word, value }) => `${word}${word === "±" ? "\u00a0" : " "}${sayStated(value, "1")}`);
  const needed = whole.reduce((sum, text) => sum + roomOf(text), 0);
  return needed <= room
    ? whole
    : labels.map(({ word, value }, index) => (word === "±" ? whole[index]! : sayStated(value, "1")));
}

function roomOf(text: string): number {
  return textWidth(text, sizes.textPx) + 8;
}
