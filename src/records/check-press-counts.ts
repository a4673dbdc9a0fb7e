import type { Archive, Session } from "./archive.js";
import type { ProblemCollector } from "./problem-collector.js";
import type { Table } from "./table.js";

/**
 * Checks the number of presses of each connection against the method. A press counts once however many read it, and is
 * valid where at least one row of it is valid and not excluded.
 */
export function checkPressCounts(
  archive: Pick<Archive, "methods">,
  session: Session,
  table: Table,
  isValid: (row: number) => boolean,
  problems: ProblemCollector,
): void {
  const method = archive.methods.get(session.method);
  if (method?.kind !== "latency") return;
  const [connections, presses] = [table.texts("connection"), table.numbers("press")];
  const excluded = table.texts("excluded");
  for (const connection of new Set(connections.filter((each) => each !== ""))) {
    const rows = [...connections.keys()].filter((row) => connections[row] === connection && presses[row]! > 0);
    const all = new Set(rows.map((row) => presses[row]));
    const valid = new Set(
      rows.filter((row) => table.broken[row] === 0 && excluded[row] === "" && isValid(row)).map((row) => presses[row]),
    );
    const place = table.place(connections.indexOf(connection), "connection");
    if (valid.size < method.minPresses) {
      const found = `${connection} has ${count(valid.size, "valid press")}`;
      problems.add("W_PRESSES_BELOW_MINIMUM", place, { found, expected: String(method.minPresses) });
    } else if (all.size < method.presses) {
      const found = `${connection} has ${count(all.size, "press")}`;
      problems.add("W_PRESSES_FEWER", place, { found, expected: String(method.presses) });
    }
  }
}

/** "1 press", "2 presses". */
function count(n: number, noun: string): string {
  return `${n} ${noun}${n === 1 ? "" : "es"}`;
}
