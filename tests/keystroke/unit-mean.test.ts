import { expect, test } from "vitest";
import type { KeyReduction } from "../../src/keystroke/index.js";
import { reduceKeystroke, unitMean } from "../../src/keystroke/index.js";
import type { Measured, Quantity } from "../../src/metrology/index.js";
import { derive, difference, effectiveDof } from "../../src/metrology/index.js";
import { meanOf, varianceOf } from "../../src/statistics/numeric/sums.js";
import { seededRandom } from "../../src/metrology/random.js";
import { fineRecording, linearKey, method, recordCycle, tactileKey, withCalibration } from "./analytic-curve.js";

const rig = withCalibration({ forceSpan: [1, 0.003, "1"], forceZero: [0, 0.15, "cN"] });

function unit(seed: number, count = 8, cycles = 3): readonly KeyReduction[] {
  const random = seededRandom(seed);
  for (let i = 0; i < 20; i++) random.uniform();
  const strokes = method.keys.slice(0, count).flatMap((name) => {
    const key = { ...tactileKey, preloadCn: tactileKey.preloadCn + 2 * random.normal() };
    return Array.from({ length: cycles }, (_, i) => {
      const again = { ...key, preloadCn: key.preloadCn + 0.5 * random.normal() };
      return recordCycle(again, { ...fineRecording, seed: 1 + random.below(1e6) }, name, i + 1);
    }).flat();
  });
  return reduceKeystroke(strokes, { ...rig, unit: `u${seed}` }).keys;
}

const keys = unit(1);
const force = (key: Pick<KeyReduction, "actuationForce">): Measured<"cN"> => key.actuationForce;
const q = (measured: Measured): Quantity => {
  if (measured.absent) throw new Error(measured.reason);
  return measured;
};
const values = keys.map((key) => q(key.actuationForce).value);
const cycles = keys.map((key) => key.cycles.map((cycle) => q(cycle.characteristics.actuationForce).value));
const s2 = varianceOf(values);
const sr2 = meanOf(cycles.map(varianceOf));
const shared = (of: Quantity): number =>
  Math.hypot(...of.components.filter((each) => /^rig|smoothing/.test(each.source.id)).map((each) => each.contribution));

test("the default target is the mean over all N keys, by the formula of the measurement model", () => {
  const { mean, measuredKeys } = unitMean(keys, force, { alphabeticKeys: 26 });
  const share = 8 / 26;
  expect(measuredKeys).toBe(8);
  expect(q(mean).value).toBeCloseTo(meanOf(values), 10);
  const own = ((1 - share) * s2) / 8 + (share * sr2) / (8 * 3);
  const grid = q(mean).components.filter((each) => each.source.id.endsWith("/grid"));
  const rest = Math.hypot(shared(q(mean)), ...grid.map((each) => each.contribution));
  expect(q(mean).u ** 2).toBeCloseTo(own + rest ** 2, 10);
  expect(effectiveDof(q(mean))).toBeGreaterThan(7);
});

test("these keys only have no term for keys that were not measured", () => {
  const { theseKeys, mean } = unitMean(keys, force, { alphabeticKeys: 26 });
  expect(q(theseKeys).u ** 2).toBeCloseTo(sr2 / 24 + shared(q(theseKeys)) ** 2, 8);
  expect(q(theseKeys).u).toBeLessThan(q(mean).u);
});

test("all keys are never better known than the measured ones, where keys differ by less than their cycles scatter", () => {
  const random = seededRandom(9);
  const alike = keys.map((key): KeyReduction => {
    const moved = key.cycles.map((cycle) => {
      const actuationForce = shiftTo(q(cycle.characteristics.actuationForce), 45 + 2 * random.normal());
      return { ...cycle, characteristics: { ...cycle.characteristics, actuationForce } };
    });
    return { ...key, actuationForce: shiftTo(q(key.actuationForce), 45), cycles: moved };
  });
  const { mean, theseKeys } = unitMean(alike, force, { alphabeticKeys: 26, name: "actuationForce" });
  expect(q(mean).u).toBeGreaterThanOrEqual(q(theseKeys).u * (1 - 1e-12));
});

function shiftTo(of: Quantity, value: number): Quantity<"cN"> {
  const moved = derive([of], ([x]) => x - of.value + value, "cN");
  if (moved.absent) throw new Error(moved.reason);
  return moved;
}

test("a rig term does not divide by the square root of the number of keys", () => {
  const zero = (of: Quantity): number => of.components.find((each) => /force-zero$/.test(each.source.id))!.contribution;
  expect(zero(q(unitMean(keys, force, { alphabeticKeys: 26 }).mean))).toBeCloseTo(0.15, 10);
});

test("in the difference of two units under one calibration the rig's zero cancels and the keys' scatter does not", () => {
  const a = q(unitMean(keys, force, { alphabeticKeys: 26 }).mean);
  const b = q(unitMean(unit(2), force, { alphabeticKeys: 26 }).mean);
  const d = difference(a, b);
  const zero = d.components.find((each) => /force-zero$/.test(each.source.id))!;
  expect(zero.contribution).toBeCloseTo(0, 10);
  const scatter = (of: Quantity): number =>
    Math.hypot(
      ...of.components.filter((each) => /not-measured$/.test(each.source.id)).map((each) => each.contribution),
    );
  expect(scatter(d)).toBeCloseTo(Math.hypot(scatter(a), scatter(b)), 10);
});

