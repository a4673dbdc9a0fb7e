import type { Archive, KeystrokeMethod, Session, StrokeExclusion } from "./archive.js";
import type { Place } from "./problem.js";
import { ProblemCollector } from "./problem-collector.js";
import { readSource, sizeLimits } from "./read-source.js";
import { lineText, startOf } from "./source-text.js";
import type { StrokeRun } from "./stroke-runs.js";
import type { Table } from "./table.js";

/** Checks the strokes of a file against what the session states and its method asks for. */
export function checkStrokeCoverage(
  archive: Pick<Archive, "root" | "methods">,
  session: Session,
  table: Table,
  runs: readonly StrokeRun[],
  problems: ProblemCollector,
): void {
  const method = archive.methods.get(session.method);
  checkContactSource(session, table, problems);
  checkPairs(table, runs, problems);
  checkExclusions(archive.root, session, runs, problems);
  if (method?.kind === "keystroke") checkMethod(session, method, table, runs, problems);
}

function checkContactSource(session: Session, table: Table, problems: ProblemCollector): void {
  const stated = table.texts("contact").findIndex((contact) => contact === "0" || contact === "1");
  if (stated === -1 && session.contactSource !== "none" && table.rows > 0) {
    problems.add("W_CONTACT_MISSING", table.headerPlace("contact"), { found: session.contactSource });
  }
  if (stated !== -1 && session.contactSource === "none") {
    problems.add("W_CONTACT_UNDECLARED", table.place(stated, "contact"));
  }
}

/** Every cycle has both strokes. */
function checkPairs(table: Table, runs: readonly StrokeRun[], problems: ProblemCollector): void {
  const pairs = new Map<string, StrokeRun[]>();
  for (const run of runs) {
    const name = `${run.key}, cycle ${run.cycle}`;
    pairs.set(name, [...(pairs.get(name) ?? []), run]);
  }
  for (const [name, pair] of pairs) {
    const absent = (["press", "release"] as const).find((stroke) => !pair.some((run) => run.stroke === stroke));
    if (absent === undefined) continue;
    problems.add("W_STROKE_ABSENT", table.place(pair[0]!.first, "key"), { found: name, expected: absent });
  }
}

const excludes = (run: StrokeRun) => (exclusion: StrokeExclusion) =>
  exclusion.key === run.key && exclusion.cycle === run.cycle;

function checkExclusions(root: string, session: Session, runs: readonly StrokeRun[], problems: ProblemCollector): void {
  for (const exclusion of session.exclusions) {
    if (runs.some((run) => excludes(run)(exclusion))) continue;
    const cycles = [...new Set(runs.filter((run) => run.key === exclusion.key).map((run) => run.cycle))];
    const keys = [...new Set(runs.map((run) => run.key))];
    problems.add("E_EXCLUSION_NO_ROWS", placeOfExclusion(root, session, exclusion), {
      found: `${exclusion.key}, cycle ${exclusion.cycle},`,
      expected: cycles.length > 0 ? `cycles ${cycles.join(", ")} of ${exclusion.key}` : keys.join(", ") || "no keys",
    });
  }
}

/** The exclusion's key in session.yaml; the description was read before, so this place is all that is needed of it. */
function placeOfExclusion(root: string, session: Session, exclusion: StrokeExclusion): Place {
  const line = exclusion.evidence.firstLine;
  const source = readSource(root, session.file, sizeLimits.yamlBytes, new ProblemCollector());
  if (source === undefined) return startOf(session.file);
  const column = Math.max(0, lineText(source, line).indexOf(exclusion.key)) + 1;
  return { file: session.file, line, column, length: exclusion.key.length };
}

function checkMethod(
  session: Session,
  method: KeystrokeMethod,
  table: Table,
  runs: readonly StrokeRun[],
  problems: ProblemCollector,
): void {
  const measured = [...new Set(runs.map((run) => run.key))];
  const missing = method.keys.filter((key) => !measured.includes(key));
  if (missing.length > 0) {
    const facts = { found: missing.join(", "), expected: count(method.keys.length, "key") };
    problems.add("W_KEYS_FEWER", table.headerPlace("key"), facts);
  }
  for (const key of measured) {
    const ofKey = runs.filter((run) => run.key === key);
    const place = table.place(ofKey[0]!.first, "key");
    const cycles = new Set(ofKey.map((run) => run.cycle)).size;
    if (!method.keys.includes(key)) {
      problems.add("W_KEY_EXTRA", place, { found: key, expected: method.keys.join(", ") });
    } else if (cycles < method.cycles) {
      const found = `${count(cycles, "cycle")} of ${key}`;
      problems.add("W_CYCLES_FEWER", place, { found, expected: String(method.cycles) });
    }
  }
  const isUsed = (run: StrokeRun): boolean =>
    run.stroke === "press" &&
    !run.broken &&
    method.cyclesUsed.includes(run.cycle) &&
    !session.exclusions.some(excludes(run));
  const usable = method.keys.filter((key) => runs.some((run) => run.key === key && isUsed(run)));
  if (usable.length < method.minKeys) {
    const facts = { found: String(usable.length), expected: String(method.minKeys) };
    problems.add("W_KEYS_BELOW_MINIMUM", table.headerPlace("key"), facts);
  }
}

/** "1 key", "2 keys". */
function count(n: number, noun: string): string {
  return `${n} ${noun}${n === 1 ? "" : "s"}`;
}
