import * as Plot from "@observablehq/plot";
import { expand } from "../../metrology/expanded.js";
import type { Measured } from "../../metrology/quantity.js";
import { chart, type Axis, type Chart } from "../chart.js";
import { chartData } from "../chart-data.js";
import { spanOf } from "../kit/domain.js";
import { emptyChart } from "../kit/empty-chart.js";
import { checkMeasured, checkOneSymbol, labelOf, nounOf, type LabelOptions } from "../kit/entries.js";
import { checkOptions } from "../kit/options.js";
import { sayIncomplete, wholePairs, type MeasuredPair, type PairEntry, type WholePair } from "../kit/pairs.js";
import { pointLabels, type PointLabel } from "../kit/point-labels.js";
import { capitalise, counted, pluralOf, sayQuantity, sentence } from "../kit/words.js";
import { colours, strokes } from "../theme.js";

/** A straight line fitted elsewhere, y = intercept + slope x. */
export interface FittedLine {
  /** How it was fitted: "Deming regression". */
  readonly name: string;
  readonly slope: Measured;
  readonly intercept: Measured;
  /** Confidence band of the line, by ascending x. */
  readonly band?: readonly { readonly x: number; readonly low: number; readonly high: number }[];
}

export interface RegressionChartOptions<T> extends LabelOptions<T> {
  /** Axis of the first value of a pair, and of the second; the symbols come from the values. */
  readonly x: Pick<Axis, "label">;
  readonly y: Pick<Axis, "label">;
  readonly fit?: FittedLine | undefined;
  /**
   * What the page claims of the line, decided elsewhere together with its other questions: "no departure from slope 1 is shown".
   * Default: nothing is claimed; the intervals of slope and intercept stand as estimates.
   */
  readonly claim?: string | undefined;
  /** Draw the line of equal values; default: where both axes have one unit of measure. */
  readonly identity?: boolean;
  /** Labels of items to name in the chart, in order of importance. */
  readonly name?: readonly string[];
}

const known = ["label", "noun", "x", "y", "fit", "claim", "identity", "name"];

/**
 * One measured value against another, each point with both intervals, with a fitted line and its band as given, and the
 * line of equal values where both axes have one unit of measure. Nothing is fitted here.
 *
 * @param items units or anything with a label and two values
 * @param pair `first` along the x axis, `second` up the y axis; an item that lacks one is named, not drawn
 * @param options `x`, `y`, `fit`, `claim`, `identity`, `name`, `label`, `noun`
 * @throws RangeError on an unknown option, mixed units of measure on one axis, an identity line over two units of measure
 */
export function regressionChart<T>(
  items: readonly T[],
  pair: (item: T, index: number) => MeasuredPair,
  options: RegressionChartOptions<T>,
): Chart {
  checkOptions(options, known, "regression chart");
  const where = "regression chart";
  const pairs = items.map((item, index): PairEntry => {
    const { first, second } = pair(item, index);
    return {
      label: labelOf(item, index, options, where),
      index,
      first: checkMeasured(first, index, where),
      second: checkMeasured(second, index, where),
    };
  });
  const xSymbol = checkOneSymbol(
    pairs.map((entry) => entry.first),
    where,
  );
  const ySymbol = checkOneSymbol(
    pairs.map((entry) => entry.second),
    where,
  );
  const isSame = xSymbol === ySymbol;
  if (options.identity === true && !isSame) {
    throw new RangeError(`there is no line of equal values between ${xSymbol} and ${ySymbol}`);
  }
  const whole = wholePairs(pairs);
  const noun = nounOf(items, options);
  const x = { label: options.x.label, symbol: xSymbol };
  const y = { label: options.y.label, symbol: ySymbol };
  const data = chartData(pairs, [
    { name: noun, label: capitalise(noun), value: (entry) => entry.label },
    { name: "x", ...x, value: (entry) => entry.first },
    { name: "y", ...y, value: (entry) => entry.second },
  ]);
  if (whole.length === 0) {
    const words =
      pairs.length === 0 ? `There are no ${pluralOf(noun)} to compare.` : capitalise(sentence(sayIncomplete(pairs)));
    return emptyChart(words, { x, y }, data);
  }
  const points = whole.map(pointOf);
  const { fit } = options;
  const spans = {
    x: points.flatMap((point) => [point.x - point.Ux, point.x + point.Ux]),
    y: points.flatMap((point) => [point.y - point.Uy, point.y + point.Uy]),
  };
  const identity = options.identity ?? isSame;
  const along = spanOf(identity ? [...spans.x, ...spans.y] : spans.x);
  const across = identity ? along : spanOf(spans.y);
  const line = fittedEnds(fit, along, across);
  const equal = [
    [along[0], along[0]],
    [along[1], along[1]],
  ] as const;
  const named = (options.name ?? []).flatMap((label) => points.filter((point) => point.label === label));
  return chart(
    {
      marks: [
        fit?.band === undefined
          ? null
          : Plot.areaY(fit.band, { x: "x", y1: "low", y2: "high", fill: colours.shade, clip: true }),
        identity
          ? Plot.line(equal, { stroke: colours.quiet, strokeDasharray: "2 3", strokeWidth: strokes.thin })
          : null,
        line === undefined ? null : Plot.line(line, { stroke: colours.first, strokeWidth: strokes.curve, clip: true }),
        Plot.ruleX(points, {
          x: "x",
          y1: (p: Point) => p.y - p.Uy,
          y2: (p: Point) => p.y + p.Uy,
          stroke: colours.faint,
          strokeWidth: strokes.thin,
        }),
        Plot.ruleY(points, {
          y: "y",
          x1: (p: Point) => p.x - p.Ux,
          x2: (p: Point) => p.x + p.Ux,
          stroke: colours.faint,
          strokeWidth: strokes.thin,
        }),
        Plot.dot(points, { x: "x", y: "y", r: 3.6, fill: colours.ink }),
        pointLabels(
          [
            ...named.map((point): PointLabel => ({ x: point.x, y: point.y, text: point.label })),
            ...lineLabels(line, identity ? along : undefined, fit?.name),
          ],
          [
            ...points.map(
              (p) =>
                [
                  [p.x, p.y - p.Uy],
                  [p.x, p.y + p.Uy],
                ] as const,
            ),
            ...(line === undefined ? [] : [line]),
            ...(identity ? [equal] : []),
          ],
        ),
      ],
      x: { ...x, domain: along, grid: true },
      y: { ...y, domain: across },
      height: identity ? 430 : 340,
      note: `Crosses: ± U of both values.${fit?.band === undefined ? "" : ` Shaded: 95\u00a0% band of the line.`}`,
    },
    {
      finding: sentence(
        sayFit(fit, { of: counted(whole.length, noun), xLabel: x.label, yLabel: y.label, claim: options.claim }),
        sayIncomplete(pairs),
      ),
      data,
    },
  );
}

