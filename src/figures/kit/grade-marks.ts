import type * as Plot from "@observablehq/plot";
import { safeLabel } from "../drawing/safe-text.js";
import { ellipsize, textWidth } from "../drawing/text-width.js";
import { colours, sizes, strokes } from "../theme.js";
import { spreadLabels } from "./spread.js";
import { positionOn, svgElement, svgText } from "./svg.js";
import { joinWords } from "./words.js";

/** A named step of merit: the least merit that earns it. */
export interface GradeStep {
  readonly name: string;
  readonly from: number;
}

/** Where an axis of merits starts: the tenth below all that is drawn, 0 at the least. @param lows lower ends; none gives 0.9 */
export function meritStart(lows: readonly number[]): number {
  return Math.max(0, Math.ceil(Math.min(1, ...lows) * 10 - 1e-9) - 1) / 10;
}

/** That the axis starts above 0, and the grades that begin below it, as sentences after a space; empty where it starts at 0. */
export function sayMeritStart(from: number, below: readonly GradeStep[]): string {
  if (from === 0) return "";
  const names = below.map((grade) => `${safeLabel(grade.name)} (from ${grade.from})`);
  return ` The axis starts at ${from}, not at 0${names.length === 0 ? "" : `; below it: ${joinWords(names)}`}.`;
}

/** Between two names of grades, px. */
const gapPx = 10;

/** How far names may reach beyond the chart's margins, both sides together, px. */
const overhangPx = 12;

/** Grades' names: on one line where they fit beside one another, else on two where there is room above; cut at the last. */
function namesOf(grades: readonly GradeStep[], room: number, lines: number): readonly (readonly string[])[] {
  const whole = grades.map((grade) => [safeLabel(grade.name)]);
  const halves = lines > 1 ? whole.map(([name]) => halved(name!)) : whole;
  const fitting = [whole, halves].find((names) => names.reduce((sum, name) => sum + widthOf(name) + gapPx, 0) <= room);
  return (
    fitting ?? halves.map((name) => name.map((line) => ellipsize(line, room / grades.length - gapPx, sizes.textPx)))
  );
}

function widthOf(lines: readonly string[]): number {
  return Math.max(...lines.map((line) => textWidth(line, sizes.textPx)));
}

/** Lines that the grades' names take above a chart of this width between its margins, px: one or two. */
export function gradeLines(grades: readonly GradeStep[], widthPx: number): number {
  return Math.max(1, ...namesOf(grades, widthPx + overhangPx, 2).map((name) => name.length));
}

/** A name broken at the space that leaves the shorter longest half; one word stays whole. */
function halved(name: string): readonly string[] {
  const words = name.split(" ");
  const cuts = words.slice(1).map((_, at) => [words.slice(0, at + 1).join(" "), words.slice(at + 1).join(" ")]);
  return [...cuts].sort((a, b) => widthOf(a) - widthOf(b))[0] ?? [name];
}

/**
 * Upright lines at the grades' lower ends, each led to its name above the chart.
 * @param grades all within the axis, ascending
 * @param lines room for the names above the chart, as `gradeLines` asks for
 */
export function gradeMarks(grades: readonly GradeStep[], lines: number): Plot.RenderFunction {
  return (_index, scales, _values, dimensions, context) => {
    const at = grades.map((grade) => positionOn(scales.x, grade.from));
    const range = [dimensions.marginLeft - 10, dimensions.width - dimensions.marginRight + 2] as const;
    const names = namesOf(grades, range[1] - range[0], lines);
    const centres = spreadLabels(
      at,
      names.map((name) => widthOf(name) + gapPx),
      range,
    );
    const bottom = dimensions.marginTop - 15;
    return svgElement(
      context,
      "g",
      {},
      grades.flatMap((_, index) => [
        svgElement(context, "path", {
          d: `M${at[index]},${dimensions.height - dimensions.marginBottom}V${dimensions.marginTop}L${centres[index]},${dimensions.marginTop - 7}`,
          fill: "none",
          stroke: colours.quiet,
          "stroke-width": strokes.axis,
          "stroke-dasharray": "6 3",
        }),
        ...names[index]!.map((line, row, { length }) =>
          svgText(context, centres[index]!, bottom - (length - 1 - row) * sizes.linePx, line, { anchor: "middle" }),
        ),
      ]),
    );
  };
}
