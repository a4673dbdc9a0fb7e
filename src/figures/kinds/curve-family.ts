import * as Plot from "@observablehq/plot";
import { closest } from "fastest-levenshtein";
import { chart, type Axis, type Chart, type ChartData, type DataCell } from "../chart.js";
import { safeLabel } from "../drawing/safe-text.js";
import type { Point } from "../drawing/simplify.js";
import { commonMiddle, curvesOf, heightAt, sayRangeAt, type Curve } from "../kit/curves.js";
import { extentOf, heightSpanOf } from "../kit/domain.js";
import { emptyChart } from "../kit/empty-chart.js";
import { endLabelMargin, endLabels } from "../kit/end-labels.js";
import { nounOf, type LabelOptions } from "../kit/entries.js";
import { checkOptions } from "../kit/options.js";
import { sayThinned, thin } from "../kit/thin.js";
import { capitalise, counted, joinWords, pluralOf, sayStated, sentence } from "../kit/words.js";
import { colours, strokes } from "../theme.js";

export interface CurveFamilyOptions<T> extends LabelOptions<T> {
  readonly x: Pick<Axis, "label" | "symbol">;
  readonly y: Pick<Axis, "label" | "symbol">;
  /** Label of the one curve that the question is about; the others stand behind it. */
  readonly highlight?: string;
  /** Where the finding reads the curves; default: the middle of the stretch that all cover. */
  readonly at?: number;
  /** Greatest height drawn: curves that rise beyond it, such as to the end stop, are cut off there, and the note says so. */
  readonly highest?: number;
}

/** Rows of the table that all curves together may fill. */
const tableRows = 360;

/** Up to this many curves each end bears its label; beyond, the outermost ones and the highlighted one do. */
const mostLabels = 14;

/**
 * Several curves in one chart, each labelled at its end, read at one place in the finding.
 *
 * @param items keys, units or anything with a label
 * @param points the curve of an item as [x, y] pairs along its way; an item without points is named under the chart
 * @param options `x` and `y` (label and symbol), `highlight`, `at`, `label`, `noun`
 * @throws RangeError on an unknown option, a label to highlight that is not there, or a coordinate that is not a number
 */
export function curveFamily<T>(
  items: readonly T[],
  points: (item: T, index: number) => readonly Point[],
  options: CurveFamilyOptions<T>,
): Chart {
  checkOptions(options, ["label", "noun", "x", "y", "highlight", "at", "highest"], "curve family");
  const curves = curvesOf(items, points, options, "curve family");
  const noun = nounOf(items, options);
  const drawn = curves.filter((curve) => curve.points.length >= 2);
  const missing = curves.filter((curve) => curve.points.length < 2).map((curve) => curve.label);
  const data = dataOf(curves, noun, options);
  const highlight = options.highlight === undefined ? undefined : safeLabel(options.highlight);
  if (highlight !== undefined && !curves.some((curve) => curve.label === highlight)) {
    const near = closest(
      highlight,
      curves.map((curve) => curve.label),
    );
    throw new RangeError(`the curve family has no curve "${highlight}" to highlight; did you mean "${near}"?`);
  }
  if (drawn.length === 0) {
    const words = curves.length === 0 ? `There are no ${pluralOf(noun)} to show.` : `No ${noun} has a curve to draw.`;
    return emptyChart(words, { x: options.x, y: options.y }, data);
  }
  const at = options.at ?? commonMiddle(drawn);
  const labelled = labelledCurves(drawn, highlight, at);
  const readings = at === undefined ? [] : drawn.flatMap((curve) => pointAt(curve, at));
  const all = drawn.flatMap((curve) => curve.points);
  const isMain = (curve: Curve): boolean => highlight === undefined || curve.label === highlight;
  const heights = all.map(([, y]) => y);
  const domain = heightSpanOf(heights, options.highest);
  const isCut = heights.some((y) => y > domain[1]);
  const note = [
    missing.length === 0 ? "" : `Without a curve: ${joinWords(missing)}.`,
    isCut ? `Cut off at ${sayStated(domain[1], options.y.symbol ?? "1")}.` : "",
  ].filter((part) => part !== "");
  return chart(
    {
      marks: [
        at === undefined
          ? null
          : Plot.ruleX([at], { stroke: colours.quiet, strokeDasharray: "2 3", strokeWidth: strokes.thin }),
        ...[...drawn]
          .sort((a, b) => Number(isMain(a)) - Number(isMain(b)))
          .map((curve) =>
            Plot.line(curve.points, {
              clip: true,
              stroke: highlight === undefined ? colours.first : isMain(curve) ? colours.first : colours.faint,
              strokeWidth: highlight !== undefined && isMain(curve) ? strokes.curve : strokes.thin,
            }),
          ),
        Plot.dot(readings, { r: 2.6, fill: colours.ink }),
        endLabels(
          labelled.map((curve) => {
            const [x, y] = curve.points.filter((point) => point[1] <= domain[1]).at(-1) ?? curve.points.at(-1)!;
            return { x, y, text: curve.label, weight: highlight === curve.label ? ("bold" as const) : undefined };
          }),
        ),
      ],
      x: {
        ...options.x,
        domain: extentOf(all.map(([x]) => x)),
        grid: true,
      },
      y: {
        ...options.y,
        domain,
      },
      height: 320,
      marginRight: endLabelMargin(labelled.map((curve) => curve.label)),
      ...(note.length === 0 ? {} : { note: note.join(" ") }),
    },
    {
      finding: capitalise(
        sentence(
          at === undefined
            ? `the ${counted(drawn.length, "curve")} share no stretch of the horizontal axis`
            : sayRangeAt(drawn, { x: at, xSymbol: options.x.symbol ?? "1", ySymbol: options.y.symbol ?? "1", noun }),
          missing.length === 0 ? "" : `no curve for ${joinWords(missing)}`,
        ),
      ),
      data,
    },
  );
}

function pointAt(curve: Curve, x: number): readonly Point[] {
  const y = heightAt(curve.points, x);
  return y === undefined ? [] : [[x, y]];
}

function labelledCurves(
  curves: readonly Curve[],
  highlight: string | undefined,
  at: number | undefined,
): readonly Curve[] {
  if (curves.length <= mostLabels) return curves;
  const height = (curve: Curve): number =>
    (at === undefined ? undefined : heightAt(curve.points, at)) ?? curve.points.at(-1)![1];
  const byHeight = [...curves].sort((a, b) => height(a) - height(b));
  const outermost = [...byHeight.slice(0, 2), ...byHeight.slice(-2)];
  return curves.filter((curve) => outermost.includes(curve) || curve.label === highlight);
}

function dataOf<T>(curves: readonly Curve[], noun: string, options: CurveFamilyOptions<T>): ChartData {
  const most = Math.max(8, Math.floor(tableRows / Math.max(1, curves.length)));
  const thinned = curves.map(({ label, points }) => ({ label, ...thin(points, most) }));
  const note = sayThinned(thinned.map((curve) => curve.every));
  return {
    columns: [
      { name: "curve", label: capitalise(noun) },
      { name: "x", ...options.x },
      { name: "y", ...options.y },
    ],
    rows: thinned.flatMap((curve) => curve.points.map(([x, y]): readonly DataCell[] => [curve.label, x, y])),
    ...(note === undefined ? {} : { note }),
  };
}
