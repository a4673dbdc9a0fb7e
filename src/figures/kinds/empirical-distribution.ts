import * as Plot from "@observablehq/plot";
import { chart, type Chart, type ChartData, type DataCell } from "../chart.js";
import { textWidth } from "../drawing/text-width.js";
import { spanOf } from "../kit/domain.js";
import { emptyChart } from "../kit/empty-chart.js";
import { checkMeasured, checkOneSymbol, labelOf, nounOf, type LabelOptions } from "../kit/entries.js";
import { bandHalfWidth, bandOutline, stepOutline } from "../kit/empirical-steps.js";
import { checkOptions } from "../kit/options.js";
import { capitalise, counted, joinWords, pluralOf, sayNumber, sayQuantity, sentence } from "../kit/words.js";
import { colours, sizes, strokes } from "../theme.js";
import { markLines, sideLines, sideTexts, tickMarks, valuesOf } from "./empirical-panel.js";
import type { Panel, SampleMark, SampleReading } from "./empirical-panel.js";

export interface EmpiricalDistributionOptions<T> extends LabelOptions<T> {
  /** Name of the characteristic for the axis: "Latency". */
  readonly of: string;
  /** What one reading is: "press"; default "reading". */
  readonly readingNoun?: string;
  /** At most three values to mark, in order of importance. */
  readonly marks?: (item: T, index: number) => readonly SampleMark[];
  /** Coverage probability of the band, 0.95 unless given. */
  readonly level?: number;
}

const known = ["label", "noun", "of", "readingNoun", "marks", "level"];

/** A panel's height and the step from one panel's base to the next, in units of its y axis (0 to 1). */
const panelStep = 1.5;
const panelPx = 112;

/**
 * The empirical distribution of each sample in a panel of its own on one common axis, with a confidence band for the whole
 * curve, every reading a tick below it, and up to three marked values named beside it.
 *
 * @param items samples: connections, methods, readers
 * @param readings the readings of a sample; absent ones are counted in words
 * @param options `of`, `readingNoun`, `marks`, `level`, `label`, `noun`
 * @throws RangeError on an unknown option, more than three marks, mixed units of measure, a level out of range
 */
export function empiricalDistribution<T>(
  items: readonly T[],
  readings: (item: T, index: number) => readonly SampleReading[],
  options: EmpiricalDistributionOptions<T>,
): Chart {
  checkOptions(options, known, "empirical distribution");
  const level = options.level ?? 0.95;
  const panels = items.map((item, index) => panelOf(item, index, readings(item, index), options, items.length));
  const noun = nounOf(items, options);
  const readingNoun = options.readingNoun ?? "reading";
  const symbol = checkOneSymbol(
    panels.flatMap((panel) => [...panel.readings, ...panel.marks].map((part) => part.value)),
    "empirical distribution",
  );
  const x = { label: options.of, symbol };
  const y = { label: `Share of ${pluralOf(readingNoun)} at or below`, symbol: "%" };
  const data = dataOf(panels, x, noun, readingNoun);
  const values = panels.flatMap((panel) => valuesOf(panel.readings));
  if (values.length === 0) {
    const words = `No ${noun} has a ${readingNoun} with a value.`;
    return emptyChart(items.length === 0 ? `There are no ${pluralOf(noun)} to show.` : words, { x, y }, data);
  }
  const markValues = panels.flatMap((panel) => panel.marks.flatMap(({ value }) => (value.absent ? [] : [value.value])));
  const domain = spanOf([...values, ...markValues]);
  const drawn = panels.filter((panel) => panel.counted.length > 0);
  const shift = (panel: Panel, corners: readonly (readonly [number, number])[]): [number, number][] =>
    corners.map(([value, share]) => [value, panel.base + share]);
  const shares = panels.flatMap((panel) =>
    [0, 0.5, 1].map((share) => ({ at: panel.base + share, text: String(share * 100) })),
  );
  const side = panels.map((panel) => sideLines(panel));
  return chart(
    {
      marks: [
        Plot.ruleY(
          panels.flatMap((panel) => [panel.base, panel.base + 0.5, panel.base + 1]),
          { stroke: colours.rule, strokeWidth: strokes.grid },
        ),
        ...drawn.map((panel) =>
          Plot.line(
            shift(
              panel,
              bandOutline(stepOutline(panel.counted, ...domain), bandHalfWidth(panel.counted.length, level)),
            ),
            {
              curve: "linear-closed",
              fill: colours.shade,
              stroke: "none",
            },
          ),
        ),
        ...drawn.map((panel) =>
          Plot.line(shift(panel, stepOutline(panel.counted, ...domain)), {
            stroke: colours.first,
            strokeWidth: strokes.curve,
          }),
        ),
        ...panels.flatMap((panel) => [...tickMarks(panel), ...markLines(panel)]),
        sideTexts(panels, side),
      ],
      x: { ...x, domain, grid: true },
      y: {
        ...y,
        domain: [(panels.at(-1)?.base ?? 0) - 0.36, (panels[0]?.base ?? 0) + 1],
        ticks: shares.map((share) => share.at),
        tickLabels: shares.map((share) => share.text),
        grid: false,
      },
      height: panels.length * panelPx + 78,
      marginRight: Math.max(60, ...side.flat().map((line) => Math.ceil(textWidth(line.text, sizes.textPx)) + 44)),
      note: noteOf(panels, level, readingNoun),
    },
    { finding: findingOf(panels, symbol, readingNoun), data },
  );
}

