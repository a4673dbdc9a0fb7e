import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { checkArchive } from "../../src/records/index.js";
import { effectSizes } from "../../tools/simulation/effect-sizes.js";
import { renderArchive, writeArchive } from "../../tools/simulation/render-archive.js";
import type { PlantedEffect } from "../../tools/simulation/planted-effects.js";
import { plantedPlaces } from "../../tools/simulation/planted-effects.js";
import type { SimulateArchiveOptions } from "../../tools/simulation/small-archive.js";
import { simulateArchive, smallArchivePlan } from "../../tools/simulation/small-archive.js";

const small = { retested: 4, stepMm: 0.05, truths: true } as const;
const truths = (planted: readonly PlantedEffect[], more: SimulateArchiveOptions = {}) =>
  simulateArchive(2, { ...small, planted, ...more }).truth;
const force = (t: ReturnType<typeof truths>, session: string, key: string): number =>
  t.keystroke[session]!.keys[key]!.values.actuationForce!;
const preTravel = (t: ReturnType<typeof truths>, session: string, key: string): number =>
  t.keystroke[session]!.keys[key]!.values.preTravel!;
const nothing = truths([]);

test("one seed gives the same files twice, byte for byte", () => {
  const a = simulateArchive(2, { retested: 2 });
  const b = simulateArchive(2, { retested: 2 });
  expect([...a.files]).toEqual([...b.files]);
  expect([...simulateArchive(3, { retested: 2 }).files]).not.toEqual([...a.files]);
});

test("the archive passes the check without a problem, whatever is planted", () => {
  const folder = mkdtempSync(join(tmpdir(), "small-archive-"));
  const planted = Object.keys(plantedPlaces) as PlantedEffect[];
  for (const options of [{}, { planted }]) {
    writeArchive(simulateArchive(5, { ...small, ...options, stepMm: 0.02, truths: false }).files, folder);
    expect(checkArchive(folder).problems).toEqual([]);
  }
  rmSync(folder, { recursive: true });
});

test("with nothing planted a unit differs between its sessions by no more than the mounting", () => {
  for (const unit of ["u01", "u02", "u03", "u04"]) {
    const change = force(nothing, `${unit}/s2`, "KeyF") - force(nothing, `${unit}/s1`, "KeyF");
    expect(Math.abs(change)).toBeLessThan(5 * 0.12 * Math.SQRT2);
  }
});

test("each planted effect has its stated size, where it is said to be, and nowhere else", () => {
  const off = (t: ReturnType<typeof truths>, session: string, key: string): number =>
    force(t, session, key) - force(nothing, session, key);
  const moved = truths(["moved_force"]);
  expect(off(moved, "u03/s2", "KeyF")).toBeCloseTo(effectSizes.movedForceCn, 2);
  expect(off(moved, "u03/s1", "KeyF")).toBe(0);
  expect(off(moved, "u02/s2", "KeyF")).toBe(0);
  const late = truths(["moved_pre_travel"]);
  expect(preTravel(late, "u04/s2", "KeyF") - preTravel(nothing, "u04/s2", "KeyF")).toBeCloseTo(
    effectSizes.movedPreTravelMm,
    2,
  );
  const outlier = truths(["outlier_key"]);
  expect(off(outlier, "u02/s2", "KeyP")).toBeCloseTo(effectSizes.outlierKeyCn, 1);
  expect(off(outlier, "u02/s2", "KeyF")).toBe(0);
  const position = truths(["position_effect"]);
  expect(off(position, "u01/s2", "KeyZ")).toBeCloseTo(effectSizes.positionCn, 2);
  expect(off(position, "u01/s2", "KeyF")).toBe(0);
  const first = truths(["first_cycle"]);
  expect(off(first, "u01/s2", "KeyF")).toBeCloseTo((effectSizes.firstCycleCn * (1 + 0.5 + 0.25)) / 3, 2);
  const bigger = truths(["moved_force"], { sizes: { movedForceCn: -8 } as never });
  expect(off(bigger, "u03/s2", "KeyF")).toBeCloseTo(-8, 2);
});

test("a planted drift shows in the tester's checks from its date on, by its share of the force", () => {
  const checks = (planted: readonly PlantedEffect[]) =>
    smallArchivePlan(2, { planted }).rigs[0]!.checks.filter((c) => c.characteristic === "actuation_force");
  const before = checks([]);
  const after = checks(["rig_drift"]);
  after.forEach((check, i) => {
    const expected = check.date >= plantedPlaces.rig_drift.from ? 44 * effectSizes.spanRatio : 0;
    expect(check.value - before[i]!.value).toBeCloseTo(expected, 9);
  });
});

test("planted offsets of operators and readers stand in their studies alone", () => {
  const mean = (planted: readonly PlantedEffect[], study: number, of: Readonly<Record<string, string>>): number => {
    const rows = smallArchivePlan(2, { planted }).studies[study]!.readings.filter((r) =>
      Object.entries(of).every(([name, value]) => r[name as "operator"] === value),
    );
    return rows.reduce((a, r) => a + r.value, 0) / rows.length;
  };
  const operator = { operator: "operator-3", characteristic: "actuation_force" };
  expect(mean(["operator_offset"], 1, operator) - mean([], 1, operator)).toBeCloseTo(effectSizes.operatorCn, 9);
  expect(mean(["operator_offset"], 1, { operator: "operator-1" })).toBe(mean([], 1, { operator: "operator-1" }));
  const reader = { reader: "reader-b" };
  expect(mean(["reader_offset"], 2, reader) - mean([], 2, reader)).toBeCloseTo(0.25 * (1000 / 960), 0);
});

test("the crossed study is balanced, and known delays come with their reference", () => {
  const [candidates, crossed] = smallArchivePlan(2).studies;
  const cells = new Map<string, number>();
  for (const r of crossed!.readings) {
    const cell = [r.characteristic, r.operator, r.unit, r.day, r.mount].join("|");
    cells.set(cell, (cells.get(cell) ?? 0) + 1);
  }
  expect(cells.size).toBe(2 * 3 * 5 * 2 * 3);
  expect(new Set(cells.values())).toEqual(new Set([2]));
  const known = candidates!.readings.filter((r) => r.method === "reference");
  expect(known.map((r) => r.value)).toEqual([5, 10, 20, 40]);
  for (const { mount } of known) {
    expect(new Set(candidates!.readings.filter((r) => r.mount === mount).map((r) => r.method)).size).toBe(5);
  }
});

test("files are the same with and without truths", () => {
  const plan = smallArchivePlan(4, { retested: 2 });
  const with_ = renderArchive(plan, { truthDraws: 500 });
  expect([...renderArchive(plan, { truths: false }).files]).toEqual([...with_.files]);
  expect(Object.keys(with_.truth.keystroke)).toContain("u01/s2");
});
