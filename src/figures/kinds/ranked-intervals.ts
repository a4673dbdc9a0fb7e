import type * as Plot from "@observablehq/plot";
import type { Measured } from "../../metrology/quantity.js";
import type { Chart } from "../chart.js";
import { labelOf, nounOf, type LabelOptions } from "../kit/entries.js";
import { lanesOf, type Stretch } from "../kit/lanes.js";
import type { FigureLimit } from "../kit/limits.js";
import { checkOptions } from "../kit/options.js";
import { positionOn, svgElement } from "../kit/svg.js";
import { capitalise, counted, joinWords, pluralOf, sayValue, sentence } from "../kit/words.js";
import { colours, strokes } from "../theme.js";
import { intervalChart } from "./interval-chart.js";

/** Neighbours that cannot be told apart: first and last place in the order of values, from 0, as `alikeBrackets` gives them. */
export interface RankedBracket {
  readonly first: number;
  readonly last: number;
}

export interface RankedIntervalsOptions<T> extends LabelOptions<T> {
  /** Drawn beside the rows; they may overlap, since being alike does not carry over. */
  readonly brackets: readonly RankedBracket[];
  /** Name of the characteristic for the axis: "Actuation force"; default "Value". */
  readonly of?: string;
  readonly limits?: FigureLimit | readonly FigureLimit[] | undefined;
}

const lanePx = 9;

/**
 * Values in their order, smallest first, each as a point with value ± U (95 %), and beside the rows brackets that join
 * neighbours which cannot be told apart. A bracket is no class: an item may stand in several, and in none.
 *
 * @param items units or anything with a label; those without a value are left out, their reasons are said
 * @param value the measured value of an item; equal values keep the given order
 * @param options `brackets` by place in that order, `of`, `limits`, `label`, `noun`
 * @throws RangeError on an unknown option, a bracket that does not join two or more of the places, mixed units of measure
 */
export function rankedIntervals<T>(
  items: readonly T[],
  value: (item: T, index: number) => Measured,
  options: RankedIntervalsOptions<T>,
): Chart {
  checkOptions(options, ["label", "noun", "of", "limits", "brackets"], "ranked intervals");
  const { brackets, of, limits } = options;
  const noun = nounOf(items, options);
  const all = items.map((item, index) => ({
    label: labelOf(item, index, options, "ranked intervals"),
    measured: value(item, index),
  }));
  const ranked = all
    .flatMap(({ label, measured }) => (measured.absent ? [] : [{ label, measured }]))
    .sort((a, b) => a.measured.value - b.measured.value);
  for (const { first, last } of brackets) {
    if (first >= 0 && first < last && last < ranked.length) continue;
    throw new RangeError(
      `a bracket joins places ${first} to ${last}; it must join two or more of 0 to ${ranked.length - 1}`,
    );
  }
  const base = intervalChart(ranked, ({ measured }) => measured, {
    noun,
    ...(of === undefined ? {} : { of }),
    ...(limits === undefined ? {} : { limits }),
  });
  const stretches = brackets.map(({ first, last }) => ({ from: first, to: last }));
  const lanes = lanesOf(stretches);
  const room = brackets.length === 0 ? 0 : lanePx * (Math.max(...lanes) + 1) + 8;
  const columns = [...base.data.columns, { name: "brackets", label: "Brackets" }];
  const rows = base.data.rows.map((row, place) => [...row, bracketNames(brackets, place)]);
  return Object.freeze({
    ...base,
    marks: room === 0 ? base.marks : [...base.marks, bracketMark(stretches, lanes)],
    ...(room === 0
      ? {}
      : { note: joinNotes(base.note, `A bracket joins ${pluralOf(noun)} that cannot be told apart.`) }),
    ...(base.marginRight === undefined ? {} : { marginRight: base.marginRight + room }),
    finding: findingOf(ranked, brackets, all.length - ranked.length, noun),
    data: { ...base.data, columns, rows },
  });
}

function joinNotes(first: string | undefined, second: string): string {
  return first === undefined ? second : `${first} ${second}`;
}

/** Brackets at the right edge, the first lane nearest to the rows. */
function bracketMark(stretches: readonly Stretch[], lanes: readonly number[]): Plot.RenderFunction {
  const outermost = Math.max(...lanes);
  return (_index, scales, _values, dimensions, context) =>
    svgElement(
      context,
      "g",
      { fill: "none", stroke: colours.ink, "stroke-width": strokes.thin },
      stretches.map(({ from, to }, index) => {
        const x = dimensions.width - 2 - lanePx * (outermost - lanes[index]!);
        const [top, foot] = [positionOn(scales.y, from) - 6, positionOn(scales.y, to) + 6];
        return svgElement(context, "path", { d: `M${x - 5},${top}H${x}V${foot}H${x - 5}` });
      }),
    );
}

/** Numbers of the brackets, from 1, in which a place stands. */
function bracketNames(brackets: readonly RankedBracket[], place: number): string {
  return brackets.flatMap(({ first, last }, index) => (first <= place && place <= last ? [index + 1] : [])).join(" ");
}

interface Ranked {
  readonly label: string;
  readonly measured: Exclude<Measured, { absent: true }>;
}

function findingOf(
  ranked: readonly Ranked[],
  brackets: readonly RankedBracket[],
  absent: number,
  noun: string,
): string {
  const [first] = ranked;
  const last = ranked.at(-1);
  const missing =
    absent === 0 ? "" : `${counted(absent, noun)} without a value ${absent === 1 ? "is" : "are"} not drawn`;
  if (first === undefined || last === undefined) return capitalise(sentence(`no ${noun} has a value`, missing));
  if (ranked.length === 1)
    return sentence(`${first.label} is the only ${noun}, with ${sayValue(first.measured)}`, missing);
  const span = `from ${sayValue(first.measured)} (${first.label}) to ${sayValue(last.measured)} (${last.label})`;
  const joined = (place: number): boolean => brackets.some((each) => each.first <= place && place <= each.last);
  const alone = ranked.flatMap(({ label }, place) => (joined(place) ? [] : [label]));
  const groups =
    brackets.length === 0
      ? `every ${noun} can be told from its neighbours`
      : `${counted(brackets.length, "bracket")} ${brackets.length === 1 ? "joins" : "join"} ${pluralOf(noun)} that cannot be told apart`;
  const apart =
    alone.length === 0 || brackets.length === 0
      ? ""
      : `${joinWords(alone)} ${alone.length === 1 ? "stands" : "stand"} in none`;
  return capitalise(sentence(span, groups, apart, missing));
}
