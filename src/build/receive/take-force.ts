import { converter, symbolOfSuffix } from "../../metrology/units.js";
import { splitStream } from "../../keystroke/index.js";
import type { ColumnsFile, FieldPlan } from "./columns.js";
import { fieldPlan } from "./columns.js";
import type { LeftOut } from "./left-out.js";
import type { ReceiptProblems } from "./problem.js";
import type { FieldColumn } from "./read-field.js";
import type { SourceTable } from "./source-table.js";
import type { CycleCounter, StrokeSpan } from "./count-cycles.js";
import type { RowSpan, TakenFile, TakenRun } from "./taken.js";
import { leftOutRows, spansOf } from "./taken.js";

/** The values of one file that stand in it, by name. */
export type FieldColumns = ReadonlyMap<string, FieldColumn>;

/**
 * Takes the strokes of one file: rows by key, cycle and stroke as its columns, its name or the columns file say, or one
 * stream split by its turning points. What belongs to no stroke is left out with the reason.
 *
 * @param counter numbers the cycles where the columns file says `from: order`; goes on from file to file
 */
export function takeForce(
  table: SourceTable,
  columns: ColumnsFile,
  values: FieldColumns,
  counter: CycleCounter,
  problems: ReceiptProblems,
): TakenFile {
  const text = (name: string, row: number): string | null | undefined => values.get(name)?.texts[row];
  const same = (a: number, b: number): boolean =>
    ["key", "cycle", "stroke"].every((name) => text(name, a) === text(name, b));
  const leftOut: LeftOut[] = [];
  const isStream = fieldPlan(columns, "stroke")!.value.from === "stream";
  const strokes = spansOf(table.length, same).flatMap((span): readonly StrokeSpan[] => {
    const [key, cycle] = [text("key", span.from)!, text("cycle", span.from)];
    const stated = cycle === undefined || cycle === null ? null : Number(cycle);
    if (!isStream) return [{ ...span, key, cycle: stated, stroke: text("stroke", span.from) as "press" | "release" }];
    const split = splitSpan(table, columns, values, span, { key, cycle: stated }, problems);
    leftOut.push(...split.leftOut);
    return split.strokes;
  });
  const runs = counter.number(strokes).map(({ key, cycle, stroke, from, to }): TakenRun => ({
    name: `${key}, cycle ${cycle}, ${stroke}`,
    stroke: { key, cycle, stroke },
    from,
    to,
  }));
  const positions = ["key", "cycle", "stroke", "displacement", "force", "contact"].map(
    (name) => values.get(name)?.position ?? null,
  );
  const rows = runs.flatMap(({ stroke, from, to }) =>
    Array.from({ length: to - from }, (_, i) => [
      stroke!.key,
      String(stroke!.cycle),
      stroke!.stroke,
      text("displacement", from + i) ?? "",
      text("force", from + i) ?? "",
      text("contact", from + i) ?? "",
    ]),
  );
  return { table, runs, rows, leftOut: [...table.leftOut, ...leftOut], positions };
}

interface SplitSpan {
  readonly strokes: readonly StrokeSpan[];
  readonly leftOut: readonly LeftOut[];
}

/** Splits the rows of one stream into its strokes. */
function splitSpan(
  table: SourceTable,
  columns: ColumnsFile,
  values: FieldColumns,
  span: RowSpan,
  of: { readonly key: string; readonly cycle: number | null },
  problems: ReceiptProblems,
): SplitSpan {
  const none = { strokes: [], leftOut: [] };
  const displacementMm = numbersOf(fieldPlan(columns, "displacement")!, values, span, "mm");
  const forceCn = numbersOf(fieldPlan(columns, "force")!, values, span, "cN");
  if ([...displacementMm, ...forceCn].some((each) => !Number.isFinite(each))) return none; // reported with their cells
  const { cycles, reason } = splitStream(displacementMm, forceCn);
  const place = table.place(span.from, values.get("displacement")?.position ?? 0);
  if (cycles.length === 0) {
    problems.add("E_STREAM_NO_PRESS", place, { found: reason });
    return none;
  }
  if (of.cycle !== null && cycles.length > 1) {
    const expected = `${of.key}, cycle ${of.cycle},`;
    problems.add("E_STREAM_CYCLES", place, { found: String(cycles.length), expected });
    return none;
  }
  const strokes = cycles.flatMap(({ press, release }): readonly StrokeSpan[] => [
    { from: span.from + press.from, to: span.from + press.to, ...of, stroke: "press" },
    ...(release === null
      ? []
      : [{ from: span.from + release.from, to: span.from + release.to, ...of, stroke: "release" as const }]),
  ]);
  return { strokes, leftOut: between(table, span, strokes) };
}

/** What lies before, between and after the strokes of a stream. */
function between(table: SourceTable, span: RowSpan, strokes: readonly StrokeSpan[]): readonly LeftOut[] {
  const leftOut: LeftOut[] = [];
  const leave = (from: number, to: number, reason: string): void => {
    if (to > from) leftOut.push(leftOutRows(table, { from, to }, reason));
  };
  leave(span.from, strokes[0]!.from, "before the first press");
  strokes.forEach((stroke, i) => {
    const next = strokes[i + 1];
    if (next === undefined) leave(stroke.to, span.to, "after the last stroke");
    else if (stroke.stroke === "press" && next.stroke === "release")
      leave(stroke.to, next.from, "dwell at the deepest point, of neither stroke"); // prettier-ignore
    else leave(stroke.to, next.from, "between two cycles");
  });
  return leftOut;
}

/** Numbers of one value over a stretch of rows, in the unit of measure that strokes are split in; NaN where unread. */
function numbersOf(plan: FieldPlan, values: FieldColumns, span: RowSpan, symbol: "mm" | "cN"): Float64Array {
  if (plan.reading.as !== "measure") throw new TypeError(`${plan.name} is no measured value`);
  const toNumber = converter(symbolOfSuffix.get(plan.reading.unit)!, symbol);
  const { texts } = values.get(plan.name)!;
  return Float64Array.from({ length: span.to - span.from }, (_, i) => {
    const text = texts[span.from + i]!;
    return text === "" ? NaN : toNumber(text);
  });
}
