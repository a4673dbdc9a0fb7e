import * as Plot from "@observablehq/plot";
import { quantileSorted } from "d3-array";
import { closest } from "fastest-levenshtein";
import { roundToPlaces } from "../../metrology/print.js";
import type { Measured } from "../../metrology/quantity.js";
import { chartData } from "../chart-data.js";
import { chart, type Chart } from "../chart.js";
import { safeLabel } from "../drawing/safe-text.js";
import { textWidth } from "../drawing/text-width.js";
import { spanOf } from "../kit/domain.js";
import { emptyChart } from "../kit/empty-chart.js";
import {
  entriesOf,
  nounOf,
  readingsOf,
  sayAbsent,
  type Entry,
  type LabelOptions,
  type Reading,
} from "../kit/entries.js";
import { checkOptions } from "../kit/options.js";
import { rowFrame } from "../kit/rows.js";
import { spreadLabels } from "../kit/spread.js";
import { positionOn, svgElement, svgText } from "../kit/svg.js";
import { capitalise, commonPlaces, counted, pluralOf, sayNumber, sayValue, sentence } from "../kit/words.js";
import { colours, sizes, strokes } from "../theme.js";

export interface QuantileStripOptions<T> extends LabelOptions<T> {
  /** Name of the characteristic for the axis; default "Value". */
  readonly of?: string;
  /** The group of an item, one strip each in order of first appearance; default: one strip. */
  readonly group?: (item: T, index: number) => string;
  /** What the groups are: "kind"; default "group". */
  readonly groupNoun?: string;
  /** Quantiles to mark, above 0 and below 1; default 0.1, 0.5 and 0.9. */
  readonly quantiles?: readonly number[];
  /** Label of an item whose place among the others is the question. */
  readonly highlight?: string;
}

type Grouped = Entry & { readonly group: string };

interface Strip {
  readonly name: string;
  readonly values: readonly number[];
  readonly marks: readonly { readonly p: number; readonly value: number }[];
}

const known = ["label", "noun", "of", "group", "groupNoun", "quantiles", "highlight"];
const rowPx = 58;

/** Ticks of a row, in rows from its middle. */
const tickFrom = -0.28;
const tickTo = -0.02;

/**
 * Every value as a tick on a line, one line a group, with quantiles marked and numbered below it (sample quantiles of
 * type 7 of Hyndman and Fan, The American Statistician 50:361, 1996). A quantile p is marked only where n min(p, 1 - p)
 * is at least 1, since below that it lies among no values. It describes the values drawn and has no interval.
 *
 * @param items anything with a label and a value
 * @param value the measured value of an item; absent ones are named, not drawn
 * @param options `of`, `group`, `groupNoun`, `quantiles`, `highlight`, `label`, `noun`
 * @throws RangeError on an unknown option, a quantile out of range, a label to highlight that is not there, mixed units
 */
export function quantileStrip<T>(
  items: readonly T[],
  value: (item: T, index: number) => Measured,
  options: QuantileStripOptions<T> = {},
): Chart {
  checkOptions(options, known, "quantile strip");
  const quantiles = options.quantiles ?? [0.1, 0.5, 0.9];
  for (const p of quantiles) if (!(p > 0 && p < 1)) throw new RangeError(`the quantile ${p} must lie between 0 and 1`);
  const groupNoun = options.groupNoun ?? "group";
  const entries = entriesOf(items, value, options, "quantile strip").map((entry) => ({
    ...entry,
    group: options.group === undefined ? "" : safeLabel(options.group(items[entry.index]!, entry.index)),
  }));
  const noun = nounOf(items, options);
  const symbol = entries[0]?.measured.symbol ?? "1";
  const of = options.of ?? "Value";
  const readings = readingsOf(entries);
  const data = chartData(entries, [
    { name: noun, label: capitalise(noun), value: (entry) => entry.label },
    ...(options.group === undefined
      ? []
      : [{ name: groupNoun, label: capitalise(groupNoun), value: (entry: Grouped) => entry.group }]),
    { name: "value", label: of, symbol, value: (entry) => entry.measured },
  ]);
  const x = { label: of, symbol };
  if (readings.length === 0) {
    const words =
      entries.length === 0 ? `There are no ${pluralOf(noun)} to show.` : capitalise(sentence(sayAbsent(entries)));
    return emptyChart(words, { x, y: { label: capitalise(groupNoun) } }, data);
  }
  const marked = highlighted(entries, options.highlight);
  const names = [...new Set(entries.map((entry) => entry.group))];
  const strips = names.map((name) =>
    stripOf(
      name,
      readings.filter((r) => r.group === name).map((r) => r.measured.value),
      quantiles,
    ),
  );
  const places = commonPlaces(readings.map((reading) => reading.measured));
  const rows = rowFrame(
    strips.map((strip) => ({
      label: strip.name,
      right: counted(strip.values.length, noun),
      ...(strip.values.length === 0 ? { gap: "no value" } : {}),
    })),
    { title: capitalise(options.group === undefined ? pluralOf(noun) : groupNoun), rowPx },
  );
  const tick = {
    x: (reading: Grouped & Reading) => reading.measured.value,
    y1: (reading: Grouped) => names.indexOf(reading.group) + tickFrom,
    y2: (reading: Grouped) => names.indexOf(reading.group) + tickTo,
  };
  return chart(
    {
      marks: [
        ...rows.under,
        Plot.ruleX(
          readings.filter((reading) => reading !== marked),
          { ...tick, stroke: colours.first, strokeWidth: strokes.thin },
        ),
        ...(marked === undefined ? [] : highlightMarks(marked, names.indexOf(marked.group))),
        ...strips.map((strip, row) => quantileMarks(strip, row, places)),
        ...rows.over,
      ],
      x: { ...x, domain: spanOf(readings.map((reading) => reading.measured.value)), grid: true },
      y: rows.y,
      height: rows.height,
      marginLeft: rows.marginLeft,
      marginRight: rows.marginRight,
    },
    { finding: findingOf(strips, entries, marked, { noun, symbol, places }), data },
  );
}

