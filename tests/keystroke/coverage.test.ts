import { expect, test } from "vitest";
import type { KeyCharacteristic } from "../../src/keystroke/index.js";
import { reduceKeystroke, unitMean } from "../../src/keystroke/index.js";
import { expand, isQuantity } from "../../src/metrology/index.js";
import { seededRandom } from "../../src/metrology/random.js";
import type { Stroke } from "../../src/records/readings.js";
import type { AnalyticKey, Truth } from "./analytic-curve.js";
import {
  fineRecording,
  linearKey,
  method,
  recordCycle,
  tactileKey,
  truthOf,
  withCalibration,
} from "./analytic-curve.js";

const names: readonly (readonly [KeyCharacteristic, keyof Truth])[] = [
  ["preTravel", "preTravel"],
  ["actuationForce", "actuationForce"],
  ["resetPoint", "resetPoint"],
  ["peakForce", "peakCn"],
  ["valleyForce", "valleyCn"],
  ["totalTravel", "totalTravel"],
  ["workToBottom", "workToBottom"],
];

const terms = {
  forceSpan: [1, 0.003, "1"],
  forceZero: [0, 0.15, "cN"],
  displacementScale: [1, 0.001, "1"],
} as const;

/** A tester as it really is: its readings are the truth undone by errors drawn from its certificate. */
function asRead(stroke: Stroke, span: number, zeroCn: number, scale: number): Stroke {
  return {
    ...stroke,
    displacementMm: stroke.displacementMm.map((x) => x / scale),
    forceCn: stroke.forceCn.map((force) => (force - zeroCn) / span),
  };
}

test("95 % intervals of keys and units cover the truth, with every source drawn anew for each unit", () => {
  const units = 120;
  const measured = method.keys.slice(0, 4);
  const counts = new Map<string, { keys: number; keyHits: number; units: number; unitHits: number }>();
  for (let u = 0; u < units; u++) {
    const random = seededRandom(900 + u);
    for (let i = 0; i < 20; i++) random.uniform();
    const draw = (value: number, sd: number): number => value + sd * random.normal();
    const base = u % 2 === 0 ? linearKey : tactileKey;
    const all: readonly AnalyticKey[] = Array.from({ length: 8 }, () => ({
      ...base,
      preloadCn: draw(base.preloadCn, 1.1),
      stiffness: draw(base.stiffness, 0.15),
      actuationMm: draw(base.actuationMm, 0.03),
      resetMm: draw(base.resetMm, 0.03),
      bottomMm: draw(base.bottomMm, 0.02),
      bottomSoftMm: 0.012,
      deepestMm: 4.02,
    }));
    const truths = all.map((key) => truthOf(key, method));
    const [span, zeroCn, scale] = [draw(1, 0.003), draw(0, 0.15), draw(1, 0.001)];
    const strokes = measured.flatMap((name, k) =>
      [1, 2, 3].flatMap((cycle) => {
        const key = { ...all[k]!, preloadCn: draw(all[k]!.preloadCn, 0.25), actuationMm: draw(all[k]!.actuationMm, 0.004), resetMm: draw(all[k]!.resetMm, 0.004), bottomMm: draw(all[k]!.bottomMm, 0.003) }; // prettier-ignore
        const seed = 1 + random.below(1e6);
        return recordCycle(key, { ...fineRecording, seed }, name, cycle).map((each) =>
          asRead(each, span, zeroCn, scale),
        );
      }),
    );
    const rig = { ...withCalibration(terms), method: { ...method, keys: measured } };
    const { keys } = reduceKeystroke(strokes, rig);
    for (const [name, field] of names) {
      if (base === linearKey && /peak|valley/.test(name)) continue;
      const count = counts.get(name) ?? { keys: 0, keyHits: 0, units: 0, unitHits: 0 };
      counts.set(name, count);
      keys.forEach((key, k) => {
        const value = key[name];
        if (!isQuantity(value)) throw new Error(`${name}: ${value.reason}`);
        count.keys++;
        if (Math.abs(value.value - truths[k]![field]) <= expand(value).U) count.keyHits++;
      });
      const mean = unitMean(keys, (key) => key[name], { alphabeticKeys: all.length }).mean;
      if (!isQuantity(mean)) throw new Error(`${name}: ${mean.reason}`);
      const truth = truths.reduce((total, each) => total + each[field], 0) / all.length;
      count.units++;
      if (Math.abs(mean.value - truth) <= expand(mean).U) count.unitHits++;
    }
  }
  let keyHits = 0;
  let keyCount = 0;
  let unitHits = 0;
  let unitCount = 0;
  for (const [name, count] of counts) {
    console.log(
      `${name}: keys ${((100 * count.keyHits) / count.keys).toFixed(1)} % of ${count.keys}, ` +
        `units ${((100 * count.unitHits) / count.units).toFixed(1)} % of ${count.units}`,
    );
    // The keys of a unit share the rig's errors, so 20 to 40 units stand behind each share.
    expect(count.keyHits / count.keys).toBeGreaterThan(0.82);
    keyHits += count.keyHits;
    keyCount += count.keys;
    unitHits += count.unitHits;
    unitCount += count.units;
  }
  expect(keyHits / keyCount).toBeGreaterThan(0.93);
  expect(keyHits / keyCount).toBeLessThan(0.985);
  expect(unitHits / unitCount).toBeGreaterThan(0.9);
});
