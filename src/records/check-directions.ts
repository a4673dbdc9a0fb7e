import type { ProblemCollector } from "./problem-collector.js";
import type { StrokeRun } from "./stroke-runs.js";
import { strokeName } from "./stroke-runs.js";
import type { Table } from "./table.js";

/**
 * Checks that presses move down and releases up. A stroke is against its name where it ends less than half of its range
 * further along. Where every stroke of a file is, which a mistake of the export makes and no key, that is one error, and
 * the force tells which: it is least at the top, wherever the tester counts from.
 *
 * @param runs strokes that can be used, in file order
 */
export function checkDirections(table: Table, runs: readonly StrokeRun[], problems: ProblemCollector): void {
  const displacement = table.numbers("displacement_mm");
  const against = runs.filter((run) => {
    const moved = displacement.subarray(run.first, run.last + 1);
    const range = moved.reduce(greatest, -Infinity) - moved.reduce(least, Infinity);
    const down = moved.at(-1)! - moved[0]!;
    return !((run.stroke === "press" ? down : -down) >= range / 2);
  });
  if (against.length === runs.length && hasBoth(runs)) {
    reportAll(table, runs, problems);
    return;
  }
  for (const run of against) {
    const [start, end] = [displacement[run.first]!, displacement[run.last]!];
    problems.add("W_STROKE_DIRECTION", table.place(run.first, "displacement_mm"), {
      found: strokeName(run),
      expected: `it starts at ${start} mm and ends at ${end} mm`,
    });
  }
}

const greatest = (most: number, each: number): number => Math.max(most, each);
const least = (fewest: number, each: number): number => Math.min(fewest, each);

const hasBoth = (runs: readonly StrokeRun[]): boolean =>
  runs.some(({ stroke }) => stroke === "press") && runs.some(({ stroke }) => stroke === "release");

function reportAll(table: Table, runs: readonly StrokeRun[], problems: ProblemCollector): void {
  const force = table.numbers("force_cN");
  const rises = runs.filter((run) => {
    const risen = force[run.last]! - force[run.first]!;
    return run.stroke === "press" ? risen > 0 : risen < 0;
  });
  // Where the force rises along a press, the names are right and the displacement's sign is wrong.
  const isSign = rises.length > runs.length / 2;
  problems.add("E_STROKE_DIRECTIONS", table.headerPlace(isSign ? "displacement_mm" : "stroke"), {
    found: String(runs.length),
    expected: isSign
      ? "the tester counts upwards; export the displacement with the other sign (receive: `reversed: true`)"
      : "press and release are exchanged; exchange the two words in the column `stroke`",
  });
}
