import { isKeyCode } from "./key-codes.js";
import type { ProblemCollector } from "./problem-collector.js";
import type { Table } from "./table.js";

/** Consecutive rows of one key, cycle and stroke. */
export interface StrokeRun {
  readonly key: string;
  readonly cycle: number;
  readonly stroke: "press" | "release";
  /** Rows of the table, inclusive. */
  readonly first: number;
  readonly last: number;
  /** Has a problem that keeps it from being used. */
  readonly broken: boolean;
}

/** "KeyF, cycle 2, press": how messages name a stroke. */
export function strokeName(run: Pick<StrokeRun, "key" | "cycle" | "stroke">): string {
  return `${run.key}, cycle ${run.cycle}, ${run.stroke}`;
}

/**
 * Cuts the rows of force.csv into strokes. A row whose key, cycle or stroke cannot be read counts with the rows before it
 * and breaks that run. Rows of one stroke that stand apart, and a second recording under the same numbers, are reported
 * and break both runs.
 */
export function strokeRuns(table: Table, problems: ProblemCollector): readonly StrokeRun[] {
  const runs = cutRuns(table);
  const broken = new Set(runs.filter((run) => run.broken));
  const firstRuns = new Map<string, StrokeRun>();
  for (const run of runs) {
    const name = strokeName(run);
    const earlier = firstRuns.get(name);
    if (earlier === undefined) {
      firstRuns.set(name, run);
      const restart = restartIn(table, run);
      if (restart === undefined) continue;
      broken.add(run);
      reportSecond(table, "E_STROKE_DUPLICATE", restart, run, problems);
    } else {
      broken.add(earlier).add(run);
      const code = startsAnew(table, earlier, run) ? "E_STROKE_DUPLICATE" : "E_STROKE_SPLIT";
      reportSecond(table, code, run.first, earlier, problems);
    }
  }
  return runs.map((run) => (broken.has(run) ? { ...run, broken: true } : run));
}

function reportSecond(
  table: Table,
  code: "E_STROKE_DUPLICATE" | "E_STROKE_SPLIT",
  row: number,
  earlier: StrokeRun,
  problems: ProblemCollector,
): void {
  problems.add(code, table.place(row, "key"), {
    found: strokeName(earlier),
    expected: String(table.firstLine(earlier.first)),
  });
}

function cutRuns(table: Table): readonly StrokeRun[] {
  const [keys, cycles, strokes] = [table.texts("key"), table.numbers("cycle"), table.texts("stroke")];
  const runs: StrokeRun[] = [];
  let open: { -readonly [K in keyof StrokeRun]: StrokeRun[K] } | undefined;
  for (let row = 0; row < table.rows; row += 1) {
    const [key, cycle, stroke] = [keys[row]!, cycles[row]!, strokes[row]!];
    const isNamed = isKeyCode(key) && cycle > 0 && (stroke === "press" || stroke === "release");
    if (isNamed && !(open?.key === key && open.cycle === cycle && open.stroke === stroke)) {
      open = { key, cycle, stroke, first: row, last: row, broken: false };
      runs.push(open);
    }
    if (open === undefined) continue; // rows before the first that says what it is: reported with their cells
    open.last = row;
    if (table.broken[row] === 1) open.broken = true;
  }
  return runs;
}

/** Whether the later run starts where the earlier one started, and not where it ended. */
function startsAnew(table: Table, earlier: StrokeRun, later: StrokeRun): boolean {
  const displacement = table.numbers("displacement_mm");
  const start = displacement[later.first]!;
  const toStart = Math.abs(start - displacement[earlier.first]!);
  return !(toStart > Math.abs(start - displacement[earlier.last]!));
}

/**
 * The row at which a run falls back by more than half its range and stays there: a second recording without a number of
 * its own. Medians of three rows on each side, so that a single wild reading is none. Undefined where there is none.
 */
function restartIn(table: Table, run: StrokeRun): number | undefined {
  const sign = run.stroke === "press" ? 1 : -1;
  const d = table
    .numbers("displacement_mm")
    .subarray(run.first, run.last + 1)
    .map((mm) => mm * sign);
  let [lowest, highest] = [Infinity, -Infinity];
  for (const mm of d) [lowest, highest] = [Math.min(lowest, mm), Math.max(highest, mm)];
  const half = (highest - lowest) / 2;
  if (!(half > 0)) return undefined;
  for (let i = 3; i + 2 < d.length; i += 1) {
    if (d[i - 1]! - d[i]! > half && median3(d, i - 3) - median3(d, i) > half) return run.first + i;
  }
  return undefined;
}

function median3(values: Float64Array, at: number): number {
  const [a, b, c] = [values[at]!, values[at + 1]!, values[at + 2]!];
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}
