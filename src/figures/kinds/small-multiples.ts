import * as Plot from "@observablehq/plot";
import { ticks } from "d3-array";
import { chart, type Axis, type Chart, type ChartData, type DataCell } from "../chart.js";
import type { Point } from "../drawing/simplify.js";
import { ellipsize } from "../drawing/text-width.js";
import { commonMiddle, curvesOf, heightAt, sayRangeAt, type Curve } from "../kit/curves.js";
import { extentOf, heightSpanOf } from "../kit/domain.js";
import { emptyChart } from "../kit/empty-chart.js";
import { nounOf, type LabelOptions } from "../kit/entries.js";
import { checkOptions } from "../kit/options.js";
import { sayThinned, thin } from "../kit/thin.js";
import { capitalise, joinWords, pluralOf, sayStated, sentence } from "../kit/words.js";
import { colours, sizes, strokes } from "../theme.js";

export interface SmallMultiplesOptions<T> extends LabelOptions<T> {
  readonly x: Pick<Axis, "label" | "symbol">;
  readonly y: Pick<Axis, "label" | "symbol">;
  /** Panels in a row, 1 to 6; default 4, or fewer for fewer items. */
  readonly columns?: number;
  /** A curve drawn faintly in every panel to compare with, and what it is. */
  readonly reference?: { readonly label: string; readonly points: readonly Point[] };
  /** Where the finding reads the curves; default: the middle of the stretch that all cover. */
  readonly at?: number;
  /** Greatest height drawn: curves that rise beyond it, such as to the end stop, are cut off there, and the note says so. */
  readonly highest?: number;
}

const panelHeightPx = 92;
const tableRows = 360;

/**
 * One small panel an item, all on the same two axes, so that shapes can be compared across many items.
 *
 * @param items in the order of the panels, left to right and down
 * @param points the curve of an item; an item without points keeps its panel, which says so
 * @param options `x`, `y`, `columns`, `reference`, `at`, `label`, `noun`
 * @throws RangeError on an unknown option, a number of columns out of range, a coordinate that is not a number
 */
export function smallMultiples<T>(
  items: readonly T[],
  points: (item: T, index: number) => readonly Point[],
  options: SmallMultiplesOptions<T>,
): Chart {
  checkOptions(options, ["label", "noun", "x", "y", "columns", "reference", "at", "highest"], "small multiples");
  const curves = curvesOf(items, points, options, "small multiples");
  const noun = nounOf(items, options);
  const columns = options.columns ?? Math.min(4, Math.max(1, curves.length));
  if (!(columns >= 1 && columns <= 6 && Number.isInteger(columns))) {
    throw new RangeError(`the small multiples have ${columns} columns; it must be a whole number from 1 to 6`);
  }
  const data = dataOf(curves, noun, options);
  const drawn = curves.filter((curve) => curve.points.length >= 2);
  const missing = curves.filter((curve) => curve.points.length < 2).map((curve) => curve.label);
  if (drawn.length === 0) {
    const words = curves.length === 0 ? `There are no ${pluralOf(noun)} to show.` : `No ${noun} has a curve to draw.`;
    return emptyChart(words, { x: options.x, y: options.y }, data);
  }
  const at = options.at ?? commonMiddle(drawn);
  const place = (index: number): { fx: number; fy: number } => ({
    fx: index % columns,
    fy: Math.floor(index / columns),
  });
  const all = [...drawn.flatMap((curve) => curve.points), ...(options.reference?.points ?? [])];
  const panelWidthPx = (sizes.widthPx - 60) / columns - 8;
  const titles = curves.map((curve, index) => ({
    ...place(index),
    text: ellipsize(curve.label, panelWidthPx, sizes.textPx),
  }));
  const gaps = curves.flatMap((curve, index) => (curve.points.length < 2 ? [place(index)] : []));
  const flat = curves.flatMap((curve, index) => curve.points.map(([x, y]) => ({ ...place(index), x, y, index })));
  const behind = curves.flatMap((_, index) =>
    (options.reference?.points ?? []).map(([x, y]) => ({ ...place(index), x, y, index })),
  );
  const readings = curves.flatMap((curve, index) => {
    const y = at === undefined ? undefined : heightAt(curve.points, at);
    return y === undefined ? [] : [{ ...place(index), x: at, y }];
  });
  const heights = all.map(([, y]) => y);
  const domain = heightSpanOf(heights, options.highest);
  const isCut = heights.some((y) => y > domain[1]);
  const along = extentOf(all.map(([x]) => x));
  const panel = { fx: "fx", fy: "fy" } as const;
  const rows = Math.ceil(curves.length / columns);
  const gapPx = curves.length % columns === 0 ? 26 : 40;
  return chart(
    {
      marks: [
        Plot.line(behind, {
          ...panel,
          x: "x",
          y: "y",
          z: "index",
          clip: true,
          stroke: colours.faint,
          strokeWidth: strokes.faint,
        }),
        Plot.line(flat, {
          ...panel,
          x: "x",
          y: "y",
          z: "index",
          clip: true,
          stroke: colours.first,
          strokeWidth: strokes.thin + 0.3,
        }),
        Plot.dot(readings, { ...panel, x: "x", y: "y", r: 2.4, fill: colours.ink }),
        Plot.text(titles, {
          ...panel,
          text: "text",
          frameAnchor: "top-left",
          textAnchor: "start",
          lineAnchor: "bottom",
          dy: -3,
          fill: colours.ink,
        }),
        Plot.text(gaps, {
          ...panel,
          text: () => "no curve",
          frameAnchor: "middle",
          fontStyle: "italic",
          fill: colours.quiet,
        }),
      ],
      x: {
        ...options.x,
        domain: along,
        ticks: ticks(...along, Math.max(2, Math.floor(panelWidthPx / 36))),
        grid: true,
      },
      y: { ...options.y, domain, ticks: ticks(...domain, 3) },
      height: rows * panelHeightPx + (rows - 1) * gapPx + 52 + 46,
      marginTop: 52,
      note: [
        at === undefined ? "" : "Points: where the finding reads the curves.",
        isCut ? `Cut off at ${sayStated(domain[1], options.y.symbol ?? "1")}.` : "",
        options.reference === undefined ? "" : `Faint: ${options.reference.label}.`,
      ]
        .filter((part) => part !== "")
        .join(" "),
      extra: { fx: { axis: null, padding: 0.1 }, fy: { axis: null, padding: gapPx / (panelHeightPx + gapPx) } },
    },
    {
      finding: capitalise(
        sentence(
          at === undefined
            ? "the curves share no stretch of the horizontal axis"
            : sayRangeAt(drawn, { x: at, xSymbol: options.x.symbol ?? "1", ySymbol: options.y.symbol ?? "1", noun }),
          missing.length === 0 ? "" : `no curve for ${joinWords(missing)}`,
        ),
      ),
      data,
    },
  );
}

function dataOf<T>(curves: readonly Curve[], noun: string, options: SmallMultiplesOptions<T>): ChartData {
  const most = Math.max(6, Math.floor(tableRows / Math.max(1, curves.length)));
  const thinned = curves.map(({ label, points }) => ({ label, ...thin(points, most) }));
  const note = sayThinned(thinned.map((curve) => curve.every));
  return {
    columns: [
      { name: "panel", label: capitalise(noun) },
      { name: "x", ...options.x },
      { name: "y", ...options.y },
    ],
    rows: thinned.flatMap((curve) => curve.points.map(([x, y]): readonly DataCell[] => [curve.label, x, y])),
    ...(note === undefined ? {} : { note }),
  };
}
