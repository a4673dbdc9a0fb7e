import * as Plot from "@observablehq/plot";
import { extent } from "d3-array";
import { expand } from "../../metrology/expanded.js";
import type { Measured } from "../../metrology/quantity.js";
import { chart, type Chart } from "../chart.js";
import { chartData } from "../chart-data.js";
import { safeLabel } from "../drawing/safe-text.js";
import { parseDate, sayDate } from "../kit/dates.js";
import { spanOf } from "../kit/domain.js";
import { emptyChart } from "../kit/empty-chart.js";
import { controlEnds, type ControlLimits } from "../kit/control-ends.js";
import { endLabelMargin, endLabels } from "../kit/end-labels.js";
import { checkMeasured, checkOneSymbol } from "../kit/entries.js";
import type { Bound } from "../kit/limits.js";
import { checkOptions } from "../kit/options.js";
import type { Direction } from "../kit/place-labels.js";
import { pointLabels } from "../kit/point-labels.js";
import { capitalise, counted, joinWords, sayValue, sentence } from "../kit/words.js";
import { colours, strokes } from "../theme.js";
import { eventMarks } from "../kit/event-marks.js";

/** One check of a rig. */
export interface ControlPoint {
  /** ISO date, or date and time with offset. */
  readonly at: string;
  readonly value: Measured;
  /** The run rule that this check breaks, in a few words; empty or absent for none. */
  readonly signal?: string;
}

/** A stretch of time: the results between a good check and a bad one. */
export interface DoubtfulSpan {
  readonly from: string;
  readonly to: string;
}

export interface ControlChartOptions extends ControlLimits {
  /** Name of what is checked: "Force at the 50 cN step". */
  readonly of: string;
  /** Moments to mark: "calibrated", "probe replaced". */
  readonly events?: readonly { readonly at: string; readonly label: string }[];
  /** Stretches whose results are in doubt. */
  readonly doubtful?: readonly DoubtfulSpan[];
  /** What one point is; default "check". */
  readonly noun?: string;
}

interface Point {
  readonly x: number;
  readonly y: number;
  readonly U: number;
  readonly signal: string;
  readonly text: string;
}

const known = ["of", "centre", "action", "warning", "events", "doubtful", "noun"];
const dayMs = 86_400_000;

/**
 * Checks of a rig over time with centre, warning and action limits as given (ISO 7870-2), the checks that signal marked
 * by shape and named, and stretches in doubt shaded. Which run rules are used, and their false alarms, are the caller's.
 *
 * @param items checks in any order; they are drawn by date, ties in the given order
 * @param point date, value and signal of a check; an absent value is named, not drawn
 * @param options `of`, `centre`, `action`, `warning`, `events`, `doubtful`, `noun`
 * @throws RangeError on an unknown option, a date that is not ISO or has a time without offset, mixed units of measure
 */
