import * as Plot from "@observablehq/plot";
import { chart, type Chart, type DataCell } from "../chart.js";
import { spanOf } from "../kit/domain.js";
import { emptyChart } from "../kit/empty-chart.js";
import { endLabelMargin, endLabels } from "../kit/end-labels.js";
import { labelOf, nounOf, type LabelOptions } from "../kit/entries.js";
import type { Bound } from "../kit/limits.js";
import { checkOptions } from "../kit/options.js";
import { pointLabels } from "../kit/point-labels.js";
import { capitalise, joinWords, pluralOf, sayStated, sentence } from "../kit/words.js";
import { colours, strokes } from "../theme.js";

/** One plan on a curve: what it costs and what uncertainty it leaves. */
export interface EffortPoint {
  readonly effort: number;
  readonly uncertainty: number;
  /** What the plan is: "8 keys". */
  readonly plan: string;
}

export interface EffortCurveOptions<T> extends LabelOptions<T> {
  /** Whose uncertainty: "Expanded uncertainty of the mean force". */
  readonly of: string;
  readonly symbol: string;
  /** Unit of measure of the effort; default "min". */
  readonly effortSymbol?: string;
  /** The uncertainty wanted. */
  readonly target?: Bound | undefined;
  /** The uncertainty that no effort of these ways lowers. */
  readonly floor?: Bound | undefined;
}

/** A way that spans this share of the axis has its middle plan named too, where there are at most so many ways. */
const middleFrom = 0.4;
const mostWithMiddle = 2;

interface Way {
  readonly label: string;
  readonly points: readonly EffortPoint[];
}

const looks = [
  { stroke: colours.first, dash: "", symbol: "circle" },
  { stroke: colours.second, dash: "7 3", symbol: "square" },
  { stroke: colours.third, dash: "2 3", symbol: "triangle" },
  { stroke: colours.ink, dash: "10 3 2 3", symbol: "diamond" },
] as const;

/**
 * Uncertainty against effort, one curve a way to spend it (more keys, more cycles, more presses), told apart by dash and
 * shape and labelled at its end, its plans named. Both axes start at zero.
 *
 * @param items at most four ways
 * @param points the plans of a way; drawn by rising effort
 * @param options `of`, `symbol`, `effortSymbol`, `target`, `floor`, `label`, `noun`
 * @throws RangeError on an unknown option, more than four ways, an effort or uncertainty below 0
 */
