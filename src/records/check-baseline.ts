import type { Archive, Session } from "./archive.js";
import type { ProblemCollector } from "./problem-collector.js";
import { reportDuplicateRows } from "./row-duplicates.js";
import type { Table } from "./table.js";

const parts = ["input_ms", "pc_ms", "display_ms", "total_ms"] as const;

/** Checks the shots of baseline.csv by themselves and against what the method subtracts. */
export function checkBaseline(
  archive: Pick<Archive, "methods">,
  session: Session,
  table: Table,
  problems: ProblemCollector,
): void {
  const name = (row: number): string => `shot ${table.texts("shot")[row]} of block ${table.texts("block")[row]}`;
  reportDuplicateRows(table, ["block", "shot"], "E_BASELINE_DUPLICATE", name, problems);
  for (let row = 0; row < table.rows; row += 1) {
    if (table.broken[row] === 1 || parts.some((part) => !Number.isNaN(table.numbers(part)[row]))) continue;
    table.broken[row] = 1;
    problems.add("E_BASELINE_EMPTY_SHOT", table.place(row, "shot"), { expected: parts.join(", ") });
  }
  const method = archive.methods.get(session.method);
  if (!table.isComplete || table.rows === 0 || method?.kind !== "latency" || method.subtract.length === 0) return;
  for (const part of method.subtract) {
    if (table.numbers(`${part}_ms`).some((ms) => !Number.isNaN(ms))) continue;
    problems.add("E_BASELINE_PART_ABSENT", table.headerPlace(`${part}_ms`), { expected: part });
  }
  const blocks = table.texts("block");
  for (const block of ["before", "after"]) {
    const shots = blocks.filter((each) => each === block).length;
    if (shots === 0) {
      problems.add("W_BASELINE_BLOCK_ABSENT", table.headerPlace("block"), { expected: block });
    } else if (shots < method.baselineShots) {
      const found = `block \`${block}\` has ${shots} ${shots === 1 ? "shot" : "shots"}`;
      const place = table.place(blocks.indexOf(block), "block");
      problems.add("W_BASELINE_SHOTS_FEWER", place, { found, expected: String(method.baselineShots) });
    }
  }
}
