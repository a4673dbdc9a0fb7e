import type { ProblemCollector } from "./problem-collector.js";
import type { StrokeRun } from "./stroke-runs.js";
import { strokeName } from "./stroke-runs.js";
import type { Table } from "./table.js";

/** Fewer rows than this cannot be reduced. */
const fewestRows = 10;

/** Checks one stroke by itself; false where an error keeps it from being used. */
export function checkStroke(table: Table, run: StrokeRun, problems: ProblemCollector): boolean {
  const rows = run.last - run.first + 1;
  const name = strokeName(run);
  if (rows < fewestRows) {
    problems.add("W_STROKE_SHORT", table.place(run.first, "key"), { found: name, expected: rowsText(rows) });
  }
  const moves = checkMotion(table, run, name, problems);
  const varies = checkForce(table, run, name, problems);
  const stated = checkContact(table, run, problems);
  return moves && varies && stated;
}

const rowsText = (rows: number): string => (rows === 1 ? "1 row" : `${rows} rows`);

function rangeOf(values: Float64Array, run: StrokeRun): readonly [lowest: number, highest: number] {
  let [lowest, highest] = [Infinity, -Infinity];
  for (let row = run.first; row <= run.last; row += 1) {
    lowest = Math.min(lowest, values[row]!);
    highest = Math.max(highest, values[row]!);
  }
  return [lowest, highest];
}

function checkMotion(table: Table, run: StrokeRun, name: string, problems: ProblemCollector): boolean {
  const [lowest, highest] = rangeOf(table.numbers("displacement_mm"), run);
  if (highest > lowest) return true;
  const facts = { found: name, expected: `${lowest} mm` };
  problems.add("E_DISPLACEMENT_STILL", table.place(run.first, "displacement_mm"), facts);
  return false;
}

/** A release may be without force; a press may not. */
function checkForce(table: Table, run: StrokeRun, name: string, problems: ProblemCollector): boolean {
  const [lowest, highest] = rangeOf(table.numbers("force_cN"), run);
  if (run.stroke === "release" || highest > lowest) return true;
  const facts = { found: name, expected: `${lowest} cN` };
  problems.add("E_FORCE_FLAT", table.place(run.first, "force_cN"), facts);
  return false;
}

function checkContact(table: Table, run: StrokeRun, problems: ProblemCollector): boolean {
  const contacts = table.texts("contact").slice(run.first, run.last + 1);
  const stated = contacts.filter((contact) => contact !== "").length;
  if (stated === 0 || stated === contacts.length) return true;
  const row = run.first + contacts.indexOf("");
  problems.add("E_CONTACT_PARTIAL", table.place(row, "contact"), {
    found: `${stated} of ${contacts.length}`,
    expected: "0 or 1",
  });
  return false;
}
