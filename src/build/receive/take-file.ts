import type { SourceText } from "../../records/source-text.js";
import { startOf } from "../../records/source-text.js";
import type { ColumnsFile, FieldPlan } from "./columns.js";
import type { CycleCounter } from "./count-cycles.js";
import { cycleCounter } from "./count-cycles.js";
import type { ColumnFinder } from "./find-columns.js";
import { checkHeaderUnits, checkUnlisted, columnFinder, picksOf } from "./find-columns.js";
import { reasonsByHand } from "./leave-out-lines.js";
import type { ReceiptProblems } from "./problem.js";
import type { FieldColumn } from "./read-field.js";
import { readField } from "./read-field.js";
import { checkLengths, readSourceTable } from "./read-source-table.js";
import type { SourceTable } from "./source-table.js";
import { takeForce } from "./take-force.js";
import type { PressCounter } from "./take-readings.js";
import { takeReadings } from "./take-readings.js";
import type { TakenFile } from "./taken.js";

/** What goes on from file to file of one receipt. */
export interface Counters {
  readonly cycles: CycleCounter;
  readonly presses: PressCounter;
}

export function newCounters(): Counters {
  return { cycles: cycleCounter(), presses: new Map() };
}

/** Takes one file as the columns file says; undefined, with problems, where that cannot be done. */
export function takeFile(
  source: SourceText,
  columns: ColumnsFile,
  counters: Counters,
  problems: ReceiptProblems,
): TakenFile | undefined {
  const whole = readSourceTable(source, columns.layout, problems);
  if (whole === undefined) return undefined;
  const byHand = whole.without(reasonsByHand(whole, columns.leaveOut, problems));
  const finder = columnFinder(whole, columns, problems);
  const used = new Map(picksOf(columns).map((pick) => [pick, finder.positionOf(pick)]));
  checkUnlisted(whole, columns, new Set([...used.values()].filter((each) => each !== undefined)), problems);
  if ([...used.values()].includes(undefined)) return undefined;
  checkHeaderUnits(whole, columns, problems);
  // Each column was looked for above, so that what is missing is reported once.
  const known: ColumnFinder = { positionOf: (pick) => used.get(pick) };
  const table = byHand.without(rowsOfNoValue(byHand, columns, known));
  if (table.length === 0) {
    problems.add("E_NOTHING_TAKEN", startOf(source.file));
    return undefined;
  }
  checkLengths(table, problems);
  const values = readFields(table, columns, known, problems);
  if (values === undefined) return undefined;
  return columns.kind === "force"
    ? takeForce(table, columns, values, counters.cycles, problems)
    : takeReadings(table, columns, values, counters.presses);
}

/** Rows whose stroke or outcome is a word that the columns file leaves out. */
function rowsOfNoValue(
  table: SourceTable,
  { fields }: ColumnsFile,
  { positionOf }: ColumnFinder,
): (row: number) => string | undefined {
  const choices = fields.flatMap(({ name, value, reading }) => {
    const position = value.from === "column" ? positionOf(value.column) : undefined;
    return reading.as === "choice" && position !== undefined ? [{ name, words: reading.words, position }] : [];
  });
  return (row) => {
    const out = choices.find(({ words, position }) => words.get(table.cell(row, position)) === null);
    return out && `the ${out.name} is \`${table.cell(row, out.position)}\``;
  };
}

function readFields(
  table: SourceTable,
  columns: ColumnsFile,
  finder: ColumnFinder,
  problems: ReceiptProblems,
): ReadonlyMap<string, FieldColumn> | undefined {
  const standsInFile = ({ value }: FieldPlan): boolean => value.from !== "order" && value.from !== "stream";
  const values = new Map<string, FieldColumn>();
  const plans = columns.fields.filter(standsInFile);
  for (const plan of plans) {
    const read = readField(table, plan, columns.layout, finder, problems);
    if (read !== undefined) values.set(plan.name, read);
  }
  return values.size === plans.length ? values : undefined;
}
