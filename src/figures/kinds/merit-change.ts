import * as Plot from "@observablehq/plot";
import { expand } from "../../metrology/expanded.js";
import { isQuantity } from "../../metrology/quantity.js";
import { verdictWordings } from "../../metrology/verdict.js";
import { chart, type Chart } from "../chart.js";
import { chartData, type DataColumnOf } from "../chart-data.js";
import { safeLabel } from "../drawing/safe-text.js";
import { emptyChart } from "../kit/empty-chart.js";
import { nounOf, type LabelOptions } from "../kit/entries.js";
import { gradeLines, gradeMarks, meritStart, sayMeritStart, type GradeStep } from "../kit/grade-marks.js";
import { checkOptions } from "../kit/options.js";
import { differenceOf, pairsOf, sayIncomplete, wholePairs, type MeasuredPair, type PairEntry } from "../kit/pairs.js";
import { rowFrame } from "../kit/rows.js";
import { capitalise, counted, joinWords, pluralOf, sayPair, sayQuantity, sentence } from "../kit/words.js";
import { colours, sizes, strokes } from "../theme.js";

export type { GradeStep } from "../kit/grade-marks.js";

/** Merit of an item before (`first`) and after (`second`), 0 to 1, and what was decided of the change. */
export interface MeritPair extends MeasuredPair {
  readonly change?: "yes" | "no" | "undecided";
}

export interface MeritChangeOptions<T> extends LabelOptions<T> {
  readonly names: readonly [before: string, after: string];
  /** Grades as upright lines at their lower ends. */
  readonly grades?: readonly GradeStep[];
  /** The purpose that the merit is for. */
  readonly purpose?: string;
}

const known = ["label", "noun", "names", "grades", "purpose"];
const rowPx = 30;

/** The two values of a row lie this far above and below its middle, in rows. */
const apart = 0.15;

/**
 * Merits before and after a change, one row an item: a ring with its interval above, a disc with its interval below, with
 * the grades' lower ends as upright lines. The axis ends at 1 and starts at the tenth below everything drawn, since merits are
 * read by position and not by length; where that is not 0 the note says so, and names the grades that begin below.
 *
 * @param items units or anything with a label
 * @param merits merit before and after, 0 to 1, and what was decided of the change; an absent one leaves its place empty
 * @param options `names`, `grades`, `purpose`, `label`, `noun`
 * @throws RangeError on an unknown option, merits that are no ratios, a grade whose lower end is not 0 to 1
 */