export function controlChart<T>(
  items: readonly T[],
  point: (item: T, index: number) => ControlPoint,
  options: ControlChartOptions,
): Chart {
  const where = "control chart";
  checkOptions(options, known, where);
  const noun = options.noun ?? "check";
  const checks = items
    .map((item, index) => ({ ...point(item, index), index }))
    .map((check) => ({
      ...check,
      x: parseDate(check.at, where),
      value: checkMeasured(check.value, check.index, where),
    }))
    .sort((a, b) => a.x - b.x || a.index - b.index);
  const symbol = checkOneSymbol(
    checks.map((check) => check.value),
    where,
  );
  const { centre, action, warning } = options;
  const bounds = [centre, action?.min, action?.max, warning?.min, warning?.max].filter((bound) => bound !== undefined);
  const odd = bounds.find((bound) => checks.length > 0 && bound.symbol !== symbol);
  if (odd !== undefined) throw new RangeError(`the ${where} is in ${symbol}, but a limit is in ${odd.symbol}`);
  const x = { label: "Date" };
  const y = { label: options.of, symbol };
  const data = chartData(checks, [
    { name: "date", label: "Date", value: (check) => check.at },
    { name: "value", ...y, value: (check) => check.value },
    { name: "signal", label: "Signal", value: (check) => signalOf(check, action) },
  ]);
  const points = checks.flatMap((check): readonly Point[] =>
    check.value.absent
      ? []
      : [
          {
            x: check.x,
            y: check.value.value,
            U: expand(check.value).U,
            signal: signalOf(check, action),
            text: sayValue(check.value),
          },
        ],
  );
  const missing = checks.filter((check) => check.value.absent).map((check) => sayDate(check.x));
  if (points.length === 0) {
    return emptyChart(
      checks.length === 0 ? `No ${noun} was recorded.` : `No ${noun} has a value (${joinWords(missing)}).`,
      { x, y },
      data,
    );
  }
  const events = (options.events ?? []).map(({ at, label }) => ({ x: parseDate(at, where), label: safeLabel(label) }));
  const spans = (options.doubtful ?? []).map(({ from, to }) => ({
    x1: parseDate(from, where),
    x2: parseDate(to, where),
  }));
  const [first, last] = extent([
    ...points.map((p) => p.x),
    ...events.map((e) => e.x),
    ...spans.flatMap((s) => [s.x1, s.x2]),
  ]) as [number, number];
  const room = Math.max((last - first) * 0.03, dayMs);
  const across = spanOf([...points.flatMap((p) => [p.y - p.U, p.y + p.U]), ...bounds.map((bound) => bound.value)]);
  const signals = points.filter((p) => p.signal !== "");
  const isOneSignal = signals.every((p) => p.signal === signals[0]!.signal);
  const ends = controlEnds({ centre, action, warning }, last + room);
  const rule = (bound: Bound | undefined, dash: string, stroke: string): Plot.Markish =>
    bound === undefined
      ? null
      : Plot.ruleY([bound.value], {
          stroke,
          strokeWidth: strokes.thin,
          ...(dash === "" ? {} : { strokeDasharray: dash }),
        });
  return chart(
    {
      marks: [
        Plot.rect(spans, { x1: "x1", x2: "x2", fill: colours.shade }),
        rule(centre, "", colours.quiet),
        ...[action?.min, action?.max].map((bound) => rule(bound, "6 3", colours.ink)),
        ...[warning?.min, warning?.max].map((bound) => rule(bound, "2 3", colours.quiet)),
        eventMarks(events),
        Plot.ruleX(points, {
          x: "x",
          y1: (p: Point) => p.y - p.U,
          y2: (p: Point) => p.y + p.U,
          stroke: colours.faint,
          strokeWidth: strokes.thin,
        }),
        Plot.line(points, { x: "x", y: "y", stroke: colours.first, strokeWidth: strokes.thin }),
        Plot.dot(
          points.filter((p) => p.signal === ""),
          { x: "x", y: "y", r: 3.6, fill: colours.first },
        ),
        Plot.dot(signals, { x: "x", y: "y", r: 5, symbol: "diamond", fill: colours.second }),
        pointLabels(
          signals.slice(0, 5).map((p, index, shown) => ({
            x: p.x,
            y: p.y,
            text: sayDate(p.x),
            ...(isOneSignal ? {} : { detail: p.signal }),
            prefer: sidesOf(index, shown.length),
          })),
          [
            ...bounds.map(({ value }) => [first - room, last + room].map((at) => [at, value] as const)),
            points.map((p) => [p.x, p.y] as const),
            ...points.map(
              (p) =>
                [
                  [p.x, p.y - p.U],
                  [p.x, p.y + p.U],
                ] as const,
            ),
          ],
          events.map((event) => across.map((height) => [event.x, height] as const)),
        ),
        endLabels(ends),
      ],
      x: { ...x, type: "utc", domain: [first - room, last + room] },
      y: {
        ...y,
        domain: across,
      },
      height: 310,
      marginTop: events.length === 0 ? 32 : 50,
      marginRight: Math.max(40, endLabelMargin(ends.map((end) => end.text))),
      note: [
        points.some((p) => p.U > 0) ? "Upright lines: ± U." : "",
        signals.length > 0 && isOneSignal ? `Diamonds: ${signals[0]!.signal}.` : "",
        spans.length === 0 ? "" : "Shaded: results in doubt.",
        missing.length === 0 ? "" : `Without a value: ${joinWords(missing)}.`,
      ]
        .filter((part) => part !== "")
        .join(" "),
    },
    { finding: findingOf(points, signals, noun, action !== undefined, missing), data },
  );
}

/** Where the name of a signal stands best: the first to the left, the last to the right, those between above. */
function sidesOf(index: number, count: number): readonly Direction[] {
  if (index === 0) return ["w", "nw", "n", "sw"];
  return index === count - 1 ? ["e", "ne", "se", "n"] : ["n", "nw", "ne"];
}

/** The signal of a check: the caller's words, or that its value lies beyond an action limit. */
function signalOf(
  check: { readonly value: Measured; readonly signal?: string },
  action: { readonly min?: Bound; readonly max?: Bound } | undefined,
): string {
  if (check.signal !== undefined && check.signal !== "") return safeLabel(check.signal);
  if (check.value.absent) return "";
  const { value } = check.value;
  const isBeyond = value > (action?.max?.value ?? Infinity) || value < (action?.min?.value ?? -Infinity);
  return isBeyond ? "beyond action limit" : "";
}

function findingOf(
  points: readonly Point[],
  signals: readonly Point[],
  noun: string,
  hasLimits: boolean,
  missing: readonly string[],
): string {
  const last = points.at(-1)!;
  const period = points.length === 1 ? `on ${sayDate(last.x)}` : `from ${sayDate(points[0]!.x)} to ${sayDate(last.x)}`;
  const head = `${counted(points.length, noun)} ${period}`;
  const signalled = signals.map((p) => `${sayDate(p.x)}, ${p.text}, ${p.signal}`);
  const state =
    signals.length === 0
      ? hasLimits
        ? "none signals"
        : "without limits to judge by"
      : `${signals.length} ${signals.length === 1 ? "signals" : "signal"} (${joinWords(signalled, 3)})`;
  const latest =
    signals.length === 0 ? "" : last.signal === "" ? `the last, ${sayDate(last.x)}, does not` : `the last one does`;
  return capitalise(
    sentence(`${head}: ${state}`, latest, missing.length === 0 ? "" : `without a value: ${joinWords(missing)}`),
  );
}
