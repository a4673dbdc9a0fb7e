import type { Archive, Session } from "./archive.js";
import { checkDirections } from "./check-directions.js";
import { checkStrokeCoverage } from "./check-stroke-coverage.js";
import { checkMagnitudes } from "./check-magnitudes.js";
import { checkStroke } from "./check-stroke.js";
import type { Problem } from "./problem.js";
import type { ReadRowsOptions } from "./problem-collector.js";
import { ProblemCollector } from "./problem-collector.js";
import { readSessionTable } from "./read-session-table.js";
import type { Stroke } from "./readings.js";
import { forceSchema } from "./schemas/force.js";
import { smallestStep } from "./smallest-step.js";
import type { StrokeRun } from "./stroke-runs.js";
import { strokeRuns } from "./stroke-runs.js";
import type { Table } from "./table.js";

export const forceFile = "force.csv";

export interface StrokesReading {
  /** In file order. A stroke with an error of its own is not here: the problems name it. */
  readonly strokes: readonly Stroke[];
  readonly problems: readonly Problem[];
}

/**
 * Reads the rows of a session's force.csv: one stroke for each run of rows of one key, cycle and stroke, in canonical
 * units of measure (mm, cN), and checks them against the session and its method. Cycles excluded by hand are here too;
 * their reasons stand in `session.exclusions`. Where the file is missing, changed since the archive was read, or not a
 * table, there are no strokes and a problem says why. Never throws on what a file holds.
 */
export function readStrokes(archive: Archive, session: Session, options: ReadRowsOptions = {}): StrokesReading {
  const problems = new ProblemCollector(options.problemsPerCode);
  const table = readSessionTable(archive, session, forceFile, forceSchema, problems);
  if (table === undefined) return { strokes: [], problems: problems.list() };
  const runs = strokeRuns(table, problems);
  const sound = runs.filter((run) => !run.broken && checkStroke(table, run, problems));
  const strokes = sound.map((run) => strokeOf(table, run));
  checkDirections(table, sound, problems);
  checkMagnitudes(table, runs, problems);
  if (table.isComplete && table.rows > 0) checkStrokeCoverage(archive, session, table, runs, problems);
  return { strokes, problems: problems.list() };
}

function strokeOf(table: Table, run: StrokeRun): Stroke {
  const displacementMm = table.numbers("displacement_mm").slice(run.first, run.last + 1);
  const forceCn = table.numbers("force_cN").slice(run.first, run.last + 1);
  const contacts = table.texts("contact").slice(run.first, run.last + 1);
  return {
    key: run.key,
    cycle: run.cycle,
    stroke: run.stroke,
    displacementMm,
    forceCn,
    contact: contacts[0] === "" ? null : Uint8Array.from(contacts, (contact) => (contact === "1" ? 1 : 0)),
    displacementStepMm: smallestStep(displacementMm),
    forceStepCn: smallestStep(forceCn),
    evidence: table.evidence(run.first, run.last, ["displacement_mm", "force_cN", "contact"]),
  };
}
