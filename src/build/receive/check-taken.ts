import { checkMagnitudes } from "../../records/check-magnitudes.js";
import { checkPresses } from "../../records/check-presses.js";
import { checkStroke } from "../../records/check-stroke.js";
import { checkTimings } from "../../records/check-timings.js";
import { fieldRanges } from "../../records/csv-quotes.js";
import type { Place, Problem } from "../../records/problem.js";
import { ProblemCollector } from "../../records/problem-collector.js";
import { parseTable } from "../../records/read-table.js";
import { forceSchema } from "../../records/schemas/force.js";
import { pressesSchema } from "../../records/schemas/presses.js";
import { timingsSchema } from "../../records/schemas/timings.js";
import type { SourceText } from "../../records/source-text.js";
import { sourceText, startOf } from "../../records/source-text.js";
import { strokeRuns } from "../../records/stroke-runs.js";
import type { Table } from "../../records/table.js";
import type { ColumnsFile } from "./columns.js";
import { fieldPlan, tables } from "./columns.js";
import type { ReceiptProblems } from "./problem.js";
import type { TakenFile } from "./taken.js";

/** What the archive knows that readings name. */
export interface KnownNames {
  /** Role ids to their wording; empty where lab.yaml cannot be read. */
  readonly roles: Readonly<Record<string, string>>;
  /** Connections of the unit; null where unit.yaml cannot be read. */
  readonly connections: readonly string[] | null;
}

/**
 * Holds the table that is about to be written against every check that its rows have to pass in an archive, since a
 * record is never changed after receipt. Problems are reported at the lines of the files they come from.
 *
 * @param text the table as it will be written, whose rows are those of `files`, one after another
 */
export function checkTaken(
  text: string,
  columns: ColumnsFile,
  files: readonly TakenFile[],
  known: KnownNames,
  problems: ReceiptProblems,
): void {
  const found = new ProblemCollector();
  const source = sourceText(tables[columns.kind].file, text);
  const schema = { force: forceSchema, presses: pressesSchema, timings: timingsSchema }[columns.kind];
  const table = parseTable(source, schema, found);
  if (table !== undefined) checkRows(table, columns, known, found);
  const originOf = origins(files);
  for (const problem of found.list()) {
    const place = placeInSource(source, problem, columns, files, originOf);
    problems.addProblem({ ...problem, ...place, ...withLines(problem, files, originOf), notes: notesOf(problem) });
  }
}

function checkRows(table: Table, columns: ColumnsFile, known: KnownNames, found: ProblemCollector): void {
  if (columns.kind === "force") {
    const runs = strokeRuns(table, found);
    for (const run of runs) if (!run.broken) checkStroke(table, run, found);
    checkMagnitudes(table, runs, found);
    return;
  }
  if (columns.kind === "presses")
    checkPresses({ lab: { roles: known.roles } } as Parameters<typeof checkPresses>[0], table, found); // prettier-ignore
  else checkTimings(table, found);
  const { connections } = known;
  if (connections === null) return;
  const seen = new Set<string>();
  table.texts("connection").forEach((connection, row) => {
    if (connections.includes(connection) || seen.has(connection)) return;
    seen.add(connection);
    found.add("E_CONNECTION_UNKNOWN", table.place(row, "connection"), { found: connection, names: connections });
  });
}

/** Where a row of the table comes from. */
interface Origin {
  readonly file: TakenFile;
  readonly row: number;
}

/** Finds the origin of a line of the table. */
function origins(files: readonly TakenFile[]): (line: number) => Origin | undefined {
  const rows = files.flatMap((file) =>
    file.runs.flatMap((run) => ({ file, from: run.from, length: run.to - run.from })),
  );
  return (line) => {
    let at = line - 2; // the header is line 1
    for (const { file, from, length } of rows) {
      if (at < 0) return undefined;
      if (at < length) return { file, row: from + at };
      at -= length;
    }
    return undefined;
  };
}

/** The place in the source of a place in the table: the cell that the value was read from, else where it is stated. */
function placeInSource(
  source: SourceText,
  { line, column }: Place,
  columns: ColumnsFile,
  files: readonly TakenFile[],
  originOf: (line: number) => Origin | undefined,
): Place {
  const ranges = fieldRanges(source.text, source.lineStarts[line - 1] ?? 0);
  const at = (source.lineStarts[line - 1] ?? 0) + column - 1;
  const index = ranges.findIndex(([start, end]) => at >= start && at <= end);
  const name = tables[columns.kind].fields[index];
  const origin = originOf(line);
  if (origin !== undefined) return origin.file.table.place(origin.row, origin.file.positions[index] ?? 0);
  const position = files[0]!.positions[index] ?? null;
  if (position !== null) return files[0]!.table.headerPlace(position);
  const plan = name === undefined ? undefined : fieldPlan(columns, name);
  return plan?.place ?? startOf(columns.source.file);
}

/** Codes whose `expected` is a line of the table. */
const namesLine = ["E_STROKE_DUPLICATE", "E_STROKE_SPLIT", "E_PRESS_DUPLICATE"];

function withLines(
  problem: Problem,
  files: readonly TakenFile[],
  originOf: (line: number) => Origin | undefined,
): Partial<Pick<Problem, "expected">> {
  const origin = namesLine.includes(problem.code) ? originOf(Number(problem.expected)) : undefined;
  if (origin === undefined) return {};
  const line = String(origin.file.table.firstLine(origin.row));
  return { expected: files.length === 1 ? line : `${line} of ${origin.file.table.name}` };
}

/** Remedies that only a columns file has. */
const remedies: Readonly<Record<string, string>> = {
  E_FORCE_SIGN: "at receipt `reversed: true` under `force` turns the sign",
  W_STROKE_DIRECTION: "at receipt `reversed: true` under `displacement` turns the sign",
  E_FORCE_MAGNITUDE: "at receipt the unit of measure is `unit` under `force`",
  W_FORCE_MAGNITUDE: "at receipt the unit of measure is `unit` under `force`",
  E_DISPLACEMENT_MAGNITUDE: "at receipt the unit of measure is `unit` under `displacement`",
  E_STROKE_DUPLICATE: "at receipt `leave_out` drops a trial with a note",
  E_FORCE_FLAT: "at receipt `leave_out` drops a trial with a note",
  E_DISPLACEMENT_STILL: "at receipt `leave_out` drops a trial with a note",
};

function notesOf({ code, notes }: Problem): readonly string[] {
  const remedy = remedies[code];
  return remedy === undefined ? notes : [...notes, remedy];
}