export function effortCurve<T>(
  items: readonly T[],
  points: (item: T, index: number) => readonly EffortPoint[],
  options: EffortCurveOptions<T>,
): Chart {
  checkOptions(options, ["label", "noun", "of", "symbol", "effortSymbol", "target", "floor"], "effort curve");
  if (items.length > looks.length)
    throw new RangeError(`the effort curve draws at most ${looks.length} ways, got ${items.length}`);
  const effortSymbol = options.effortSymbol ?? "min";
  const { symbol } = options;
  const bounds = [
    { name: "target", word: "wanted", dash: "6 3", bound: options.target },
    { name: "floor", word: "floor", dash: "2 3", bound: options.floor },
  ].flatMap(({ bound, ...look }) => (bound === undefined ? [] : [{ ...look, ...bound }]));
  for (const bound of bounds) {
    if (bound.symbol !== symbol)
      throw new RangeError(`the ${bound.name} is in ${bound.symbol}, the uncertainty in ${symbol}`);
  }
  const ways = items.map((item, index): Way => ({
    label: labelOf(item, index, options, "effort curve"),
    points: sorted(points(item, index)),
  }));
  const x = { label: "Effort", symbol: effortSymbol };
  const y = { label: options.of, symbol };
  const noun = nounOf(items, options) === "item" ? "way" : nounOf(items, options);
  const data = {
    columns: [
      { name: "way", label: capitalise(noun) },
      { name: "plan", label: "Plan" },
      { name: "effort", ...x },
      { name: "uncertainty", ...y },
    ],
    rows: ways.flatMap((way) =>
      way.points.map((point): readonly DataCell[] => [way.label, point.plan, point.effort, point.uncertainty]),
    ),
  };
  const all = ways.flatMap((way) => way.points);
  if (all.length === 0) return emptyChart(`There are no ${pluralOf(noun)} to compare.`, { x, y }, data);
  const drawn = ways.flatMap((way, index) => (way.points.length === 0 ? [] : [{ ...way, look: looks[index]! }]));
  const across = spanOf([...all.map((point) => point.uncertainty), ...bounds.map(({ value }) => value)], {
    zero: true,
  });
  const along = spanOf(
    all.map((point) => point.effort),
    { zero: true, pad: 0.02 },
  );
  const plans = drawn.flatMap((way) => {
    const [first, last] = [way.points[0]!, way.points.at(-1)!];
    const isWide = drawn.length <= mostWithMiddle && last.effort - first.effort >= middleFrom * (along[1] - along[0]);
    const middle = isWide && way.points.length > 3 ? [way.points[Math.floor(way.points.length / 2)]!] : [];
    return [...new Set([first, ...middle, last])].map((point) => ({
      x: point.effort,
      y: point.uncertainty,
      text: point.plan,
      prefer: ["ne", "n", "sw", "s"] as const,
    }));
  });
  const ends = drawn.map((way) => ({
    x: way.points.at(-1)!.effort,
    y: way.points.at(-1)!.uncertainty,
    text: way.label,
    weight: "bold" as const,
  }));
  const named = bounds.map(({ value, word }) => ({ x: along[1], y: value, text: `${word} ${sayStated(value, "1")}` }));
  return chart(
    {
      marks: [
        ...bounds.map(({ value, dash }) =>
          Plot.ruleY([value], { stroke: colours.ink, strokeDasharray: dash, strokeWidth: strokes.thin }),
        ),
        ...drawn.map(({ points: line, look }) =>
          Plot.line(line, {
            x: "effort",
            y: "uncertainty",
            stroke: look.stroke,
            strokeWidth: strokes.curve,
            ...(look.dash === "" ? {} : { strokeDasharray: look.dash }),
          }),
        ),
        ...drawn.map(({ points: line, look }) =>
          Plot.dot(line, { x: "effort", y: "uncertainty", r: 3.8, symbol: look.symbol, fill: look.stroke }),
        ),
        pointLabels(
          plans,
          [
            ...drawn.map((way) => way.points.map((point) => [point.effort, point.uncertainty] as const)),
            ...bounds.map(({ value }) => along.map((effort) => [effort, value] as const)),
          ],
          ends.map(({ x: from, y: level }) => [from, along[1]].map((effort) => [effort, level] as const)),
        ),
        endLabels([...ends, ...named]),
      ],
      x: { ...x, domain: along },
      y: { ...y, domain: across },
      height: 310,
      marginRight: endLabelMargin([...ends, ...named].map((end) => end.text)),
    },
    { finding: findingOf(drawn, options, effortSymbol), data },
  );
}

function sorted(points: readonly EffortPoint[]): readonly EffortPoint[] {
  for (const point of points) {
    if (!(point.effort >= 0 && point.uncertainty >= 0))
      throw new RangeError(
        `the plan "${point.plan}" of the effort curve has effort ${point.effort} and uncertainty ${point.uncertainty}; both must be at least 0`,
      );
  }
  return [...points].sort((a, b) => a.effort - b.effort);
}

function findingOf<T>(
  ways: readonly Way[],
  { target, floor, symbol }: EffortCurveOptions<T>,
  effortSymbol: string,
): string {
  const say = (value: number): string => sayStated(Number(value.toPrecision(2)), symbol);
  const sayEffort = (value: number): string => sayStated(Number(value.toPrecision(3)), effortSymbol);
  const falls = ways.map(({ label, points }) => {
    const [first, last] = [points[0]!, points.at(-1)!];
    if (points.length === 1)
      return `${label}: ${say(first.uncertainty)} for ${sayEffort(first.effort)} (${first.plan})`;
    return `${label}: from ${say(first.uncertainty)} for ${sayEffort(first.effort)} (${first.plan}) to ${say(last.uncertainty)} for ${sayEffort(last.effort)} (${last.plan})`;
  });
  const least = floor === undefined ? "" : `no plan of these ways gets below ${say(floor.value)}`;
  if (target === undefined) return sentence(...falls, least);
  const reaching = ways
    .flatMap(({ label, points }) => points.map((point) => ({ ...point, label })))
    .filter((point) => point.uncertainty <= target.value);
  const lowest = Math.min(...reaching.map(({ effort }) => effort));
  const cheapest = reaching.filter(({ effort }) => effort === lowest);
  const wanted = sayStated(target.value, symbol);
  const reached =
    cheapest.length === 0
      ? `no plan shown reaches ${wanted}`
      : `of the plans shown, ${joinWords(cheapest.map(({ plan, label }) => `${plan} (${label})`))} ${cheapest.length === 1 ? "reaches" : "reach"} ${wanted} with the least effort, ${sayEffort(lowest)}`;
  return capitalise(sentence(reached, ...falls, least));
}
