import type { ProblemCode } from "./problem.js";
import type { ProblemCollector } from "./problem-collector.js";
import type { Table } from "./table.js";

/**
 * Reports every row whose columns `names` repeat those of an earlier row, and marks the later one as broken unless
 * it is to be kept. Whole numbers are compared as numbers. Rows that are broken already are left out.
 *
 * @param describe what the repeated thing is called in the message
 */
export function reportDuplicateRows(
  table: Table,
  names: readonly string[],
  code: ProblemCode,
  describe: (row: number) => string,
  problems: ProblemCollector,
  later: "break" | "keep" = "break",
): void {
  const columns = names.map((name) => (table.numbers(name).length > 0 ? table.numbers(name) : table.texts(name)));
  const firstRows = new Map<string, number>();
  for (let row = 0; row < table.rows; row += 1) {
    if (table.broken[row] === 1) continue;
    const id = JSON.stringify(columns.map((column) => column[row]));
    const first = firstRows.get(id);
    if (first === undefined) {
      firstRows.set(id, row);
    } else {
      if (later === "break") table.broken[row] = 1;
      problems.add(code, table.place(row, names.at(-1)!), {
        found: describe(row),
        expected: String(table.firstLine(first)),
      });
    }
  }
}
