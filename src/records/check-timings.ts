import type { ProblemCollector } from "./problem-collector.js";
import { reportDuplicateRows } from "./row-duplicates.js";
import type { Table } from "./table.js";

/** Checks the rows of timings.csv by themselves and against each other; rows with an error are marked as broken. */
export function checkTimings(table: Table, problems: ProblemCollector): void {
  const name = (row: number): string => `press ${table.texts("press")[row]} over ${table.texts("connection")[row]}`;
  reportDuplicateRows(table, ["connection", "press"], "E_PRESS_DUPLICATE", name, problems);
  for (let row = 0; row < table.rows; row += 1) {
    const [start, arrival] = [table.numbers("start_us")[row]!, table.numbers("arrival_us")[row]!];
    if (table.broken[row] === 1 || arrival >= start) continue;
    table.broken[row] = 1;
    problems.add("E_RESPONSE_BEFORE_CONTACT", table.place(row, "arrival_us"), {
      found: `${arrival} µs`,
      expected: `${start} µs`,
    });
  }
}
