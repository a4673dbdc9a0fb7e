import { expect, test } from "vitest";
import type { KeyCurve } from "../../tools/simulation/key-curve.js";
import { meanTruth, truthOf } from "../../tools/simulation/truth.js";

const definition = { touchForceCn: 1, prominenceCn: 3, bottomOutSlopeCnPerMm: 300, windowMm: 0.12 };

/** A spring of 20 cN/mm from 1 mm on, a stop of 1000 cN/mm from 4 mm on, and a release 5 cN lower; contact at 3 mm. */
const spring: KeyCurve = {
  pressCn: (x) => (x <= 1 ? 0 : 20 * (x - 1) + (x > 4 ? 980 * (x - 4) : 0)),
  releaseCn: (x) => (x <= 1 ? 0 : Math.max(0, 20 * (x - 1) - 5) + (x > 4 ? 980 * (x - 4) + 5 : 0)),
  closedOnPress: (x) => x >= 3,
  closedOnRelease: (x) => x >= 2.8,
  deepestMm: 4.1,
};

test("on a straight spring every characteristic is what the pencil gives", () => {
  const { values, slopes } = truthOf(spring, definition);
  const touch = 1.05;
  expect(values.preTravel).toBeCloseTo(3 - touch, 6);
  expect(values.actuationForce).toBeCloseTo(40, 6);
  expect(values.resetPoint).toBeCloseTo(2.8 - touch, 6);
  expect(values.resetForce).toBeCloseTo(31, 6);
  expect(values.differentialTravel).toBeCloseTo(0.2, 6);
  expect(values.totalTravel).toBeCloseTo(4 - touch, 3);
  expect(values.bottomOutForce).toBeCloseTo(60, 1);
  expect(values.stiffness).toBeCloseTo(20, 6);
  expect(values.workToActuate).toBeCloseTo(0.01 * ((1 + 40) / 2) * (3 - touch), 6);
  expect(values.workToBottom).toBeCloseTo(0.01 * ((1 + 60) / 2) * (4 - touch), 4);
  // The release is 0 up to 1.25 mm, then runs 5 cN below the press.
  const loop = 0.01 * (((1 + 5) / 2) * 0.2 + 5 * 2.75);
  expect(values.hysteresisLoss).toBeCloseTo(loop, 3);
  expect(slopes.actuationForce).toBeCloseTo(20, 4);
  expect(slopes.resetForce).toBeCloseTo(20, 4);
});

test("a key without a bump has no peak, no ratio and no operating force; not zeros", () => {
  const { values } = truthOf(spring, definition);
  expect([values.peakForce, values.valleyForce, values.tactileRatio, values.operatingForce]).toEqual([
    null,
    null,
    null,
    null,
  ]);
});

/** A cubic with its maximum of 60 cN at 1 mm and its minimum of 40 cN at 2 mm, on a stop at 3 mm. */
const cubic = (makeMm: number): KeyCurve => {
  const bump = (x: number): number => 40 + 20 * (2 * (x - 2) ** 3 + 3 * (x - 2) ** 2);
  const press = (x: number): number =>
    x <= 0 ? 0 : x < 0.5 ? (bump(0.5) / 0.5) * x : bump(Math.min(x, 2.5)) + (x > 2.5 ? 30 * (x - 2.5) : 0);
  return {
    pressCn: (x) => press(x) + (x > 3 ? 2000 * (x - 3) : 0),
    releaseCn: (x) => 0.8 * press(x) + (x > 3 ? 2000 * (x - 3) : 0),
    closedOnPress: (x) => x >= makeMm,
    closedOnRelease: (x) => x >= makeMm - 0.3,
    deepestMm: 3.1,
  };
};

test("peak and valley are the extremes themselves, the ratio (peak - valley) / peak", () => {
  const { values } = truthOf(cubic(1.8), definition);
  const touch = 1 / (40 / 0.5 + 0);
  expect(values.peakForce).toBeCloseTo(60, 6);
  expect(values.valleyForce).toBeCloseTo(40, 6);
  expect(values.peakPosition! - values.valleyPosition!).toBeCloseTo(-1, 4);
  expect(values.peakPosition).toBeCloseTo(1 - touch, 3);
  expect(values.tactileRatio).toBeCloseTo(20 / 60, 6);
  expect(values.operatingForce).toBeCloseTo(60, 6);
});

test("a peak after the contact gives no operating force, yet is reported as a peak", () => {
  const { values } = truthOf(cubic(0.8), definition);
  expect(values.operatingForce).toBeNull();
  expect(values.peakForce).toBeCloseTo(60, 6);
});

test("a bump below the prominence is none", () => {
  expect(truthOf(cubic(1.8), { ...definition, prominenceCn: 21 }).values.peakForce).toBeNull();
  expect(truthOf(cubic(1.8), { ...definition, prominenceCn: 19 }).values.peakForce).not.toBeNull();
});

test("a contact that never closes leaves actuation and reset undefined", () => {
  const { values } = truthOf({ ...spring, closedOnPress: () => false, closedOnRelease: () => false }, definition);
  expect([values.preTravel, values.actuationForce, values.resetPoint, values.differentialTravel]).toEqual([
    null,
    null,
    null,
    null,
  ]);
  expect(values.totalTravel).not.toBeNull();
});

test("a curve that is never touched or never bottoms out is refused", () => {
  expect(() => truthOf({ ...spring, pressCn: () => 0.5 }, definition)).toThrow(/never reaches 1 cN/);
  expect(() => truthOf({ ...spring, deepestMm: 3.9 }, definition)).toThrow(/below 300 cN\/mm/);
});

test("the mean of several truths is undefined where one is", () => {
  const mean = meanTruth([truthOf(cubic(1.8), definition), truthOf(spring, definition)]);
  expect(mean.values.peakForce).toBeNull();
  expect(mean.values.actuationForce).toBeGreaterThan(0);
  expect(() => meanTruth([])).toThrow(RangeError);
});
