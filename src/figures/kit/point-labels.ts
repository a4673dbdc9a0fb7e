import type * as Plot from "@observablehq/plot";
import { textWidth } from "../drawing/text-width.js";
import { colours, sizes, strokes } from "../theme.js";
import { leaderEnd, placeLabels, type Direction, type PlacedLabel } from "./place-labels.js";
import { positionOn, svgElement, svgText } from "./svg.js";

/** Words beside a point of the chart: a name, and a second line in the quiet colour. */
export interface PointLabel {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly detail?: string;
  readonly prefer?: readonly Direction[];
  readonly weight?: "bold";
  /** Other places that the words may stand beside, best first. */
  readonly elsewhere?: readonly (readonly [number, number])[];
}

const detailLine = sizes.linePx - 1;

/** How far a label may stand from its point before a line leads to it, px. */
const leaderFromPx = 13;

/**
 * Labels beside points, placed when the chart's size in px is known so that they cover neither each other nor the lines.
 * @param labels most important first
 * @param lines the lines and points that labels should leave free, in data coordinates
 * @param faint lines in the background, which labels may cross where they must
 */
export function pointLabels(
  labels: readonly PointLabel[],
  lines: readonly (readonly (readonly [number, number])[])[] = [],
  faint: readonly (readonly (readonly [number, number])[])[] = [],
): Plot.RenderFunction {
  return (_index, scales, _values, dimensions, context) => {
    const place = (x: number, y: number): [number, number] => [positionOn(scales.x, x), positionOn(scales.y, y)];
    const obstacles = [
      ...lines.flatMap((line) => dense(line.map(([x, y]) => place(x, y)))),
      ...labels.map((label) => place(label.x, label.y)),
    ];
    const requests = labels.map((label) => {
      const [x, y] = place(label.x, label.y);
      const width = Math.max(textWidth(label.text, sizes.textPx), textWidth(label.detail ?? "", sizes.textPx));
      const height = sizes.textPx + (label.detail === undefined ? 0 : detailLine);
      return {
        ...{ x, y, width, height },
        ...(label.prefer === undefined ? {} : { prefer: label.prefer }),
        elsewhere: (label.elsewhere ?? []).map(([atX, atY]) => place(atX, atY)),
      };
    });
    const frame = {
      x: dimensions.marginLeft + 2,
      y: dimensions.marginTop - 6,
      width: dimensions.width - dimensions.marginLeft - dimensions.marginRight + 10,
      height: dimensions.height - dimensions.marginTop - dimensions.marginBottom + 2,
    };
    const background = faint.flatMap((line) => dense(line.map(([x, y]) => place(x, y))));
    const boxes = placeLabels(requests, obstacles, frame, background);
    const leaders = boxes.map(leader);
    return svgElement(context, "g", {}, [
      ...leaders.flatMap((line) =>
        line === null
          ? []
          : [svgElement(context, "line", { ...line, stroke: colours.quiet, "stroke-width": strokes.grid + 0.2 })],
      ),
      ...labels.flatMap((label, index) => {
        const { x, y, width, namedX } = boxes[index]!;
        const anchor = x + width < namedX ? "end" : x > namedX ? "start" : "middle";
        const at = anchor === "end" ? x + width : anchor === "start" ? x : x + width / 2;
        const line = y + sizes.textPx / 2;
        const style = { anchor, halo: true } as const;
        return [
          svgText(context, at, line, label.text, {
            ...style,
            ...(label.weight === undefined ? {} : { weight: label.weight }),
          }),
          ...(label.detail === undefined
            ? []
            : [svgText(context, at, line + detailLine, label.detail, { ...style, fill: colours.quiet })]),
        ];
      }),
    ]);
  };
}

/** A line from the named point to its label; null where the label stands beside it. */
function leader(label: PlacedLabel): { x1: number; y1: number; x2: number; y2: number } | null {
  const [x, y] = leaderEnd(label);
  const [dx, dy] = [x - label.namedX, y - label.namedY];
  const length = Math.hypot(dx, dy);
  if (!(length > leaderFromPx)) return null;
  return { x1: label.namedX + (dx * 6) / length, y1: label.namedY + (dy * 6) / length, x2: x, y2: y };
}

/** The line with a point at least every 4 px. */
function dense(points: readonly (readonly [number, number])[]): readonly (readonly [number, number])[] {
  return points.flatMap(([x, y], index) => {
    const next = points[index + 1];
    if (next === undefined) return [[x, y] as const];
    const steps = Math.min(500, Math.max(1, Math.ceil(Math.hypot(next[0] - x, next[1] - y) / 4)));
    return Array.from(
      { length: steps },
      (_, step) => [x + ((next[0] - x) * step) / steps, y + ((next[1] - y) * step) / steps] as const,
    );
  });
}