export function meritChange<T>(
  items: readonly T[],
  merits: (item: T, index: number) => MeritPair,
  options: MeritChangeOptions<T>,
): Chart {
  checkOptions(options, known, "merit change");
  for (const grade of options.grades ?? []) {
    if (!(grade.from >= 0 && grade.from <= 1))
      throw new RangeError(`grade "${grade.name}" starts at ${grade.from}; it must be 0 to 1`);
  }
  const pairs = pairsOf(items, merits, options, "merit change").map((pair) => {
    if (pair.first.symbol !== "1")
      throw new RangeError(`the merit change needs merits as ratios, got ${pair.first.symbol}`);
    const { change } = merits(items[pair.index]!, pair.index);
    return { ...pair, ...(change === undefined ? {} : { change }) };
  });
  const noun = nounOf(items, options);
  const [beforeName, afterName] = options.names.map(safeLabel) as [string, string];
  const x = { label: options.purpose === undefined ? "Merit" : `Merit, ${safeLabel(options.purpose)}` };
  const grades = [...(options.grades ?? [])].sort((a, b) => a.from - b.from);
  const gradeColumns: readonly DataColumnOf<Row>[] =
    grades.length === 0
      ? []
      : [
          { name: "grade_before", label: `Grade, ${beforeName}`, value: (row) => gradeOf(row.first, grades) },
          { name: "grade_after", label: `Grade, ${afterName}`, value: (row) => gradeOf(row.second, grades) },
        ];
  const data = chartData(pairs, [
    { name: noun, label: capitalise(noun), value: (row: Row) => row.label },
    { name: "before", label: beforeName, value: (row) => row.first },
    { name: "after", label: afterName, value: (row) => row.second },
    ...gradeColumns,
    { name: "change", label: "Change", value: (row) => changeWord(row) },
  ]);
  if (!pairs.some((pair) => isQuantity(pair.first) || isQuantity(pair.second))) {
    const words =
      pairs.length === 0 ? `There are no ${pluralOf(noun)} to show.` : capitalise(sentence(sayIncomplete(pairs)));
    return emptyChart(words, { x, y: { label: capitalise(noun) } }, data);
  }
  const rows = rowFrame(
    pairs.map((pair) => ({
      label: pair.label,
      right: [isQuantity(pair.second) ? sayPair(pair.second) : "", changeWord(pair)]
        .filter((part) => part !== "")
        .join("  "),
      ...(pair.first.absent && pair.second.absent ? { gap: pair.first.reason } : {}),
    })),
    { title: capitalise(noun), rowPx, rightTitle: `${afterName}, ± U` },
  );
  const ends = (["first", "second"] as const).map((side) =>
    pairs.flatMap((pair, row) => {
      const merit = pair[side];
      if (merit.absent) return [];
      const { U } = expand(merit);
      return [
        {
          x: merit.value,
          low: Math.max(0, merit.value - U),
          high: Math.min(1, merit.value + U),
          y: row + (side === "first" ? -apart : apart),
        },
      ];
    }),
  );
  const from = meritStart(ends.flat().map(({ low }) => low));
  const within = grades.filter((grade) => grade.from > from);
  const below = grades.filter((grade) => grade.from > 0 && grade.from <= from);
  const lines = gradeLines(within, sizes.widthPx - rows.marginLeft - rows.marginRight);
  return chart(
    {
      marks: [
        ...rows.under,
        gradeMarks(within, lines),
        Plot.ruleY(ends[0], { y: "y", x1: "low", x2: "high", stroke: colours.faint, strokeWidth: strokes.curve }),
        Plot.ruleY(ends[1], { y: "y", x1: "low", x2: "high", stroke: colours.first, strokeWidth: strokes.curve }),
        Plot.dot(ends[0], {
          x: "x",
          y: "y",
          r: 3.6,
          fill: colours.paper,
          stroke: colours.quiet,
          strokeWidth: strokes.curve,
        }),
        Plot.dot(ends[1], { x: "x", y: "y", r: 4, fill: colours.first }),
        ...rows.over,
      ],
      x: { ...x, domain: [from, 1] },
      y: rows.y,
      height: rows.height + (lines - 1) * sizes.linePx,
      ...(lines > 1 ? { marginTop: 32 + (lines - 1) * sizes.linePx } : {}),
      marginLeft: rows.marginLeft,
      marginRight: rows.marginRight,
      note: `Ring: ${beforeName}. Disc: ${afterName}. Lines: ± U (95\u00a0%).${sayMeritStart(from, below)}`,
    },
    { finding: findingOf(pairs, grades, noun), data },
  );
}

type Row = PairEntry & { readonly change?: "yes" | "no" | "undecided" };

function changeWord(row: Row): string {
  return row.change === undefined ? "" : verdictWordings.change[row.change];
}

/** The grade that a merit's value earns, by value alone. */
function gradeOf(merit: PairEntry["first"], ascending: readonly GradeStep[]): string {
  if (merit.absent) return "";
  return ascending.filter((grade) => merit.value >= grade.from).at(-1)?.name ?? "none";
}

function findingOf(pairs: readonly Row[], grades: readonly GradeStep[], noun: string): string {
  const whole = wholePairs(pairs);
  const size = (pair: (typeof whole)[number]): number => Math.abs(differenceOf(pair).quantity.value);
  const most = [...whole].sort((a, b) => size(b) - size(a) || a.index - b.index)[0];
  const crossed = whole.filter((pair) => gradeOf(pair.first, grades) !== gradeOf(pair.second, grades));
  const decided = (["yes", "no", "undecided"] as const).flatMap((outcome) => {
    const labels = whole.filter((pair) => pair.change === outcome).map((pair) => pair.label);
    return labels.length === 0 ? [] : [`${verdictWordings.change[outcome]}: ${joinWords(labels)}`];
  });
  return sentence(
    most === undefined
      ? `no ${noun} has a merit before and after`
      : `${most.label} changes${whole.length === 1 ? "" : ` most of ${counted(whole.length, noun)},`} by ${sayQuantity(differenceOf(most).quantity)}`,
    ...decided,
    grades.length === 0 || whole.length === 0
      ? ""
      : crossed.length === 0
        ? "by value alone no grade changes"
        : `by value alone the grade changes for ${joinWords(crossed.map((pair) => pair.label))}`,
    sayIncomplete(pairs),
  );
}
