import { expect, test } from "vitest";
import type { KeyCharacteristic } from "../../src/keystroke/index.js";
import { reduceKeystroke } from "../../src/keystroke/index.js";
import { seededRandom } from "../../src/metrology/random.js";
import type { AnalyticKey, Recording, Truth } from "./analytic-curve.js";
import {
  context,
  fineRecording,
  linearKey,
  method,
  pressForce,
  recordCycle,
  tactileKey,
  truthOf,
} from "./analytic-curve.js";

const pairs: readonly (readonly [KeyCharacteristic, keyof Truth])[] = [
  ["preTravel", "preTravel"],
  ["actuationForce", "actuationForce"],
  ["peakPosition", "peakMm"],
  ["peakForce", "peakCn"],
  ["valleyPosition", "valleyMm"],
  ["valleyForce", "valleyCn"],
  ["resetPoint", "resetPoint"],
  ["resetForce", "resetForce"],
  ["totalTravel", "totalTravel"],
  ["bottomOutForce", "bottomOutForce"],
  ["workToActuate", "workToActuate"],
  ["workToBottom", "workToBottom"],
  ["hysteresisLoss", "hysteresisLoss"],
  ["stiffness", "stiffness"],
];

const recordings: Readonly<Record<string, Recording>> = {
  "0.01 mm apart, 0.1 cN noise": fineRecording,
  "steps of 0.005 mm and 0.1 gf": { ...fineRecording, spacingMm: 0.0031, displacementStepMm: 0.005, forceStepCn: 0.0980665, noiseCn: 0.05 }, // prettier-ignore
  "0.02 mm apart, 0.12 cN noise": { ...fineRecording, spacingMm: 0.02, noiseCn: 0.12 },
};

function keysLike(base: AnalyticKey, count: number, seed: number): readonly AnalyticKey[] {
  const random = seededRandom(seed);
  const around = (value: number, share: number): number => value * (1 + share * (2 * random.uniform() - 1));
  return Array.from({ length: count }, () => ({
    ...base,
    preloadCn: around(base.preloadCn, 0.2),
    riseMm: around(base.riseMm, 0.4),
    stiffness: around(base.stiffness, 0.2),
    bump: {
      atMm: around(base.bump.atMm, 0.1),
      heightCn: around(base.bump.heightCn, 0.2),
      widthMm: around(base.bump.widthMm, 0.1),
    },
    actuationMm: around(base.actuationMm, 0.05),
    resetMm: around(base.resetMm, 0.05),
    bottomMm: around(base.bottomMm, 0.02),
    bottomSoftMm: random.uniform() < 0.5 ? 0 : 0.004,
    deepestMm: 4.05,
  }));
}

for (const [name, recording] of Object.entries(recordings)) {
  test(`truths of analytic keys are recovered: ${name}`, () => {
    const worst = new Map<string, { error: number; z: number }>();
    let count = 0;
    for (const base of [linearKey, tactileKey]) {
      keysLike(base, 25, 7).forEach((key, i) => {
        const truth = truthOf(key, method);
        const strokes = recordCycle(key, { ...recording, seed: 100 + i });
        const result = reduceKeystroke(strokes, { ...context, method: { ...method, keys: ["KeyF"], cyclesUsed: [1] } });
        const [reduced] = result.keys;
        count++;
        for (const [characteristic, field] of pairs) {
          const measured = reduced![characteristic];
          if (base === linearKey && /peak|valley/.test(characteristic)) {
            expect(measured.absent).toBe(true);
            continue;
          }
          if (measured.absent) throw new Error(`${characteristic} is absent: ${measured.reason}`);
          const error = measured.value - truth[field];
          const known = worst.get(characteristic) ?? { error: 0, z: 0 };
          worst.set(characteristic, {
            error: Math.abs(error) > Math.abs(known.error) ? error : known.error,
            z: Math.max(known.z, Math.abs(error) / Math.max(measured.u, 1e-12)),
          });
          const slope = Math.abs(
            (pressForce(key, truth.touchMm + truth.preTravel + 0.01) - pressForce(key, truth.touchMm + truth.preTravel - 0.01)) / 0.02,
          ); // prettier-ignore
          if (measured.symbol === "mm" && !/peak|valley/.test(characteristic)) {
            expect(Math.abs(error)).toBeLessThanOrEqual(0.02 + recording.spacingMm);
          }
          if (/^(actuationForce|resetForce|peakForce|valleyForce)$/.test(characteristic)) {
            expect(Math.abs(error)).toBeLessThanOrEqual(1 + slope * 0.02);
          }
        }
      });
    }
    const lines = [...worst].map(([each, { error, z }]) => `${each} ${error.toPrecision(3)} (${z.toFixed(1)} u)`);
    console.log(`${name}, ${count} keys, worst errors: ${lines.join("; ")}`);
  });
}
