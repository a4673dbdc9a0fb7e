import fc from "fast-check";
import { expect, test } from "vitest";
import { keyCurve, turnForceCn } from "../../tools/simulation/key-curve.js";
import type { BaseShapeName } from "../../tools/simulation/key-shape.js";
import { baseShapes } from "../../tools/simulation/key-shape.js";
import { Random } from "../../tools/simulation/random.js";
import { truthOf, usualDefinition } from "../../tools/simulation/truth.js";
import { atSpeed, drawUnit } from "../../tools/simulation/unit-truth.js";

const names = Object.keys(baseShapes) as BaseShapeName[];

test("there is no force above the free position, and the turn is deep in the stop", () => {
  for (const name of names) {
    const curve = keyCurve(baseShapes[name]);
    expect([curve.pressCn(-0.1), curve.pressCn(0), curve.releaseCn(-0.1), curve.releaseCn(0)]).toEqual([0, 0, 0, 0]);
    expect(curve.pressCn(curve.deepestMm)).toBeGreaterThanOrEqual(turnForceCn);
    expect(curve.deepestMm - baseShapes[name].bottomMm).toBeLessThan(0.25);
  }
});

test("the release lies below the press up to the stop, and joins it there, for every key within tolerance", () => {
  fc.assert(
    fc.property(fc.constantFrom(...names), fc.integer(), (name, seed) => {
      const shape = drawUnit(baseShapes[name], {}, new Random(seed)).get("KeyF")!;
      const curve = keyCurve(shape);
      for (let x = 0.02; x < shape.bottomMm - 0.2; x += 0.05) {
        expect(curve.releaseCn(x)).toBeLessThan(curve.pressCn(x));
      }
      const end = shape.bottomMm + 0.1;
      expect(Math.abs(curve.pressCn(end) - curve.releaseCn(end))).toBeLessThan(0.05);
    }),
    { numRuns: 60, seed: 1 },
  );
});

test("the curve is smooth: no jump above what its steepest slope allows", () => {
  for (const name of names) {
    const { pressCn, releaseCn, deepestMm } = keyCurve(baseShapes[name]);
    let steepest = 0;
    for (let x = 0; x < deepestMm; x += 0.001) {
      for (const f of [pressCn, releaseCn]) steepest = Math.max(steepest, Math.abs(f(x + 0.001) - f(x)));
    }
    expect(steepest).toBeLessThan(1.2);
  }
});

test("linear shapes have no bump of 3 cN; tactile and clicky shapes have one of 6 cN or more, for every key", () => {
  for (const name of names) {
    for (const shape of drawUnit(baseShapes[name], {}, new Random(3)).values()) {
      const { values } = truthOf(keyCurve(shape), usualDefinition);
      if (name.startsWith("linear")) expect(values.peakForce).toBeNull();
      else expect(values.peakForce! - values.valleyForce!).toBeGreaterThan(6);
    }
  }
});

test("values lie where the trade's own do", () => {
  const inside = (value: number | null, low: number, high: number): void => {
    expect(value).toBeGreaterThan(low);
    expect(value).toBeLessThan(high);
  };
  for (const name of names) {
    const { values } = truthOf(keyCurve(baseShapes[name]), usualDefinition);
    inside(values.preTravel, 1, 3);
    inside(values.actuationForce, 25, 65);
    inside(values.totalTravel, 1.5, 4);
    inside(values.differentialTravel, 0.1, 0.7);
    inside(values.hysteresisLoss, 0.05, 0.6);
    if (!name.startsWith("linear")) inside(values.tactileRatio, 0.1, 0.6);
  }
});

test("a dome at 80 mm/s peaks about an eighth above its value at 0.5 mm/s", () => {
  const peak = (speed: number): number =>
    truthOf(keyCurve(atSpeed(baseShapes.domeFull, speed)), usualDefinition).values.peakForce!;
  expect(peak(80) / peak(0.5)).toBeGreaterThan(1.1);
  expect(peak(80) / peak(0.5)).toBeLessThan(1.14);
  expect(() => atSpeed(baseShapes.domeFull, 0)).toThrow(RangeError);
});
