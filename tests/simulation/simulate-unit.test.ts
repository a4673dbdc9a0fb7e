import { expect, test } from "vitest";
import { describedRig } from "../../tools/simulation/described.js";
import { keyPositions } from "../../tools/simulation/key-positions.js";
import { baseShapes } from "../../tools/simulation/key-shape.js";
import { cameraRaw, testerRaw } from "../../tools/simulation/lab-objects.js";
import { randomFor } from "../../tools/simulation/random.js";
import { drawCameraErrors, drawTesterErrors } from "../../tools/simulation/rig-errors.js";
import { simulateUnit } from "../../tools/simulation/simulate-unit.js";
import { drawUnit, keyTolerances } from "../../tools/simulation/unit-truth.js";

const spread = (values: readonly number[]): { readonly mean: number; readonly sd: number } => {
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  return { mean, sd: Math.sqrt(values.reduce((a, b) => a + (b - mean) ** 2, 0) / (values.length - 1)) };
};

test("one seed gives one unit, another seed another", () => {
  const force = (seed: number): readonly number[] => [
    ...simulateUnit(seed, { connections: [] }).keystroke.strokes[3]!.forceCn,
  ];
  expect(force(4)).toEqual(force(4));
  expect(force(4)).not.toEqual(force(5));
});

test("a unit comes with all that a reduction asks for: strokes, readings, descriptions, truths", () => {
  const { unit, keystroke, latency, truth } = simulateUnit(1, { shape: "tactileFull", connections: ["usb"] });
  expect(keystroke.strokes).toHaveLength(8 * 3 * 2);
  expect(keystroke.method.pressSpeed).toMatchObject({ value: 0.5, symbol: "mm/s" });
  expect(keystroke.rig.calibrations.at(-1)!.terms["forceSpan"]!.u).toMatchObject({ value: 0.003, symbol: "1" });
  expect(keystroke.session.contactSource).toBe("electrical");
  expect(unit.switch.kind).toBe("tactile");
  expect(latency!.readings.presses).toHaveLength(14);
  expect(latency!.readings.baseline).toHaveLength(40);
  expect(latency!.method.subtract).toEqual(["pc", "display"]);
  expect(truth.keys.size).toBe(26);
  const forces = [...truth.keys.values()].map((t) => t.values.actuationForce!);
  expect(truth.mean.values.actuationForce).toBeCloseTo(spread(forces).mean, 9);
  expect(truth.betweenKeys.actuationForce).toBeCloseTo(spread(forces).sd, 9);
  expect(truth.latency["usb"]!.kept).toBe(11);
  expect(simulateUnit(1, { connections: [] }).latency).toBeNull();
});

test("rig errors are drawn from what the certificate says: value, u and shape", () => {
  const tester = Array.from({ length: 3000 }, (_, i) => drawTesterErrors(describedRig(testerRaw), randomFor(i, "t")));
  const camera = Array.from({ length: 3000 }, (_, i) =>
    drawCameraErrors(describedRig(cameraRaw), { touchOffsetMm: 0.125, speedShare: 0.02 }, randomFor(i, "c")),
  );
  const near = (values: readonly number[], mean: number, sd: number): void => {
    const found = spread(values);
    expect(Math.abs(found.mean - mean)).toBeLessThan((4 * sd) / Math.sqrt(3000));
    expect(Math.abs(found.sd / sd - 1)).toBeLessThan(0.06);
  };
  near(
    tester.map((e) => e.forceSpan),
    1,
    0.003,
  );
  near(
    tester.map((e) => e.forceZeroCn),
    0,
    0.12,
  );
  near(
    tester.map((e) => e.complianceMmPerCn),
    0.0001,
    0.00002,
  );
  near(
    camera.map((e) => e.plungerMmPerS),
    120,
    1.2,
  );
  near(
    camera.map((e) => e.detectorMs),
    0,
    0.25,
  );
  near(
    camera.map((e) => e.touchOffsetMm),
    0,
    0.125 / Math.sqrt(3),
  );
  const most = Math.max(...camera.map((e) => Math.abs(e.detectorMs)));
  expect(most).toBeLessThanOrEqual(0.25 * Math.sqrt(3));
});

test("the mounting belongs to the truth or is an error, as asked", () => {
  const plain = { shape: "linearFull", connections: [], truthOfAllKeys: false } as const;
  const force = (options: object): number =>
    simulateUnit(9, { ...plain, ...options }).truth.mean.values.actuationForce!;
  expect(force({ mountCn: 2 })).not.toBeCloseTo(force({}), 2);
  expect(force({ mountCn: 2, mountInTruth: false })).toBeCloseTo(force({}), 9);
});

test("keys of a unit scatter by the stated tolerances, also where they are skewed or correlated", () => {
  for (const scatter of ["normal", "skewed", "correlated"] as const) {
    const rates: number[] = [];
    let neighbours = 0;
    for (let i = 0; i < 150; i++) {
      const makes = [...drawUnit(baseShapes.linearFull, { scatter }, randomFor(i, scatter)).values()].map(
        (s) => s.makeMm,
      );
      const { mean } = spread(makes);
      rates.push(...makes.map((m) => m - mean));
      neighbours += makes.slice(1).reduce((a, m, k) => a + (m - mean) * (makes[k]! - mean), 0) / 25;
    }
    const variance = keyTolerances.makeMm ** 2;
    if (scatter !== "correlated") expect(spread(rates).sd / keyTolerances.makeMm).toBeCloseTo(1, 1);
    const correlation = neighbours / 150 / variance;
    if (scatter === "correlated") expect(correlation).toBeGreaterThan(0.2);
    else expect(Math.abs(correlation)).toBeLessThan(0.1);
  }
});

test("broken assumptions change what they name", () => {
  const filmed = (broken?: "skew" | "speed_off"): readonly number[] =>
    simulateUnit(2, {
      shape: "linearFull",
      connections: ["usb"],
      ...(broken ? { broken } : {}),
    }).latency!.readings.presses.map((p) => p.responseFrame! - p.contactFrame!);
  const mean = (values: readonly number[]): number => spread(values).mean;
  // A tenth less speed over 1.95 mm at 120 mm/s: 1.8 ms, 1.7 frames.
  expect(mean(filmed("speed_off")) - mean(filmed())).toBeGreaterThan(1.2);
  expect(mean(filmed("speed_off")) - mean(filmed())).toBeLessThan(2.3);
  expect(filmed("skew")).not.toEqual(filmed());
});

test("the 26 alphabetic keys lie in rows of ten, nine and seven", () => {
  const count = (row: string): number => keyPositions.filter((p) => p.row === row).length;
  expect([count("D"), count("C"), count("B")]).toEqual([10, 9, 7]);
  expect(keyPositions.find((p) => p.key === "KeyE")).toMatchObject({ row: "D", column: 3, hand: "left" });
});
