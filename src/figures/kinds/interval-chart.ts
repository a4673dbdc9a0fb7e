import * as Plot from "@observablehq/plot";
import { expand } from "../../metrology/expanded.js";
import type { Measured } from "../../metrology/quantity.js";
import { chartData } from "../chart-data.js";
import { chart, type Chart } from "../chart.js";
import { spanOf } from "../kit/domain.js";
import { emptyChart } from "../kit/empty-chart.js";
import { entriesOf, nounOf, readingsOf, sayAbsent } from "../kit/entries.js";
import type { Entry, LabelOptions } from "../kit/entries.js";
import { limitMarks } from "../kit/limit-marks.js";
import { isJudged, limitList, sayStandings, standingToAll, type FigureLimit } from "../kit/limits.js";
import { checkOptions } from "../kit/options.js";
import { rowFrame } from "../kit/rows.js";
import { sayFarthest } from "../kit/say-farthest.js";
import { standingColour, standingSymbols, standingWord } from "../kit/standing-marks.js";
import { capitalise, pluralOf, sayPair, sentence } from "../kit/words.js";
import { strokes } from "../theme.js";

export interface IntervalChartOptions<T> extends LabelOptions<T> {
  /** Limits to draw; those that bind each item are judged with a guard band of U. */
  readonly limits?: FigureLimit | readonly FigureLimit[] | undefined;
  /** Name of the characteristic for the axis: "Actuation force"; default "Value". */
  readonly of?: string;
  /** `given` (default) keeps the items' order; `value` puts the largest first, absent ones last. */
  readonly sort?: "given" | "value";
  /** What the page says of the values as a clause, in place of which of them lies furthest from the median. */
  readonly says?: string | undefined;
  /** Let the axis start at zero; default false, since intervals are read by position and not by length. */
  readonly zero?: boolean;
}

const known = ["label", "noun", "limits", "of", "sort", "says", "zero"];

/**
 * One measured value an item as a point with its interval value ± U (95 %), limits drawn, and which values lie outside.
 *
 * @param items keys, units, connections or anything with a label; without items the chart says so in words
 * @param value the measured value of an item; an absent one keeps its row, with its reason
 * @param options `limits`, `of` (the characteristic), `sort`, `says`, `zero`, `label`, `noun`
 * @throws RangeError on an unknown option, on items that cannot be named, on mixed units of measure
 */
export function intervalChart<T>(
  items: readonly T[],
  value: (item: T, index: number) => Measured,
  options: IntervalChartOptions<T> = {},
): Chart {
  checkOptions(options, known, "interval chart");
  const given = entriesOf(items, value, options, "interval chart");
  const symbol = given[0]?.measured.symbol ?? "1";
  const limits = limitList(options.limits, symbol, "interval chart");
  const entries = options.sort === "value" ? byValue(given) : given;
  const readings = readingsOf(entries);
  const noun = nounOf(items, options);
  const of = options.of ?? "Value";
  const data = chartData(entries, [
    { name: noun, label: capitalise(noun), value: (entry) => entry.label },
    { name: "value", label: of, symbol, value: (entry) => entry.measured },
    ...(limits.some(isJudged)
      ? [{ name: "against_limits", label: "Against the limits", value: (entry: Entry) => judged(entry, limits) }]
      : []),
  ]);
  const x = { label: of, symbol };
  if (readings.length === 0) {
    const words =
      entries.length === 0 ? `There are no ${pluralOf(noun)} to show.` : capitalise(sentence(sayAbsent(entries)));
    return emptyChart(words, { x, y: { label: capitalise(noun) } }, data);
  }
  const points = readings.map((reading) => {
    const { U } = expand(reading.measured);
    const standing = standingToAll(reading.measured, limits);
    return {
      x: reading.measured.value,
      low: reading.measured.value - U,
      high: reading.measured.value + U,
      standing,
      y: entries.indexOf(reading),
    };
  });
  const ends = points.flatMap(({ low, high }) => [low, high]);
  const drawnLimits = limitMarks(limits, ends);
  const rows = rowFrame(
    entries.map((entry) => {
      if (entry.measured.absent) return { label: entry.label, gap: entry.measured.reason };
      const word = standingWord(standingToAll(entry.measured, limits));
      return { label: entry.label, right: `${sayPair(entry.measured)}${word === "" ? "" : `  ${word}`}` };
    }),
    { title: capitalise(noun), rightTitle: points.some((point) => point.high > point.low) ? "± U (95\u00a0%)" : "" },
  );
  return chart(
    {
      marks: [
        ...rows.under,
        ...drawnLimits.marks,
        ...(["not_judged", "inside", "undecided", "outside"] as const).map((standing) =>
          Plot.ruleY(
            points.filter((point) => point.standing === standing),
            { y: "y", x1: "low", x2: "high", stroke: standingColour(standing), strokeWidth: strokes.curve },
          ),
        ),
        ...standingSymbols(points),
        ...rows.over,
      ],
      x: { ...x, domain: spanOf([...ends, ...drawnLimits.values], { zero: options.zero ?? false }), grid: true },
      y: rows.y,
      height: rows.height,
      marginLeft: rows.marginLeft,
      marginRight: rows.marginRight,
      ...(drawnLimits.note === "" ? {} : { note: drawnLimits.note }),
    },
    { finding: findingOf(entries, limits, noun, options.says), data },
  );
}

function findingOf(entries: readonly Entry[], limits: readonly FigureLimit[], noun: string, says?: string): string {
  const readings = readingsOf(entries);
  return sentence(
    says ?? sayFarthest(readings, noun),
    ...limits.filter(isJudged).map((limit) => sayStandings(readings, limit, noun)),
    sayAbsent(entries),
  );
}

function judged({ measured }: Entry, limits: readonly FigureLimit[]): string {
  if (measured.absent) return "no value";
  return { inside: "inside", outside: "outside", undecided: "undecided", not_judged: "" }[
    standingToAll(measured, limits)
  ];
}

function byValue(entries: readonly Entry[]): readonly Entry[] {
  const rank = ({ measured }: Entry): number => (measured.absent ? -Infinity : measured.value);
  return [...entries].sort((a, b) => (rank(a) === rank(b) ? a.index - b.index : rank(b) - rank(a)));
}