function panelOf<T>(
  item: T,
  index: number,
  readings: readonly SampleReading[],
  options: EmpiricalDistributionOptions<T>,
  count: number,
): Panel {
  const label = labelOf(item, index, options, "empirical distribution");
  const marks = options.marks?.(item, index) ?? [];
  if (marks.length > 3)
    throw new RangeError(`the empirical distribution marks ${marks.length} values of ${label}; at most 3`);
  readings.forEach((reading, place) => checkMeasured(reading.value, place, "empirical distribution"));
  const inCurve = readings.filter((reading) => reading.standing !== "excluded");
  return {
    label,
    readings,
    marks,
    counted: [...valuesOf(inCurve)].sort((a, b) => a - b),
    base: (count - 1 - index) * panelStep,
  };
}

function noteOf(panels: readonly Panel[], level: number, readingNoun: string): string {
  const has = (standing: SampleReading["standing"]): boolean =>
    panels.some((panel) => panel.readings.some((reading) => reading.standing === standing && !reading.value.absent));
  const ticks = [
    `Ticks: every ${readingNoun}`,
    has("apart") ? "short where valid but not kept" : "",
    has("excluded") ? "a cross where excluded and not counted" : "",
  ].filter((part) => part !== "");
  return `Shaded: ${Math.round(level * 100)}\u00a0% band for the whole curve, of any shape. ${ticks.join(", ")}.`;
}

function findingOf(panels: readonly Panel[], symbol: string, readingNoun: string): string {
  const clauses = panels.map((panel) => {
    const [lowest, highest] = [panel.counted[0], panel.counted.at(-1)];
    const absent = panel.readings.filter((reading) => reading.value.absent).length;
    const without = absent === 0 ? "" : `, ${absent} more without a value`;
    if (lowest === undefined || highest === undefined)
      return `${panel.label}: no ${readingNoun} with a value${without}`;
    const say = (value: number): string => sayNumber(value, symbol, 1);
    const range = lowest === highest ? `all at ${say(lowest)}` : `from ${say(lowest)} to ${say(highest)}`;
    const marks = panel.marks.map(
      ({ name, value }) => `${name} ${value.absent ? "not available" : sayQuantity(value)}`,
    );
    return `${panel.label}: ${counted(panel.counted.length, readingNoun)} ${range}${marks.length === 0 ? "" : `, ${joinWords(marks)}`}${without}`;
  });
  return sentence(...clauses);
}

function dataOf(
  panels: readonly Panel[],
  x: { label: string; symbol: string },
  noun: string,
  readingNoun: string,
): ChartData {
  const words = { counted: "counted", apart: "valid, not kept", excluded: "excluded" } as const;
  return {
    columns: [
      { name: noun, label: capitalise(noun) },
      { name: "what", label: capitalise(readingNoun) },
      { name: "value", ...x },
      { name: "standing", label: "Standing" },
    ],
    rows: panels.flatMap((panel) => [
      ...panel.marks.map((mark): readonly DataCell[] => [panel.label, mark.name, mark.value, "result"]),
      ...panel.readings.map((reading): readonly DataCell[] => [
        panel.label,
        reading.name,
        reading.value,
        words[reading.standing ?? "counted"] +
          (reading.reason === undefined || reading.reason === "" ? "" : `: ${reading.reason}`),
      ]),
    ]),
  };
}
