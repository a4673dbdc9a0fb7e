import type * as Plot from "@observablehq/plot";
import { ellipsize, textWidth } from "../drawing/text-width.js";
import { colours, sizes, strokes } from "../theme.js";
import { spreadLabels } from "./spread.js";
import { positionOn, svgElement, svgText } from "./svg.js";

/** Words at the right or left end of a line. */
export interface EndLabel {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly weight?: "bold" | undefined;
  readonly quiet?: boolean | undefined;
}

const gapPx = 8;
const leaderPx = 12;
const widestPx = 150;

/** The margin that labels of these texts need, px. */
export function endLabelMargin(texts: readonly string[]): number {
  const widest = Math.max(0, ...texts.map((text) => textWidth(text, sizes.textPx)));
  return Math.ceil(Math.min(widest, widestPx)) + gapPx + leaderPx + 4;
}

/**
 * Labels in the margin beside the ends of lines, moved apart just as far as they need, each with a fine line to its end
 * where it was moved. `right` unless told otherwise.
 */
export function endLabels(labels: readonly EndLabel[], side: "left" | "right" = "right"): Plot.RenderFunction {
  return (_index, scales, _values, dimensions, context) => {
    const sign = side === "right" ? 1 : -1;
    const ends = labels.map((label) => [positionOn(scales.x, label.x), positionOn(scales.y, label.y)] as const);
    const middles = spreadLabels(
      ends.map(([, y]) => y),
      labels.map(() => sizes.linePx - 1),
      [dimensions.marginTop - 8, dimensions.height - dimensions.marginBottom + 10],
    );
    const edge = side === "right" ? dimensions.width - dimensions.marginRight : dimensions.marginLeft;
    const column = edge + sign * (gapPx + leaderPx);
    return svgElement(
      context,
      "g",
      {},
      labels.flatMap((label, index) => {
        const [x, y] = ends[index]!;
        const middle = middles[index]!;
        const text = svgText(context, column, middle, ellipsize(label.text, widestPx, sizes.textPx), {
          anchor: side === "right" ? "start" : "end",
          fill: label.quiet === true ? colours.quiet : colours.ink,
          ...(label.weight === undefined ? {} : { weight: label.weight }),
        });
        const d = `M${x + sign * 4},${y}L${edge + sign * 2},${y}L${column - sign * 5},${middle}L${column - sign * 3},${middle}`;
        const leader = svgElement(context, "path", {
          d,
          fill: "none",
          stroke: colours.faint,
          "stroke-width": strokes.grid,
        });
        return [leader, text];
      }),
    );
  };
}
