import * as Plot from "@observablehq/plot";
import type { Measured } from "../../metrology/quantity.js";
import { roundSignificant } from "../../metrology/print.js";
import { chart, type Chart } from "../chart.js";
import { chartData, type DataColumnOf } from "../chart-data.js";
import { spanOf } from "../kit/domain.js";
import { emptyChart } from "../kit/empty-chart.js";
import { entriesOf, nounOf, readingsOf, sayAbsent, type Entry, type LabelOptions } from "../kit/entries.js";
import { checkOptions } from "../kit/options.js";
import { rowFrame } from "../kit/rows.js";
import { capitalise, counted, pluralOf, sayShare, sentence } from "../kit/words.js";
import { colours, strokes } from "../theme.js";

/** A component of variance with its confidence interval, all in the squared unit of measure. */
export interface VarianceComponent {
  /** The estimate; a negative one is drawn as 0 and printed beside it. */
  readonly variance: Measured;
  /** Confidence limits; `low` null where only an upper limit can be given, `high` null where there is none. */
  readonly low: number | null;
  readonly high: number | null;
}

export interface VarianceBarsOptions<T> extends LabelOptions<T> {
  /** The characteristic whose variance is split: "Actuation force". */
  readonly of: string;
  /** Confidence level of the intervals; 0.95 unless given. */
  readonly level?: number;
  /** `parts` (default) of one sum, with shares; `alone`: variances beside each other, of which the least is spoken of. */
  readonly as?: "parts" | "alone";
}

type Row = Entry & { readonly low: number | null; readonly high: number | null };

/**
 * Components of variance as bars from zero, since variances add up and their square roots do not; each with its interval,
 * its standard deviation and its share of the sum of the estimates.
 *
 * @param items components: key, unit, operator
 * @param component the variance of an item with its interval
 * @param options `of`, `level`, `as`, `label`, `noun`
 * @throws RangeError on an unknown option, mixed units of measure, a lower limit above the upper
 */
export function varianceBars<T>(
  items: readonly T[],
  component: (item: T, index: number) => VarianceComponent,
  options: VarianceBarsOptions<T>,
): Chart {
  checkOptions(options, ["label", "noun", "of", "level", "as"], "variance bars");
  const rows = entriesOf(items, (item, index) => component(item, index).variance, options, "variance bars").map(
    (entry): Row => {
      const { low, high } = component(items[entry.index]!, entry.index);
      if (low !== null && high !== null && !(low <= high)) {
        throw new RangeError(`the interval of ${entry.label} in the variance bars runs from ${low} to ${high}`);
      }
      return { ...entry, low, high };
    },
  );
  const noun = options.noun ?? (nounOf(items, options) === "item" ? "component" : nounOf(items, options));
  const symbol = rows[0]?.measured.symbol ?? "1";
  const x = { label: `Variance of ${options.of.toLowerCase()}`, symbol };
  const total = readingsOf(rows).reduce((sum, row) => sum + Math.max(0, row.measured.value), 0);
  const isAlone = options.as === "alone";
  const columns: readonly DataColumnOf<Row>[] = [
    { name: noun, label: capitalise(noun), value: (row) => row.label },
    {
      name: "variance",
      label: "Variance",
      symbol,
      value: (row) => (row.measured.absent ? row.measured : row.measured.value),
    },
    { name: "low", label: "Lower limit", symbol, value: (row) => row.low },
    { name: "high", label: "Upper limit", symbol, value: (row) => row.high },
    {
      name: "sd",
      label: "Standard deviation",
      symbol: rootOf(symbol),
      value: (row) => (row.measured.absent ? null : Math.sqrt(Math.max(0, row.measured.value))),
    },
    ...(isAlone
      ? []
      : [
          {
            name: "share",
            label: "Share of the sum",
            value: (row: Row) => (row.measured.absent || total === 0 ? null : Math.max(0, row.measured.value) / total),
          },
        ]),
  ];
  const data = chartData(rows, columns);
  const drawn = readingsOf(rows);
  if (drawn.length === 0) {
    const words = rows.length === 0 ? `There are no ${pluralOf(noun)} to show.` : capitalise(sentence(sayAbsent(rows)));
    return emptyChart(words, { x, y: { label: capitalise(noun) } }, data);
  }
  const bars = drawn.map((row) => ({
    y: row.index,
    value: Math.max(0, row.measured.value),
    low: row.low ?? 0,
    high: row.high,
    limited: row.low !== null,
  }));
  const whiskers = bars.flatMap((bar) => (bar.high === null ? [] : [{ ...bar, high: bar.high }]));
  const frame = rowFrame(
    rows.map((row) =>
      row.measured.absent
        ? { label: row.label, gap: row.measured.reason }
        : { label: row.label, right: rightText(row.measured.value, symbol, isAlone ? null : total) },
    ),
    {
      title: capitalise(noun),
      rightTitle: `sd${rootOf(symbol) === "1" ? "" : ` (${rootOf(symbol)})`}${isAlone ? "" : ", share"}`,
    },
  );
  const percent = Math.round((options.level ?? 0.95) * 100);
  return chart(
    {
      marks: [
        ...frame.under,
        Plot.rect(bars, {
          x1: 0,
          x2: "value",
          y1: (bar: Bar) => bar.y - 0.3,
          y2: (bar: Bar) => bar.y + 0.3,
          fill: colours.first,
        }),
        Plot.ruleY(whiskers, { y: "y", x1: "low", x2: "high", stroke: colours.paper, strokeWidth: 3.2 }),
        Plot.ruleY(whiskers, { y: "y", x1: "low", x2: "high", stroke: colours.ink, strokeWidth: strokes.thin }),
        Plot.ruleX(
          whiskers.flatMap((bar) => [...(bar.limited ? [{ at: bar.low, y: bar.y }] : []), { at: bar.high, y: bar.y }]),
          {
            x: "at",
            y1: (cap: Cap) => cap.y - 0.18,
            y2: (cap: Cap) => cap.y + 0.18,
            stroke: colours.ink,
            strokeWidth: strokes.thin,
          },
        ),
        ...frame.over,
      ],
      x: {
        ...x,
        domain: spanOf(
          bars.flatMap((bar) => [bar.value, bar.high ?? 0]),
          { zero: true },
        ),
        grid: true,
      },
      y: frame.y,
      height: frame.height,
      marginLeft: frame.marginLeft,
      marginRight: frame.marginRight,
      note: `Lines: ${percent}\u00a0% intervals; without a left end where only an upper limit can be given.`,
    },
    { finding: isAlone ? leastOf(rows, noun, symbol) : findingOf(rows, total, noun, symbol), data },
  );
}

