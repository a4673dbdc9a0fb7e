import type * as Plot from "@observablehq/plot";
import { textWidth } from "../drawing/text-width.js";
import { colours, sizes, strokes } from "../theme.js";
import { spreadLabels } from "./spread.js";
import { positionOn, svgElement, svgText } from "./svg.js";

/** Moments as dotted upright lines, their words above the chart, moved apart as far as they need. */
export function eventMarks(events: readonly { readonly x: number; readonly label: string }[]): Plot.RenderFunction {
  return (_index, scales, _values, dimensions, context) => {
    const top = dimensions.marginTop;
    const at = events.map((event) => positionOn(scales.x, event.x));
    const centres = spreadLabels(
      at,
      events.map((event) => textWidth(event.label, sizes.textPx) + 10),
      [dimensions.marginLeft, dimensions.width],
    );
    return svgElement(
      context,
      "g",
      {},
      events.flatMap((event, index) => [
        svgElement(context, "path", {
          d: `M${at[index]},${dimensions.height - dimensions.marginBottom}V${top}L${centres[index]},${top - 5}`,
          fill: "none",
          stroke: colours.quiet,
          "stroke-width": strokes.axis,
          "stroke-dasharray": "1 3",
        }),
        svgText(context, centres[index]!, top - 12, event.label, { anchor: "middle", fill: colours.quiet }),
      ]),
    );
  };
}
