import * as Plot from "@observablehq/plot";
import { expand } from "../../metrology/expanded.js";
import type { Measured, Quantity } from "../../metrology/quantity.js";
import { chart, type Chart } from "../chart.js";
import { chartData } from "../chart-data.js";
import { safeLabel } from "../drawing/safe-text.js";
import { spanOf } from "../kit/domain.js";
import { emptyChart } from "../kit/empty-chart.js";
import { endLabelMargin, endLabels } from "../kit/end-labels.js";
import { checkOneSymbol, nounOf, type LabelOptions } from "../kit/entries.js";
import type { Bound } from "../kit/limits.js";
import { checkOptions } from "../kit/options.js";
import {
  differenceOf,
  pairsOf,
  sayIncomplete,
  wholePairs,
  type MeasuredPair,
  type PairEntry,
  type WholePair,
} from "../kit/pairs.js";
import { pointLabels } from "../kit/point-labels.js";
import { capitalise, pluralOf, sayPair, sayStated, sentence } from "../kit/words.js";
import { colours, strokes } from "../theme.js";
import { sayAgreement, type AgreementResults } from "./agreement-finding.js";

export interface AgreementChartOptions<T> extends LabelOptions<T>, AgreementResults {
  /** Name of the characteristic for the axes; default "Value". */
  readonly of?: string;
  /** What the two values of a pair come from: "keystroke@1", "keystroke@2". */
  readonly names: readonly [first: string, second: string];
  /** Smallest change that matters, drawn on both sides of zero. */
  readonly smallestChange?: Bound | undefined;
}

const known = ["label", "noun", "of", "names", "bias", "limits", "smallestChange"];

/**
 * Differences of paired values against their means (Bland and Altman, The Lancet 327:307, 1986), second minus first, each
 * with its own interval; the mean difference and the limits of agreement with theirs, as given.
 *
 * @param items units or anything with a label and two values
 * @param pair the two values of an item; an item that lacks one is named, not drawn
 * @param options `names`, `of`, `bias`, `limits`, `smallestChange`, `label`, `noun`
 * @throws RangeError on an unknown option, mixed units of measure, a smallest change not above 0
 */