test("where all keys were measured, nothing is left to sample", () => {
  const { mean, theseKeys } = unitMean(keys, force, { alphabeticKeys: 8 });
  expect(q(mean).u).toBeCloseTo(q(theseKeys).u, 10);
});

test("the sd between keys is cleaned of repeatability, and its interval holds it", () => {
  const result = unitMean(keys, force, { alphabeticKeys: 26 });
  const sd = q(result.betweenKeySd).value;
  expect(sd).toBeCloseTo(Math.sqrt(s2 - sr2 / 3), 8);
  expect(q(result.cycleSd).value).toBeCloseTo(Math.sqrt(sr2), 8);
  expect(q(result.betweenKeySdLower).value).toBeLessThan(sd);
  expect(q(result.betweenKeySdUpper).value).toBeGreaterThan(sd);
});

test("the interval of the sd between keys covers the truth in 93 % to 97 % of simulated units", () => {
  const random = seededRandom(33);
  const plain = { evidence: method.evidence };
  let covered = 0;
  const runs = 1500;
  for (let run = 0; run < runs; run++) {
    const fake = method.keys.map((name) => {
      const centre = 45 + 2 * random.normal();
      const readings = [0, 1, 2].map(() => centre + 1 * random.normal());
      const quantity = (value: number): Quantity<"cN"> => ({ ...q(keys[0]!.actuationForce), value, ...plain }) as never;
      return {
        ...keys[0]!,
        key: name,
        actuationForce: quantity(meanOf(readings)),
        cycles: keys[0]!.cycles.map((cycle, i) => ({
          ...cycle,
          characteristics: { ...cycle.characteristics, actuationForce: quantity(readings[i]!) },
        })),
      } as KeyReduction;
    });
    const { betweenKeySdLower, betweenKeySdUpper } = unitMean(fake, force, {
      alphabeticKeys: 26,
      name: "actuationForce",
    });
    if (q(betweenKeySdLower).value <= 2 && q(betweenKeySdUpper).value >= 2) covered++;
  }
  console.log(`sd between keys: interval covers in ${((100 * covered) / runs).toFixed(1)} % of ${runs} units`);
  expect(covered / runs).toBeGreaterThan(0.93);
  expect(covered / runs).toBeLessThan(0.97);
});

test("one key gives its own value and no mean over the others", () => {
  const result = unitMean(keys.slice(0, 1), force, { alphabeticKeys: 26 });
  expect(q(result.theseKeys).value).toBe(values[0]);
  expect(result.mean.absent && result.mean.reason).toMatch(/one key was measured/);
  expect(result.betweenKeySd.absent).toBe(true);
});

test("keys of one cycle carry their strokes' own terms, and their scatter is not known", () => {
  const single = unit(3, 4, 1);
  const result = unitMean(single, force, { alphabeticKeys: 26 });
  expect(result.cycleSd.absent && result.cycleSd.reason).toMatch(/no key has two used cycles/);
  expect(q(result.theseKeys).components.some((each) => each.source.id.startsWith("stroke/"))).toBe(true);
});

test("keys without the characteristic are left out of n; none at all gives its reason", () => {
  const strokes = method.keys.flatMap((name) => recordCycle(linearKey, fineRecording, name));
  const linear = reduceKeystroke(strokes, { ...rig, method: { ...method, cyclesUsed: [1] } }).keys;
  const result = unitMean(linear, (key) => key.peakForce, { alphabeticKeys: 26 });
  expect(result.measuredKeys).toBe(0);
  expect(result.mean.absent && result.mean.reason).toMatch(/no local peak/);
  const mixed = unitMean([...keys.slice(0, 3), linear[4]!], (key) => key.peakForce, { alphabeticKeys: 26 });
  expect(mixed.measuredKeys).toBe(3);
});

test("a computed value needs a name, and then is averaged like any other", () => {
  const over = (key: Pick<KeyReduction, "totalTravel" | "preTravel">): Measured<"mm"> =>
    derive([key.totalTravel, key.preTravel], ([total, pre]) => total - pre, "mm");
  expect(() => unitMean(keys, over, { alphabeticKeys: 26 })).toThrow(/give its name/);
  expect(q(unitMean(keys, over, { alphabeticKeys: 26, name: "overTravel" }).mean).value).toBeGreaterThan(1.8);
});

test("a number of alphabetic keys that cannot be, no keys, and keys of two sessions and unknown options are refused", () => {
  expect(() => unitMean(keys, force, { alphabeticKeys: 7 })).toThrow(/7 alphabetic keys cannot have 8/);
  expect(() => unitMean(keys, force, { alphabeticKeys: NaN })).toThrow(/cannot have 8/);
  const misspelt = { alphabeticKeys: 26, nam: "x" } as never;
  expect(() => unitMean(keys, force, misspelt)).toThrow(/no option nam .*did you mean name/);
  expect(() => unitMean([], force, { alphabeticKeys: 26 })).toThrow(/at least one key/);
  expect(() => unitMean([keys[0]!, unit(2)[1]!], force, { alphabeticKeys: 26 })).toThrow(/one session/);
});
