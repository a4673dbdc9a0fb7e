import { expect, test } from "vitest";
import { changeSteps, changedConnections, keystrokeChange, latencyChange } from "../../src/comparison/index.js";
import { unitMean } from "../../src/keystroke/index.js";
import type { LatencyReduction } from "../../src/latency/index.js";
import type { Absent } from "../../src/metrology/index.js";
import { own, present, quantity } from "./support.js";
import { syntheticKey, syntheticReduction } from "./synthetic-keys.js";

const names = ["KeyA", "KeyE", "KeyF", "KeyI"];
const now = names.map((name, i) => syntheticKey("u01/s2", name, [44 + i, 44.2 + i, 44.4 + i]));
const before = syntheticReduction("u01/s1", [
  syntheticKey("u01/s1", "KeyF", [46, 46.2, 46.1, 45.9, 46.3], { id: "rig/t1/old-zero", u: 0.2 }),
]);
const beforeAnew = syntheticReduction("u01/s1", [
  syntheticKey("u01/s1", "KeyF", [46.1, 46.2, 46.1, 45.9, 46.3], { id: "rig/t1/old-zero", u: 0.2 }),
]);
const after = syntheticReduction("u01/s2", now);
const sides = { before, beforeAnew, after, alphabeticKeys: 26 };

test("the steps lead from one key's old value over the same key anew to the mean of all keys", () => {
  const inputs = keystrokeChange(sides, "actuationForce");
  const { reduction, retest, keys, total } = changeSteps(inputs);
  expect(present(inputs.published).value).toBeCloseTo(46.1, 10);
  expect(present(reduction).value).toBeCloseTo(0.02, 10);
  expect(present(retest).value).toBeCloseTo(46.2 - 46.12, 10);
  expect(present(keys).value).toBeCloseTo(45.7 - 46.2, 10);
  expect(present(total).value).toBeCloseTo(45.7 - 46.1, 10);
});

test("the new published value is the unit's mean, to the uncertainty of the scatter of its cycles", () => {
  const { mean } = unitMean(now, (key) => key.actuationForce, { alphabeticKeys: 26 });
  const { publishedAnew } = keystrokeChange(sides, "actuationForce");
  expect(present(publishedAnew).value).toBe(present(mean).value);
  expect(present(publishedAnew).u / present(mean).u).toBeCloseTo(1, 1);
});

test("a key and the mean that it is part of share its scatter: u² of their difference is σ²/c (1 - 1/n) without the rig", () => {
  const all = keystrokeChange({ ...sides, alphabeticKeys: 4 }, "actuationForce");
  const { keys } = changeSteps(all);
  const scatter = 0.2 / Math.sqrt(3);
  const n = names.length;
  expect(present(keys).u).toBeCloseTo(scatter * Math.sqrt((1 - 1 / n) ** 2 + (n - 1) / n ** 2), 10);
  expect(present(keys).u).toBeCloseTo(scatter * Math.sqrt(1 - 1 / n), 10);
});

test("with several old keys, all of them are followed, and the old value is the mean of its unit", () => {
  const oldKeys = ["KeyE", "KeyF"].map((name, i) => syntheticKey("u01/s1", name, [45 + i, 45.2 + i]));
  const old = syntheticReduction("u01/s1", oldKeys);
  const inputs = keystrokeChange({ ...sides, before: old, beforeAnew: old }, "actuationForce");
  expect(present(inputs.published).components.some(({ source }) => source.id.endsWith("keys-not-measured"))).toBe(true);
  expect(present(inputs.sameKeysAgain).value).toBeCloseTo((45.2 + 46.2) / 2, 10);
  const { reduction } = changeSteps(inputs);
  expect(present(reduction).value).toBeCloseTo(0, 10);
});

test("a missing session, a lost key and a missing characteristic are absences with their reasons", () => {
  const reason = (measured: { absent: boolean; reason?: string }): string | undefined => measured.reason;
  expect(reason(keystrokeChange({ ...sides, after: null }, "actuationForce").publishedAnew as Absent)).toBe(
    "not measured by the new method",
  );
  expect(
    reason(keystrokeChange({ ...sides, before: null, beforeAnew: null }, "actuationForce").published as Absent),
  ).toBe("not measured by the old method");
  const without = syntheticReduction(
    "u01/s2",
    now.filter(({ key }) => key !== "KeyF"),
  );
  expect(reason(keystrokeChange({ ...sides, after: without }, "actuationForce").sameKeysAgain as Absent)).toBe(
    "the new session has no value of KeyF",
  );
  expect(reason(keystrokeChange(sides, "operatingForce").published as Absent)).toBe("not simulated");
});

function latency(all: number, kept: number): LatencyReduction {
  const connection = {
    connection: "usb",
    latency: own("all", all, 0.4, { symbol: "ms" }),
    latencyKept: quantity(kept, [], "ms"),
  };
  return {
    kind: "latency",
    unit: "u01",
    session: "s3",
    method: "",
    connections: [connection],
    baseline: null,
    contents: [],
    warnings: [],
  } as unknown as LatencyReduction;
}

test("a change from the mean of all presses to that of the fastest is a step of the reduction", () => {
  const given = {
    before: latency(9, 8),
    beforeAnew: latency(9, 8),
    after: latency(9.5, 8.4),
    compares: ["all", "kept"] as const,
  };
  const { reduction, retest, keys } = changeSteps(latencyChange(given, "usb"));
  expect(present(reduction).value).toBeCloseTo(-1, 12);
  expect(present(retest).value).toBeCloseTo(0.4, 12);
  expect(present(keys).value).toBe(0);
  expect(changedConnections(given)).toEqual(["usb"]);
  expect(latencyChange(given, "receiver").published.absent).toBe(true);
});
