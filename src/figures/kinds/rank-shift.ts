import * as Plot from "@observablehq/plot";
import { verdictWordings } from "../../metrology/verdict.js";
import { chart, type Axis, type Chart } from "../chart.js";
import { chartData } from "../chart-data.js";
import { safeLabel } from "../drawing/safe-text.js";
import { ellipsize, textWidth } from "../drawing/text-width.js";
import { emptyChart } from "../kit/empty-chart.js";
import { labelOf, nounOf, type LabelOptions } from "../kit/entries.js";
import { lanesOf } from "../kit/lanes.js";
import { checkOptions } from "../kit/options.js";
import { positionOn, svgElement, svgText } from "../kit/svg.js";
import { capitalise, counted, joinWords, pluralOf, sentence } from "../kit/words.js";
import { colours, sizes, strokes } from "../theme.js";

/** An item's rank before and after; null where it has none, with the reason in `reason`. Tied items share a rank. */
export interface RankPair {
  readonly before: number | null;
  readonly after: number | null;
  /** Why a rank is missing. */
  readonly reason?: string;
  /** Whether the shift was decided to be more than uncertainty; absent: not decided here. */
  readonly change?: "yes" | "no" | "undecided";
}

/** Ranks that cannot be told apart, first to last place; groups may overlap, since being alike is not transitive. */
export interface RankGroup {
  readonly from: number;
  readonly to: number;
}

export interface RankShiftOptions<T> extends LabelOptions<T> {
  /** What the ranks before and after come from: "keystroke@1", "keystroke@2". */
  readonly names: readonly [before: string, after: string];
  /** Groups that cannot be told apart, as brackets beside the ranks. */
  readonly groups?: { readonly before: readonly RankGroup[]; readonly after: readonly RankGroup[] };
}

interface Place {
  readonly label: string;
  readonly rank: number | null;
  readonly slot: number;
  readonly index: number;
}

interface Shift extends RankPair {
  readonly label: string;
  readonly index: number;
}

const slotPx = 21;
const lanePx = 8;
const widestLabelPx = 118;

/**
 * Ranks before and after a change as two columns joined by lines, one an item. Ties share a rank and stand below one
 * another; a shift that was decided to be more than uncertainty is drawn strong, all others fine. Brackets join ranks
 * that cannot be told apart.
 *
 * @param items units or anything with a label
 * @param ranks rank before and after, 1 the best; null where there is none
 * @param options `names`, `groups`, `label`, `noun`
 * @throws RangeError on an unknown option, a rank that is not a number of at least 1
 */
export function rankShift<T>(
  items: readonly T[],
  ranks: (item: T, index: number) => RankPair,
  options: RankShiftOptions<T>,
): Chart {
  checkOptions(options, ["label", "noun", "names", "groups"], "rank shift");
  const shifts = items.map((item, index): Shift => {
    const pair = ranks(item, index);
    for (const rank of [pair.before, pair.after]) {
      if (rank !== null && !(rank >= 1 && Number.isFinite(rank))) {
        throw new RangeError(`the rank shift got rank ${rank} for item ${index + 1}; it must be at least 1, or null`);
      }
    }
    return { ...pair, index, label: labelOf(item, index, options, "rank shift") };
  });
  const noun = nounOf(items, options);
  const [beforeName, afterName] = options.names.map(safeLabel) as [string, string];
  const data = chartData(shifts, [
    { name: noun, label: capitalise(noun), value: (shift) => shift.label },
    { name: "before", label: beforeName, value: (shift) => shift.before },
    { name: "after", label: afterName, value: (shift) => shift.after },
    { name: "change", label: "Change", value: (shift) => changeWords(shift) },
  ]);
  const x: Axis = { label: `${beforeName}, ${afterName}`, domain: [0, 1], hidden: true };
  const y: Axis = { label: "Rank", hidden: true };
  if (!shifts.some((shift) => shift.before !== null || shift.after !== null)) {
    return emptyChart(`There are no ranked ${pluralOf(noun)} to show.`, { x, y }, data);
  }
  const before = placesOf(shifts, "before");
  const after = placesOf(shifts, "after");
  const groups = [
    bracketsOf(options.groups?.before ?? [], before),
    bracketsOf(options.groups?.after ?? [], after),
  ] as const;
  const margins = [before, after].map((places, side) => {
    const widest = Math.max(0, ...places.map((place) => textWidth(placeText(place, side), sizes.textPx)));
    const heading = textWidth(side === 0 ? beforeName : afterName, sizes.textPx);
    return (
      Math.ceil(Math.max(Math.min(widest, widestLabelPx + 30), Math.min(heading, 150))) +
      18 +
      lanePx * laneCount(groups[side]!)
    );
  });
  const lines = shifts.flatMap((shift) => {
    if (shift.before === null || shift.after === null) return [];
    const slot = (places: readonly Place[]): number => places.find((place) => place.index === shift.index)!.slot;
    return [{ ...shift, from: slot(before), to: slot(after) }];
  });
  const strong = (shift: Shift): boolean => shift.change === "yes" && shift.before !== shift.after;
  const slots = Math.max(before.length, after.length);
  const link = { x1: 0, x2: 1, y1: "from", y2: "to" } as const;
  return chart(
    {
      marks: [
        Plot.link(
          lines.filter((line) => !strong(line)),
          { ...link, stroke: colours.faint, strokeWidth: strokes.thin },
        ),
        Plot.link(lines.filter(strong), { ...link, stroke: colours.first, strokeWidth: 2.6 }),
        columnMark(before, groups[0], beforeName, "left"),
        columnMark(after, groups[1], afterName, "right"),
      ],
      x,
      y: { ...y, domain: [slots - 0.5, -0.5] },
      height: slots * slotPx + 40,
      marginTop: 32,
      marginBottom: 8,
      marginLeft: margins[0]!,
      marginRight: margins[1]!,
      note: noteOf(shifts, options.groups !== undefined),
    },
    { finding: findingOf(shifts, noun), data },
  );
}

