import { convert, symbolOfSuffix } from "../metrology/units.js";
import type { ProblemCode } from "./problem.js";
import type { ProblemCollector } from "./problem-collector.js";
import { forceSchema } from "./schemas/force.js";
import type { StrokeRun } from "./stroke-runs.js";
import type { Table } from "./table.js";

/**
 * Force half-way down, in cN. Ergonomic sources put the force of a key between 25 and 150 cN (NUREG-0700 Rev. 3,
 * ISO 9241-410:2008 Annex B). Beyond `unusual` the page should say so; beyond `impossible` a factor of ten is wrong.
 */
const force = { unusual: [8, 200], impossible: [3, 300], plausible: [15, 180] } as const;

/** Length of a press in mm, approach included: keys travel 1 to 6 mm. */
const displacement = { impossible: [0.3, 50], plausible: [0.8, 30] } as const;

/**
 * Checks over all presses of a file whether the forces and displacements can be those of a key in the unit of measure
 * that the column's name states; the median over presses, so that one odd press decides nothing.
 */
export function checkMagnitudes(table: Table, runs: readonly StrokeRun[], problems: ProblemCollector): void {
  const presses = runs.filter((run) => run.stroke === "press" && !run.broken);
  const lengths = presses.map((run) => lengthMm(table, run)).filter((mm) => mm > 0);
  const forces = presses.map((run) => halfwayForceCn(table, run)).filter((cN) => !Number.isNaN(cN));
  if (lengths.length > 0) checkDisplacement(table, median(lengths), problems);
  if (forces.length > 0) checkForce(table, median(forces), problems);
}

const inside = (value: number, [low, high]: readonly [number, number]): boolean => value >= low && value <= high;

function checkDisplacement(table: Table, mm: number, problems: ProblemCollector): void {
  if (inside(mm, displacement.impossible)) return;
  report(table, "E_DISPLACEMENT_MAGNITUDE", "displacement_mm", mm, displacement.plausible, problems);
}

function checkForce(table: Table, cN: number, problems: ProblemCollector): void {
  if (inside(cN, force.unusual)) return;
  if (cN < 0 && !inside(Math.abs(cN), [0, 1])) {
    const place = table.headerPlace("force_cN");
    problems.add("E_FORCE_SIGN", place, { found: `${rounded(cN)} cN`, expected: "above 0" });
    return;
  }
  const code = inside(cN, force.impossible) ? "W_FORCE_MAGNITUDE" : "E_FORCE_MAGNITUDE";
  report(table, code, "force_cN", cN, force.plausible, problems);
}

/** Names the units of measure under which the same digits would be those of a key. */
function report(
  table: Table,
  code: ProblemCode,
  name: "displacement_mm" | "force_cN",
  value: number,
  plausible: readonly [number, number],
  problems: ProblemCollector,
): void {
  const { stem, symbol, suffixes } = forceSchema.fields.find((field) => field.name === name)!.measure!;
  const header = table.header(name);
  const labelled = symbolOfSuffix.get(header.slice(stem.length + 1))!;
  const raw = convert(value, symbol, labelled);
  const candidates = suffixes
    .map((suffix) => ({ suffix, value: convert(raw, symbolOfSuffix.get(suffix)!, symbol) }))
    .filter((candidate) => inside(candidate.value, plausible));
  const would = candidates.map((each) => `\`${stem}_${each.suffix}\` (it would be ${rounded(each.value)} ${symbol})`);
  const expected =
    would.length === 0
      ? `check the export: no unit of measure makes these digits those of a key (the column is \`${header}\`); are displacement and force exchanged?`
      : `was the tester set to another unit of measure? The column is \`${header}\`; its digits fit ${would.join(" or ")}`;
  problems.add(code, table.headerPlace(name), { found: `${rounded(value)} ${symbol}`, expected });
}

const rounded = (value: number): number => Number(value.toPrecision(3));

function lengthMm(table: Table, run: StrokeRun): number {
  const mm = table.numbers("displacement_mm").subarray(run.first, run.last + 1);
  return (
    mm.reduce((most, each) => Math.max(most, each), -Infinity) -
    mm.reduce((least, each) => Math.min(least, each), Infinity)
  );
}

/**
 * The force half-way between touch (the first force of at least 2 % of the largest) and the deepest point, so that neither
 * the approach through air nor the end stop decides. NaN where the force is 0 throughout.
 */
function halfwayForceCn(table: Table, run: StrokeRun): number {
  const mm = table.numbers("displacement_mm").subarray(run.first, run.last + 1);
  const cN = table.numbers("force_cN").subarray(run.first, run.last + 1);
  const largest = cN.reduce((most, each) => Math.max(most, Math.abs(each)), 0);
  if (!(largest > 0)) return NaN;
  const touch = cN.findIndex((each) => Math.abs(each) >= 0.02 * largest);
  const deepest = mm.reduce((most, each) => Math.max(most, each), -Infinity);
  const halfway = (mm[touch]! + deepest) / 2;
  const at = mm.findIndex((each, i) => i >= touch && each >= halfway);
  return cN[at] ?? NaN;
}

/** The middle value, the lower of the two middle ones for an even number. */
function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor((values.length - 1) / 2)]!;
}