export function agreementChart<T>(
  items: readonly T[],
  pair: (item: T, index: number) => MeasuredPair,
  options: AgreementChartOptions<T>,
): Chart {
  checkOptions(options, known, "agreement chart");
  const pairs = pairsOf(items, pair, options, "agreement chart");
  const whole = wholePairs(pairs);
  const [firstName, secondName] = options.names.map(safeLabel) as [string, string];
  const of = options.of ?? "Value";
  const noun = nounOf(items, options);
  const symbol = checkOneSymbol(
    [...pairs.map((p) => p.first), options.bias, ...(options.limits ?? [])],
    "agreement chart",
  );
  const delta = smallestOf(options.smallestChange, symbol);
  const x = { label: `${of}, mean of both`, symbol };
  const y = { label: `${secondName} minus ${firstName}`, symbol };
  const data = chartData(pairs, [
    { name: noun, label: capitalise(noun), value: (entry) => entry.label },
    { name: "first", label: firstName, symbol, value: (entry) => entry.first },
    { name: "second", label: secondName, symbol, value: (entry) => entry.second },
    { name: "difference", label: y.label, symbol, value: differenceCell },
  ]);
  if (whole.length === 0) {
    const words =
      pairs.length === 0 ? `There are no ${pluralOf(noun)} to compare.` : capitalise(sentence(sayIncomplete(pairs)));
    return emptyChart(words, { x, y }, data);
  }
  const points = whole.map((entry) => pointOf(entry));
  const lines = linesOf(options);
  const reaches = lines.flatMap(({ value, U }) => [value - U, value + U]);
  const outside = outsideOf(points, options.limits);
  const along = spanOf(
    points.map((point) => point.x),
    { pad: 0.06 },
  );
  const across = spanOf([
    0,
    ...reaches,
    ...points.flatMap((p) => [p.y - p.U, p.y + p.U]),
    ...(delta === undefined ? [] : [delta, -delta]),
  ]);
  const ends = [
    ...lines.map((line) => ({ x: along[1], y: line.value, text: line.text })),
    ...(delta === undefined
      ? []
      : [delta, -delta].map((at) => ({
          x: along[1],
          y: at,
          text: `${at > 0 ? "+" : "\u2212"}${sayStated(delta, "1")} matters`,
          quiet: true,
        }))),
    { x: along[1], y: 0, text: "no difference", quiet: true },
  ];
  return chart(
    {
      marks: [
        ...lines.map((line) =>
          Plot.rect([line], {
            x1: along[0],
            x2: along[1],
            y1: line.value - line.U,
            y2: line.value + line.U,
            fill: colours.shade,
          }),
        ),
        Plot.ruleY([0], { stroke: colours.quiet, strokeWidth: strokes.axis }),
        delta === undefined
          ? null
          : Plot.ruleY([delta, -delta], { stroke: colours.quiet, strokeDasharray: "1 3", strokeWidth: strokes.curve }),
        ...lines.map((line) =>
          Plot.ruleY([line.value], {
            stroke: colours.first,
            strokeWidth: strokes.curve,
            ...(line.dash === "" ? {} : { strokeDasharray: line.dash }),
          }),
        ),
        Plot.ruleX(points, {
          x: "x",
          y1: (p: Point) => p.y - p.U,
          y2: (p: Point) => p.y + p.U,
          stroke: colours.faint,
          strokeWidth: strokes.thin,
        }),
        Plot.dot(
          points.filter((p) => !outside.includes(p)),
          { x: "x", y: "y", r: 3.8, fill: colours.ink },
        ),
        Plot.dot(outside, { x: "x", y: "y", r: 4.5, symbol: "diamond", fill: colours.second }),
        pointLabels(
          outside.slice(0, 6).map((p) => ({ x: p.x, y: p.y, text: p.label, prefer: ["e", "w"] as const })),
          points.map(
            (p) =>
              [
                [p.x, p.y - p.U],
                [p.x, p.y + p.U],
              ] as const,
          ),
        ),
        endLabels(ends),
      ],
      x: { ...x, domain: along },
      y: { ...y, domain: across },
      height: 320,
      marginRight: endLabelMargin(ends.map((end) => end.text)),
      note: `${lines.some((line) => line.U > 0) ? "Shaded: 95\u00a0% intervals of the mean and the limits. " : ""}Upright lines: ± U of each difference.`,
    },
    {
      finding: sayAgreement(
        points.length,
        outside.map((point) => point.label),
        options,
        {
          secondName,
          firstName,
          noun,
          delta,
          symbol,
          incomplete: sayIncomplete(pairs),
        },
      ),
      data,
    },
  );
}

interface Point {
  readonly label: string;
  readonly x: number;
  readonly y: number;
  readonly U: number;
}

interface Line {
  readonly value: number;
  readonly U: number;
  readonly text: string;
  readonly dash: string;
}

function pointOf(entry: WholePair): Point {
  const { quantity, U } = differenceOf(entry);
  return { label: entry.label, x: (entry.first.value + entry.second.value) / 2, y: quantity.value, U };
}

function linesOf<T>({ bias, limits }: AgreementChartOptions<T>): readonly Line[] {
  const line = (measured: Measured | undefined, name: string, dash: string): readonly Line[] =>
    measured === undefined || measured.absent
      ? []
      : [{ value: measured.value, U: expand(measured).U, text: `${name} ${sayPair(measured)}`, dash }];
  return [...line(limits?.[1], "upper", "6 3"), ...line(bias, "mean", ""), ...line(limits?.[0], "lower", "6 3")];
}

function outsideOf(points: readonly Point[], limits: readonly [Measured, Measured] | undefined): readonly Point[] {
  const [lower, upper] = limits ?? [];
  if (lower === undefined || upper === undefined || lower.absent || upper.absent) return [];
  return points.filter((point) => point.y < lower.value || point.y > upper.value);
}

function smallestOf(bound: Bound | undefined, symbol: string): number | undefined {
  if (bound === undefined) return undefined;
  if (bound.symbol !== symbol)
    throw new RangeError(`the smallest change is in ${bound.symbol}, the values in ${symbol}`);
  if (!(bound.value > 0))
    throw new RangeError(`the smallest change that matters is ${bound.value}; it must be above 0`);
  return bound.value;
}

function differenceCell(entry: PairEntry): Quantity | null {
  const [whole] = wholePairs([entry]);
  return whole === undefined ? null : differenceOf(whole).quantity;
}