/** Items in order of their rank, ties in the given order; those without a rank last. */
function placesOf(shifts: readonly Shift[], side: "before" | "after"): readonly Place[] {
  return [...shifts]
    .sort((a, b) => (a[side] ?? Infinity) - (b[side] ?? Infinity) || a.index - b.index)
    .sort((a, b) => Number(a[side] === null) - Number(b[side] === null))
    .map((shift, slot) => ({ label: shift.label, rank: shift[side], slot, index: shift.index }));
}

function placeText({ label, rank }: Place, side: number): string {
  const short = ellipsize(label, widestLabelPx, sizes.textPx);
  const number = rank === null ? "\u2013" : String(rank);
  return side === 0 ? `${short}  ${number}` : `${number}  ${short}`;
}

interface Bracket {
  readonly from: number;
  readonly to: number;
  readonly lane: number;
}

/** Brackets in slots; a group of a single place needs none. */
function bracketsOf(groups: readonly RankGroup[], places: readonly Place[]): readonly Bracket[] {
  const stretches = groups.flatMap((group) => {
    const inside = places.filter(({ rank }) => rank !== null && rank >= group.from && rank <= group.to);
    return inside.length < 2 ? [] : [{ from: inside[0]!.slot, to: inside.at(-1)!.slot }];
  });
  const lanes = lanesOf(stretches);
  return stretches.map((stretch, index) => ({ ...stretch, lane: lanes[index]! }));
}

function laneCount(brackets: readonly Bracket[]): number {
  return Math.max(0, ...brackets.map((bracket) => bracket.lane + 1));
}

/** One column: its heading, the labels with their ranks, and the brackets between labels and lines. */
function columnMark(
  places: readonly Place[],
  brackets: readonly Bracket[],
  name: string,
  side: "left" | "right",
): Plot.RenderFunction {
  return (_index, scales, _values, dimensions, context) => {
    const sign = side === "left" ? -1 : 1;
    const edge = side === "left" ? dimensions.marginLeft : dimensions.width - dimensions.marginRight;
    const column = edge + sign * (10 + lanePx * laneCount(brackets));
    const anchor = side === "left" ? "end" : "start";
    const at = (slot: number): number => positionOn(scales.y, slot);
    return svgElement(context, "g", {}, [
      svgText(context, column, 14, ellipsize(name, 150, sizes.textPx), { anchor, weight: "bold" }),
      ...brackets.map(({ from, to, lane }) => {
        const x = edge + sign * (6 + lanePx * lane);
        const d = `M${x - sign * 4},${at(from) - 7}H${x}V${at(to) + 7}H${x - sign * 4}`;
        return svgElement(context, "path", { d, fill: "none", stroke: colours.ink, "stroke-width": strokes.thin });
      }),
      ...places.map((place) =>
        svgText(context, column, at(place.slot), placeText(place, side === "left" ? 0 : 1), {
          anchor,
          fill: place.rank === null ? colours.quiet : colours.ink,
        }),
      ),
    ]);
  };
}

function changeWords(shift: Shift): string {
  if (shift.before === null || shift.after === null) return shift.reason ?? "not ranked in both";
  return shift.change === undefined ? "" : verdictWordings.change[shift.change];
}

function noteOf(shifts: readonly Shift[], hasGroups: boolean): string {
  return [
    shifts.some((shift) => shift.change !== undefined) ? "Strong lines: shifts that are more than uncertainty." : "",
    hasGroups ? "Brackets: ranks that cannot be told apart." : "",
    shifts.some((shift) => shift.before === null || shift.after === null) ? "A dash: not ranked." : "",
  ]
    .filter((part) => part !== "")
    .join(" ");
}

function findingOf(shifts: readonly Shift[], noun: string): string {
  const both = shifts.flatMap((shift) =>
    shift.before === null || shift.after === null ? [] : [{ ...shift, by: Math.abs(shift.before - shift.after) }],
  );
  const missing = shifts.filter((shift) => shift.before === null || shift.after === null);
  const kept = both.filter((shift) => shift.by === 0).length;
  const most = Math.max(0, ...both.map((shift) => shift.by));
  const farthest = both.filter((shift) => shift.by === most && most > 0);
  const decided = both.filter((shift) => shift.change === "yes" && shift.by > 0).map((shift) => shift.label);
  return sentence(
    both.length === 0
      ? `no ${noun} is ranked in both`
      : `${kept} of ${counted(both.length, noun)} ${kept === 1 ? "keeps its rank" : "keep their rank"}`,
    farthest.length === 0
      ? ""
      : `the largest shift is ${joinWords(farthest.map((s) => `${s.label} from ${s.before} to ${s.after}`))}`,
    most === 0
      ? ""
      : !both.some((shift) => shift.change !== undefined)
        ? "whether a shift is more than uncertainty is not decided here"
        : decided.length === 0
          ? "no shift is more than uncertainty"
          : `more than uncertainty: ${joinWords(decided)}`,
    missing.length === 0 ? "" : `not ranked in both: ${joinWords(missing.map((shift) => shift.label))}`,
  );
}
