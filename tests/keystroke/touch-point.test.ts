import { expect, test } from "vitest";
import { correctStroke, testerTerms } from "../../src/keystroke/correction.js";
import { uncertaintyOf } from "../../src/keystroke/estimate.js";
import { profileOf } from "../../src/keystroke/profile.js";
import { strokeSources } from "../../src/keystroke/stroke-sources.js";
import type { TouchPoint } from "../../src/keystroke/touch-point.js";
import { touchPoint } from "../../src/keystroke/touch-point.js";
import type { Stroke } from "../../src/records/readings.js";
import type { Recording } from "./analytic-curve.js";
import { fineRecording, linearKey, method, recordCycle, truthOf } from "./analytic-curve.js";

const tester = testerTerms({ id: "none", calibration: null });
const sources = strokeSources("session/u01/s1", "KeyF", 1);

function touchOf(stroke: Stroke): TouchPoint {
  const rows = correctStroke(stroke, tester);
  const found = touchPoint(rows, profileOf(rows, method.smoothingWindow.value), method, sources);
  if (!found.found) throw new Error(found.reason);
  return found.at;
}

function press(recording: Partial<Recording>, change = (force: number): number => force): Stroke {
  const stroke = recordCycle(linearKey, { ...fineRecording, ...recording })[0]!;
  return { ...stroke, forceCn: stroke.forceCn.map(change) };
}

const truth = truthOf(linearKey, method);

test("touch is where the force passes the touch force above the approach, to a third of the spacing", () => {
  let worst = 0;
  for (let seed = 1; seed <= 100; seed++) {
    const touch = touchOf(press({ seed }));
    worst = Math.max(worst, Math.abs(touch.xMm - truth.touchMm));
    expect(touch.approachRows).toBeGreaterThan(10);
  }
  console.log(`touch point, 0.01 mm apart, 0.1 cN noise, 100 strokes: worst error ${worst.toFixed(4)} mm`);
  expect(worst).toBeLessThan(0.0034);
});

test("the level of the approach does not move the touch point", () => {
  const plain = touchOf(press({}));
  const lifted = touchOf(press({}, (force) => force + 4));
  expect(lifted.xMm).toBeCloseTo(plain.xMm, 9);
  expect(lifted.levelCn - plain.levelCn).toBeCloseTo(4, 9);
});

test("noise is estimated on the approach, and a spike in it does not make a touch", () => {
  const noisy = touchOf(press({ noiseCn: 0.3 }));
  expect(noisy.noiseCn).toBeGreaterThan(0.15);
  expect(noisy.noiseCn).toBeLessThan(0.5);
  const stroke = press({});
  const forces = Float64Array.from(stroke.forceCn);
  forces[6] = 30;
  const spiked = touchOf({ ...stroke, forceCn: forces });
  expect(spiked.xMm).toBeCloseTo(touchOf(stroke).xMm, 3);
});

test("a noisy approach widens the touch point and does not shift it much", () => {
  const errors = Array.from(
    { length: 60 },
    (_, i) => touchOf(press({ seed: i + 1, noiseCn: 0.5 })).xMm - truth.touchMm,
  );
  const mean = errors.reduce((a, b) => a + b, 0) / errors.length;
  expect(Math.abs(mean)).toBeLessThan(0.003);
  const u = (noiseCn: number): number => uncertaintyOf(touchOf(press({ noiseCn })).terms, "noise", "grid");
  expect(u(0.5)).toBeGreaterThan(u(0.05));
});

test("without an approach the touch point is carried back and wider, and says so", () => {
  const stroke = press({});
  const first = stroke.displacementMm.findIndex((x) => x > 0.012);
  const cut: Stroke = {
    ...stroke,
    displacementMm: stroke.displacementMm.subarray(first),
    forceCn: stroke.forceCn.subarray(first),
    contact: stroke.contact!.subarray(first),
  };
  const touch = touchOf(cut);
  expect(touch.approachRows).toBe(0);
  const u = uncertaintyOf(touch.terms, "noise", "grid");
  expect(u).toBeGreaterThan(uncertaintyOf(touchOf(stroke).terms, "noise", "grid"));
  expect(Math.abs(touch.xMm - truth.touchMm)).toBeLessThan(3 * u);
  expect(touch.terms.some((each) => /no approach/.test(each.source.label))).toBe(true);
});

test("a dwell of any length before the key changes neither touch nor level", () => {
  const stroke = press({});
  const repeat = (values: Float64Array): Float64Array => Float64Array.from([...Array<number>(400).fill(values[0]!), ...values]); // prettier-ignore
  const waited: Stroke = {
    ...stroke,
    displacementMm: repeat(stroke.displacementMm),
    forceCn: repeat(stroke.forceCn),
    contact: Uint8Array.from([...Array<number>(400).fill(0), ...stroke.contact!]),
  };
  expect(Math.abs(touchOf(waited).xMm - touchOf(stroke).xMm)).toBeLessThan(0.001);
});

test("a force that never rises has no touch, with the reason", () => {
  const flat = press({}, (force) => 0 * force);
  const rows = correctStroke(flat, tester);
  const found = touchPoint(rows, profileOf(rows, 0.12), method, sources);
  expect(found.found).toBe(false);
  expect(!found.found && found.reason).toMatch(/never rises above the approach by 1 cN/);
});