function stripOf(name: string, values: readonly number[], quantiles: readonly number[]): Strip {
  const sorted = [...values].sort((a, b) => a - b);
  const marks = quantiles
    .filter((p) => sorted.length * Math.min(p, 1 - p) >= 1 - 1e-9)
    .map((p) => ({ p, value: quantileSorted(sorted, p)! }));
  return { name, values: sorted, marks };
}

/** A triangle below the ticks at each quantile, its name and number under it. */
function quantileMarks(strip: Strip, row: number, places: number): Plot.RenderFunction {
  return (_index, scales, _values, dimensions, context) => {
    const y = positionOn(scales.y, row + tickTo);
    const texts = strip.marks.map((mark) => `${nameOf(mark.p)} ${roundToPlaces(mark.value, places)}`);
    const at = strip.marks.map((mark) => positionOn(scales.x, mark.value));
    const centres = spreadLabels(
      at,
      texts.map((text) => textWidth(text, sizes.textPx) + 8),
      [dimensions.marginLeft - 10, dimensions.width - dimensions.marginRight + 12],
    );
    return svgElement(
      context,
      "g",
      {},
      texts.flatMap((text, index) => [
        svgElement(context, "path", { d: `M${at[index]},${y + 2}l4,6h-8Z`, fill: colours.ink }),
        svgElement(context, "path", {
          d: `M${at[index]},${y + 8}L${centres[index]},${y + 14}`,
          stroke: colours.quiet,
          "stroke-width": strokes.grid,
        }),
        svgText(context, centres[index]!, y + 21, text, { anchor: "middle" }),
      ]),
    );
  };
}

function highlightMarks(marked: Grouped & Reading, row: number): Plot.Markish[] {
  const x = marked.measured.value;
  return [
    Plot.ruleX([x], { y1: row + tickFrom - 0.04, y2: row + tickTo, stroke: colours.ink, strokeWidth: 3 }),
    Plot.text([x], {
      x: [x],
      y: [row + tickFrom - 0.04],
      text: [`${marked.label} ${sayValue(marked.measured)}`],
      lineAnchor: "bottom",
      dy: -2,
      fontWeight: "bold",
      fill: colours.ink,
    }),
  ];
}

function highlighted(entries: readonly Grouped[], wanted: string | undefined): (Grouped & Reading) | undefined {
  if (wanted === undefined) return undefined;
  const labels = entries.map((entry) => entry.label);
  const found = entries.find((entry) => entry.label === safeLabel(wanted));
  if (found === undefined) {
    throw new RangeError(
      `the quantile strip has no "${wanted}" to highlight; did you mean "${closest(wanted, labels)}"?`,
    );
  }
  return readingsOf([found])[0];
}

function nameOf(p: number): string {
  return p === 0.5 ? "median" : `P${Number((p * 100).toPrecision(6))}`;
}

function findingOf(
  strips: readonly Strip[],
  entries: readonly Grouped[],
  marked: (Grouped & Reading) | undefined,
  { noun, symbol, places }: { readonly noun: string; readonly symbol: string; readonly places: number },
): string {
  const say = (value: number): string => sayNumber(value, symbol, places);
  const clauses = strips
    .filter((strip) => strip.values.length > 0)
    .map(({ name, values, marks }) => {
      const head = name === "" ? `the ${counted(values.length, noun)}` : `${name}, ${counted(values.length, noun)}`;
      if (values.length === 1) return `${head} at ${say(values[0]!)}`;
      const quoted = marks.map((mark) => `${nameOf(mark.p)} ${say(mark.value)}`);
      return `${head}: ${[...quoted, `from ${say(values[0]!)} to ${say(values.at(-1)!)}`].join(", ")}`;
    });
  const peers = marked === undefined ? [] : (strips.find((strip) => strip.name === marked.group)?.values ?? []);
  const below = peers.filter((value) => value < (marked?.measured.value ?? NaN)).length;
  const place =
    marked === undefined
      ? ""
      : `${marked.label} reads ${sayValue(marked.measured)}; ${below} of the ${peers.length - 1} others read less`;
  const text = sentence(place, ...clauses, sayAbsent(entries));
  return place === "" && strips[0]?.name === "" ? capitalise(text) : text;
}
