import type * as Plot from "@observablehq/plot";
import { extent } from "d3-array";
import { textWidth } from "../drawing/text-width.js";
import { colours, sizes, strokes } from "../theme.js";
import { boundsOf, sayLimit, type FigureLimit } from "./limits.js";
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
  const lines = limits.flatMap((limit, index) => {
    const dash = dashes[index % dashes.length]!;
    return [
      ...(limit.min === undefined ? [] : [{ value: limit.min.value, dash, word: "min" }]),
      ...(limit.max === undefined ? [] : [{ value: limit.max.value, dash, word: "max" }]),
      ...(limit.nominal === undefined ? [] : [{ value: limit.nominal.value, dash: "1 3", word: "nominal" }]),
    ].filter((line) => isNear(line.value));
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

function draw(lines: readonly { value: number; dash: string; word: string }[]): Plot.RenderFunction {
  return (_index, scales, _values, dimensions, context) => {
    const top = dimensions.marginTop;
    const bottom = dimensions.height - dimensions.marginBottom;
    const at = lines.map((line) => positionOn(scales.x, line.value));
    const range = [dimensions.marginLeft - 6, dimensions.width - dimensions.marginRight + 4] as const;
    const texts = limitTexts(lines, range[1] - range[0]);
    const centres = spreadLabels(at, texts.map(roomOf), range);
    return svgElement(
      context,
      "g",
      {},
      lines.flatMap((line, index) => [
        svgElement(context, "line", {
          x1: at[index],
          x2: at[index],
          y1: top,
          y2: bottom,
          stroke: colours.ink,
          "stroke-width": strokes.thin,
          "stroke-dasharray": line.dash,
        }),
        svgText(context, centres[index]!, top - 15, texts[index]!, { anchor: "middle" }),
      ]),
    );
  };
}

/** "min 40" and so on; the numbers alone where the chart is too narrow for the words, since the note names them too. */
function limitTexts(
  lines: readonly { readonly value: number; readonly word: string }[],
  room: number,
): readonly string[] {
  const whole = lines.map((line) => `${line.word} ${sayStated(line.value, "1")}`);
  const needed = whole.reduce((sum, text) => sum + roomOf(text), 0);
  return needed <= room ? whole : lines.map((line) => sayStated(line.value, "1"));
}

function roomOf(text: string): number {
  return textWidth(text, sizes.textPx) + 8;
}
