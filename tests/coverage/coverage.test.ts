import { expect, test } from "vitest";
import { bar, figuresOf, missesOf } from "../../tools/coverage/bar.js";
import { measureUnit } from "../../tools/coverage/measure-unit.js";
import type { RowTotals } from "../../tools/coverage/run-totals.js";
import { totalsOf } from "../../tools/coverage/run-totals.js";
import { simulateRun } from "../../tools/coverage/simulate-run.js";
import { rowNames, targets } from "../../tools/coverage/targets.js";

const units = 160;

/** Four standard deviations of a share of 95 % over the units behind a line, whose keys share the errors of one rig. */
function byChance({ name, all }: RowTotals): number {
  const unitsBehind = name.target === "key" ? all.results / 8 : all.results;
  return 4 * Math.sqrt((0.95 * 0.05) / unitsBehind);
}

const outcomes = await simulateRun({ units, seed: 11, workers: 2 });
const rows = totalsOf(outcomes);

test("each characteristic and target is covered as stated, but for what chance does to so few units", () => {
  expect(rows).toHaveLength(rowNames.length);
  const missed = rows.flatMap((row) =>
    missesOf(row, { covered: byChance }).map(
      (miss) => `${row.name.characteristic}, ${targets[row.name.target]}: ${miss}`,
    ),
  );
  expect(missed).toEqual([]);
});

test("the lines of each target together keep the bar itself", () => {
  for (const target of ["key", "unit", "these", "between", "connection", "others"] as const) {
    const lines = rows.filter(({ name }) => name.target === target);
    const sum = (pick: (row: RowTotals) => number): number => lines.reduce((total, row) => total + pick(row), 0);
    const covered = sum(({ all }) => all.covered) / sum(({ all }) => all.results);
    console.log(`${targets[target]}: ${(100 * covered).toFixed(1)} % of ${sum(({ all }) => all.results)}`);
    expect(covered, target).toBeGreaterThan(bar.leastCovered - 0.01);
    expect(covered, target).toBeLessThan(0.985);
  }
});

test("a wrong plunger speed shows as latencies that are not covered", async () => {
  const broken = totalsOf(await simulateRun({ units: 64, seed: 12, workers: 2, broken: "speed_off" }));
  const latency = broken.find(({ name }) => name.characteristic === "latency" && name.target === "connection")!;
  expect(figuresOf(latency).covered).toBeLessThan(0.85);
});

test("the number of processes changes no outcome", async () => {
  const alone = await simulateRun({ units: 12, seed: 11, workers: 0 });
  expect(alone).toEqual(outcomes.slice(0, 12));
  expect(measureUnit(11, 3, null)).toEqual(outcomes[3]);
});

test("a run without units, with a broken seed or fewer than no processes is refused", async () => {
  await expect(simulateRun({ units: 0, seed: 1, workers: 0 })).rejects.toThrow(/number of units/);
  await expect(simulateRun({ units: 1, seed: 0.5, workers: 0 })).rejects.toThrow(/seed/);
  await expect(simulateRun({ units: 1, seed: 1, workers: -1 })).rejects.toThrow(/workers/);
});