interface Point {
  readonly label: string;
  readonly x: number;
  readonly y: number;
  readonly Ux: number;
  readonly Uy: number;
}

function pointOf(entry: WholePair): Point {
  return {
    label: entry.label,
    x: entry.first.value,
    y: entry.second.value,
    Ux: expand(entry.first).U,
    Uy: expand(entry.second).U,
  };
}

/** The fitted line from edge to edge of the chart; undefined where there is none, or it lies outside. */
function fittedEnds(
  fit: FittedLine | undefined,
  [left, right]: readonly [number, number],
  [bottom, top]: readonly [number, number],
): readonly (readonly [number, number])[] | undefined {
  if (fit === undefined || fit.slope.absent || fit.intercept.absent) return undefined;
  const slope = fit.slope.value;
  const intercept = fit.intercept.value;
  const height = (x: number): number => intercept + slope * x;
  const crossings = slope === 0 ? [] : [(bottom - intercept) / slope, (top - intercept) / slope];
  const from = Math.max(left, crossings.length === 0 ? left : Math.min(...crossings));
  const to = Math.min(right, crossings.length === 0 ? right : Math.max(...crossings));
  return from < to
    ? [
        [from, height(from)],
        [to, height(to)],
      ]
    : undefined;
}

/** Names of the two lines, at nine and at seven tenths of the way. */
function lineLabels(
  line: readonly (readonly [number, number])[] | undefined,
  equal: readonly [number, number] | undefined,
  name: string | undefined,
): readonly PointLabel[] {
  const labels: PointLabel[] = [];
  if (line !== undefined && name !== undefined) {
    const [[ax, ay], [bx, by]] = line as [[number, number], [number, number]];
    labels.push({ x: ax + (bx - ax) * 0.9, y: ay + (by - ay) * 0.9, text: name, prefer: ["nw", "n", "se"] });
  }
  if (equal !== undefined) {
    const at = equal[0] + (equal[1] - equal[0]) * 0.12;
    labels.push({ x: at, y: at, text: "equal values", prefer: ["se", "nw"] });
  }
  return labels;
}

/** Slope and intercept, and what is claimed of them: an interval that leaves out 1 is no claim among several questions. */
function sayFit(
  fit: FittedLine | undefined,
  { of, xLabel, yLabel, claim }: { of: string; xLabel: string; yLabel: string; claim: string | undefined },
): string {
  if (fit === undefined) return `${yLabel} against ${xLabel} for ${of}`;
  if (fit.slope.absent || fit.intercept.absent) {
    return `no line for ${of}: ${fit.slope.absent ? fit.slope.reason : fit.intercept.absent ? fit.intercept.reason : ""}`;
  }
  const line = `${fit.name} of ${of}: slope ${sayQuantity(fit.slope)}, intercept ${sayQuantity(fit.intercept)}`;
  return claim === undefined ? line : `${line}; ${claim}`;
}