interface Bar {
  readonly y: number;
}

interface Cap {
  readonly at: number;
  readonly y: number;
}

/** The unit of measure whose square is given: "cN²" to "cN"; others stay. */
function rootOf(symbol: string): string {
  return symbol.replace(/(²|\^2)$/, "");
}

function rightText(variance: number, symbol: string, total: number | null): string {
  if (variance < 0) return `0 (estimate ${roundSignificant(variance, 2)}${symbol === "1" ? "" : `\u00a0${symbol}`})`;
  if (variance === 0) return "0";
  if (total === null) return roundSignificant(Math.sqrt(variance), 2);
  return `${roundSignificant(Math.sqrt(variance), 2)}, ${sayShare(total === 0 ? 0 : variance / total)}`;
}

/** Which scatters least, and whether its interval lies below every other. */
function leastOf(rows: readonly Row[], noun: string, symbol: string): string {
  const root = rootOf(symbol) === "1" ? "" : `\u00a0${rootOf(symbol)}`;
  const say = (row: Row & { readonly measured: { readonly value: number } }): string =>
    `sd ${roundSignificant(Math.sqrt(Math.max(0, row.measured.value)), 2)}${root}`;
  const [least, ...others] = [...readingsOf(rows)].sort(
    (a, b) => a.measured.value - b.measured.value || a.index - b.index,
  );
  if (least === undefined) return sentence(sayAbsent(rows));
  if (others.length === 0) return sentence(`${least.label} alone has an estimate: ${say(least)}`, sayAbsent(rows));
  const isApart = others.every(({ low }) => least.high !== null && low !== null && least.high < low);
  const most = others.at(-1)!;
  return sentence(
    `${least.label} scatters least, ${say(least)}, and ${most.label} most, ${say(most)}`,
    isApart
      ? `its interval lies below that of every other ${noun}`
      : `its interval meets that of another ${noun}, so the chart does not show that it is the least`,
    sayAbsent(rows),
  );
}

function findingOf(rows: readonly Row[], total: number, noun: string, symbol: string): string {
  const ranked = readingsOf(rows)
    .filter((row) => row.measured.value > 0)
    .sort((a, b) => b.measured.value - a.measured.value || a.index - b.index);
  const [most, next] = ranked;
  const negative = readingsOf(rows).filter((row) => row.measured.value < 0).length;
  const below =
    negative === 0
      ? ""
      : `${counted(negative, noun)} with a negative estimate ${negative === 1 ? "counts" : "count"} as 0`;
  if (most === undefined) return sentence("Every estimate is 0 or below", below, sayAbsent(rows));
  const root = rootOf(symbol) === "1" ? "" : `\u00a0${rootOf(symbol)}`;
  const head = `${most.label} has the largest estimate, ${sayShare(most.measured.value / total)} of the sum (sd ${roundSignificant(Math.sqrt(most.measured.value), 2)}${root})`;
  if (next === undefined) return sentence(head, below, sayAbsent(rows));
  const isApart = most.low !== null && next.high !== null && most.low > next.high;
  const isOpen = most.low === null || next.high === null;
  const compared = isApart
    ? `its interval lies above that of the next, ${next.label}`
    : isOpen
      ? `without both intervals the chart does not show that it exceeds the next, ${next.label}`
      : `its interval meets that of the next, ${next.label}: the chart does not show which is larger`;
  return sentence(head, compared, below, sayAbsent(rows));
}
