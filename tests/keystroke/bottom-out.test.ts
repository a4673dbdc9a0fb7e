import { expect, test } from "vitest";
import { correctStroke, testerTerms } from "../../src/keystroke/correction.js";
import type { PressCurve } from "../../src/keystroke/press-curve.js";
import { pressCurve } from "../../src/keystroke/press-curve.js";
import { strokeSources } from "../../src/keystroke/stroke-sources.js";
import type { Stroke } from "../../src/records/readings.js";
import type { AnalyticKey, Recording } from "./analytic-curve.js";
import { fineRecording, linearKey, method, recordCycle, truthOf } from "./analytic-curve.js";

const tester = testerTerms({ id: "none", calibration: null });

function curveOf(stroke: Stroke): PressCurve {
  const found = pressCurve(correctStroke(stroke, tester), method, strokeSources("session/u01/s1", "KeyF", 1));
  if (!found.found) throw new Error(found.reason);
  return found.at;
}

function bottomOf(key: AnalyticKey, recording: Partial<Recording> = {}): { xMm: number; forceCn: number } {
  const { bottom } = curveOf(recordCycle(key, { ...fineRecording, ...recording })[0]!);
  if (!bottom.found) throw new Error(bottom.reason);
  return bottom.at;
}

test("the knee is found to half the spacing, sharp or rounded, at any phase of the readings", () => {
  for (const [softMm, allowedMm] of [
    [0, 0.005],
    [0.004, 0.005],
    [0.011, 0.005],
    [0.03, 0.006],
  ] as const) {
    const key = { ...linearKey, bottomSoftMm: softMm, deepestMm: 4.05 };
    const truth = truthOf(key, method);
    let worstMm = 0;
    let worstCn = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const bottom = bottomOf(key, { seed });
      worstMm = Math.max(worstMm, Math.abs(bottom.xMm - truth.bottomMm));
      worstCn = Math.max(worstCn, Math.abs(bottom.forceCn - truth.bottomOutForce));
    }
    console.log(
      `bottom-out, rounding ${softMm} mm, 60 strokes: worst ${worstMm.toFixed(4)} mm, ${worstCn.toFixed(2)} cN`,
    );
    expect(worstMm).toBeLessThan(allowedMm);
    expect(worstCn).toBeLessThan(2.5);
  }
});

test("a wide smoothing window does not move the knee", () => {
  const [stroke] = recordCycle(linearKey, fineRecording);
  const at = (value: number): number => {
    const wide = { ...method, smoothingWindow: { ...method.smoothingWindow, value } };
    const found = pressCurve(correctStroke(stroke!, tester), wide, strokeSources("session/u01/s1", "KeyF", 1));
    if (!found.found || !found.at.bottom.found) throw new Error("absent");
    return found.at.bottom.at.xMm;
  };
  expect(at(0.24)).toBeCloseTo(at(0.12), 3);
  expect(at(0.06)).toBeCloseTo(at(0.12), 3);
});

test("a dip on the steep flank does not move the knee beyond it", () => {
  const [stroke] = recordCycle(linearKey, fineRecording);
  const dipped: Stroke = {
    ...stroke!,
    forceCn: stroke!.forceCn.map((force, i) => {
      const x = stroke!.displacementMm[i]!;
      return x > 3.83 && x < 3.845 ? force - 10 : force;
    }),
  };
  const plain = curveOf(stroke!).bottom;
  const found = curveOf(dipped).bottom;
  expect(plain.found && found.found && Math.abs(found.at.xMm - plain.at.xMm)).toBeLessThan(0.012);
});

test("the steep rise at touch is not taken for the bottom", () => {
  const steep = { ...linearKey, riseMm: 0.02, preloadCn: 45 };
  expect(bottomOf(steep).xMm).toBeGreaterThan(3.7);
});

test("a press that ends before the bottom says so, and so does one that ends on the knee", () => {
  for (const deepestMm of [0.5, 2, 3.7, 3.801]) {
    const { bottom } = curveOf(recordCycle({ ...linearKey, deepestMm }, fineRecording)[0]!);
    expect(bottom.found).toBe(false);
    expect(!bottom.found && bottom.reason).toMatch(/ends before its slope exceeds 300 cN\/mm/);
  }
});
