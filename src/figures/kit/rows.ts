import * as Plot from "@observablehq/plot";
import type { Axis } from "../chart.js";
import { ellipsize, textWidth, wrapText } from "../drawing/text-width.js";
import { colours, sizes, strokes } from "../theme.js";
import { positionOn, svgElement, svgText } from "./svg.js";

/** One row of a chart with one row an item. */
export interface Row {
  readonly label: string;
  /** Text in the column right of the rows; empty for none. */
  readonly right?: string;
  /** Words in place of marks, where the row has no value. */
  readonly gap?: string;
}

/** The parts that charts of rows share. */
export interface RowFrame {
  readonly y: Axis;
  readonly height: number;
  readonly marginLeft: number;
  readonly marginRight: number;
  /** Rules between the rows; below the data. */
  readonly under: Plot.Markish[];
  /** The right column and the words in gaps; above the data. */
  readonly over: Plot.Markish[];
}

export interface RowOptions {
  /** What the labels are: "Key". */
  readonly title: string;
  readonly rowPx?: number;
  readonly rightTitle?: string;
  /** Room for the longest label, px; 136 unless given. */
  readonly widestLabelPx?: number;
}

const widestLabelPx = 136;
const widestRightPx = 185;

/**
 * Lays out rows: room for the longest label on the left (on two lines beyond 136 px, then cut with an ellipsis; the
 * table holds it whole) and for the longest text on the right. Row `i` lies at y = i.
 */
export function rowFrame(rows: readonly Row[], options: RowOptions): RowFrame {
  const labelLines = rows.map((row) => twoLines(row.label, options.widestLabelPx ?? widestLabelPx));
  const isTall = labelLines.some((lines) => lines.length > 1);
  const rowPx = Math.max(options.rowPx ?? sizes.rowPx, isTall ? 2 * sizes.linePx + 5 : 0);
  const labels = labelLines.map((lines) => lines.join("\n"));
  const rights = rows.map((row) => ellipsize(row.right ?? "", widestRightPx, sizes.textPx));
  const rightTitle = options.rightTitle ?? "";
  const widest = (texts: readonly string[]): number =>
    Math.max(0, ...texts.map((text) => textWidth(text, sizes.textPx)));
  const marginLeft = Math.max(30, Math.ceil(widest([...labelLines.flat(), options.title])) + 14);
  const rightWidth = Math.ceil(widest([...rights, rightTitle]));
  const marginRight = rightWidth === 0 ? 16 : rightWidth + 14;
  const gaps = rows.flatMap((row, index) => (row.gap === undefined ? [] : [{ index, gap: row.gap }]));
  const text = { fontSize: sizes.textPx, fill: colours.ink } as const;
  return {
    y: {
      label: options.title,
      domain: [rows.length - 0.5, -0.5],
      ticks: rows.map((_, index) => index),
      tickLabels: labels.map(() => ""),
      grid: false,
    },
    height: rows.length * rowPx + 32 + 46,
    marginLeft,
    marginRight,
    under: [
      Plot.ruleY(
        rows.slice(1).map((_, index) => index + 0.5),
        { stroke: colours.rule, strokeWidth: strokes.grid },
      ),
    ],
    over: [
      Plot.text(labels, {
        ...text,
        y: (_: string, index: number) => index,
        text: (label: string) => label,
        ...(isTall ? { lineHeight: 1.15 } : {}),
        frameAnchor: "left",
        textAnchor: "start",
        dx: 1 - marginLeft,
      }),
      Plot.text(rights, {
        ...text,
        y: (_: string, index: number) => index,
        text: (right: string) => right,
        filter: (right: string) => right !== "",
        frameAnchor: "right",
        textAnchor: "start",
        dx: 14,
        fontVariant: "tabular-nums",
      }),
      rightTitle === ""
        ? null
        : Plot.text([rightTitle], {
            ...text,
            frameAnchor: "top-right",
            textAnchor: "start",
            lineAnchor: "bottom",
            dx: 14,
            dy: -10,
          }),
      gaps.length === 0 ? null : gapWords(gaps),
    ],
  };
}

/** A label on at most two lines. */
function twoLines(label: string, widthPx: number): readonly string[] {
  const lines = wrapText(label, widthPx, sizes.textPx);
  const [first = ""] = lines;
  return lines.length <= 2 ? lines : [first, ellipsize(lines.slice(1).join(" "), widthPx, sizes.textPx)];
}

/** Words in the rows that have no value, cut where the chart is too narrow for them; the table holds them whole. */
function gapWords(gaps: readonly { readonly index: number; readonly gap: string }[]): Plot.RenderFunction {
  return (_index, scales, _values, dimensions, context) => {
    const room = dimensions.width - dimensions.marginLeft - dimensions.marginRight - 8;
    const style = { italic: true, halo: true, fill: colours.quiet } as const;
    return svgElement(
      context,
      "g",
      {},
      gaps.map(({ index, gap }) =>
        svgText(
          context,
          dimensions.marginLeft + 6,
          positionOn(scales.y, index),
          ellipsize(gap, room, sizes.textPx),
          style,
        ),
      ),
    );
  };
}
