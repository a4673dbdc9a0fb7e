import type { Archive, Session } from "./archive.js";
import { checkBaseline } from "./check-baseline.js";
import { checkConnections } from "./check-connections.js";
import { checkFilms, checkPressClips } from "./check-films.js";
import { checkPressCounts } from "./check-press-counts.js";
import { checkPresses } from "./check-presses.js";
import { checkTimings } from "./check-timings.js";
import type { Problem } from "./problem.js";
import type { ReadRowsOptions } from "./problem-collector.js";
import { ProblemCollector } from "./problem-collector.js";
import { readSessionTable } from "./read-session-table.js";
import type { BaselineShot, Film, LatencyReadings, PressReading, Timing } from "./readings.js";
import { baselineSchema } from "./schemas/baseline.js";
import { filmsSchema } from "./schemas/films.js";
import { pressesSchema } from "./schemas/presses.js";
import { timingsSchema } from "./schemas/timings.js";
import type { TableSchema } from "./schemas/table-schema.js";
import type { Table } from "./table.js";

export interface LatencyReading {
  /** Each list in file order; rows with an error of their own are not in it: the problems name them. */
  readonly readings: LatencyReadings;
  readonly problems: readonly Problem[];
}

/**
 * Reads presses.csv, films.csv, baseline.csv and timings.csv of a session, those of them that are there, in canonical
 * units of measure, and checks them against each other, the session, the unit and the method. Readings excluded by hand
 * are in the lists with their reason. Never throws on what a file holds.
 */
export function readLatency(archive: Archive, session: Session, options: ReadRowsOptions = {}): LatencyReading {
  const problems = new ProblemCollector(options.problemsPerCode);
  const read = (name: string, schema: TableSchema): Table | undefined =>
    session.files.includes(name) ? readSessionTable(archive, session, name, schema, problems) : undefined;
  const [presses, films] = [read("presses.csv", pressesSchema), read("films.csv", filmsSchema)];
  const [baseline, timings] = [read("baseline.csv", baselineSchema), read("timings.csv", timingsSchema)];
  if (films !== undefined) checkFilms(archive, session, films, problems);
  if (presses !== undefined) {
    checkPresses(archive, presses, problems);
    checkCounts(archive, session, presses, (row) => presses.texts("outcome")[row] === "ok", problems);
    if (films?.isComplete === true) checkPressClips(presses, films, problems);
  }
  if (baseline !== undefined) checkBaseline(archive, session, baseline, problems);
  if (timings !== undefined) {
    checkTimings(timings, problems);
    checkCounts(archive, session, timings, () => true, problems);
  }
  const readings: LatencyReadings = {
    presses: rowsOf(presses, pressOf),
    films: rowsOf(films, filmOf),
    baseline: rowsOf(baseline, shotOf),
    timings: rowsOf(timings, timingOf),
  };
  return { readings, problems: problems.list() };
}

function checkCounts(
  archive: Archive,
  session: Session,
  table: Table,
  isValid: (row: number) => boolean,
  problems: ProblemCollector,
): void {
  if (!table.isComplete || table.rows === 0) return;
  checkConnections(archive, session, table, problems);
  checkPressCounts(archive, session, table, isValid, problems);
}

function rowsOf<T>(table: Table | undefined, rowOf: (table: Table, row: number) => T): readonly T[] {
  if (table === undefined) return [];
  const rows = Array.from({ length: table.rows }, (_, row) => row).filter((row) => table.broken[row] === 0);
  return rows.map((row) => rowOf(table, row));
}

/** A number, or null where its cell is empty. */
function orNull(number: number | undefined): number | null {
  return number === undefined || Number.isNaN(number) ? null : number;
}

function pressOf(table: Table, row: number): PressReading {
  return {
    connection: table.texts("connection")[row]!,
    key: table.texts("key")[row]!,
    clip: table.texts("clip")[row]!,
    press: table.numbers("press")[row]!,
    reader: table.texts("reader")[row]!,
    contactFrame: orNull(table.numbers("contact_frame")[row]),
    markFrame: orNull(table.numbers("mark_frame")[row]),
    responseFrame: orNull(table.numbers("response_frame")[row]),
    outcome: table.texts("outcome")[row] as PressReading["outcome"],
    excluded: table.texts("excluded")[row]!,
    evidence: table.evidence(row, row, ["contact_frame", "mark_frame", "response_frame", "outcome", "excluded"]),
  };
}

function filmOf(table: Table, row: number): Film {
  return {
    clip: table.texts("clip")[row]!,
    file: table.texts("file")[row]!,
    sha256: table.texts("sha256")[row]!,
    frameRateHz: table.numbers("frame_rate_hz")[row]!,
    firstPress: table.numbers("first_press")[row]!,
    lastPress: table.numbers("last_press")[row]!,
    evidence: table.evidence(row, row, ["frame_rate_hz", "first_press", "last_press"]),
  };
}

function shotOf(table: Table, row: number): BaselineShot {
  return {
    block: table.texts("block")[row]!,
    shot: table.numbers("shot")[row]!,
    inputMs: orNull(table.numbers("input_ms")[row]),
    pcMs: orNull(table.numbers("pc_ms")[row]),
    displayMs: orNull(table.numbers("display_ms")[row]),
    totalMs: orNull(table.numbers("total_ms")[row]),
    detector: table.texts("detector")[row]!,
    evidence: table.evidence(row, row, ["input_ms", "pc_ms", "display_ms", "total_ms"]),
  };
}

function timingOf(table: Table, row: number): Timing {
  return {
    connection: table.texts("connection")[row]!,
    press: table.numbers("press")[row]!,
    startUs: table.numbers("start_us")[row]!,
    arrivalUs: table.numbers("arrival_us")[row]!,
    excluded: table.texts("excluded")[row]!,
    evidence: table.evidence(row, row, ["start_us", "arrival_us", "excluded"]),
  };
}
