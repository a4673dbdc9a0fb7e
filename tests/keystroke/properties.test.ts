import { expect, test } from "vitest";
import fc from "fast-check";
import type { KeyReduction } from "../../src/keystroke/index.js";
import { characteristicNames, reduceKeystroke } from "../../src/keystroke/index.js";
import { isQuantity } from "../../src/metrology/index.js";
import type { Stroke } from "../../src/records/readings.js";
import type { AnalyticKey } from "./analytic-curve.js";
import { context, fineRecording, linearKey, method, recordCycle, tactileKey } from "./analytic-curve.js";

const one = { ...context, method: { ...method, keys: ["KeyF"], cyclesUsed: [1] } };

const reduce = (strokes: readonly Stroke[], own = one): KeyReduction => reduceKeystroke(strokes, own).keys[0]!;

/** Values of two reductions, where both have one; a characteristic that only one has fails. */
function compare(
  a: KeyReduction,
  b: KeyReduction,
  check: (name: string, symbol: string, a: number, b: number) => void,
): void {
  for (const name of characteristicNames) {
    const [p, q] = [a[name], b[name]];
    expect(q.absent, name).toBe(p.absent);
    if (isQuantity(p) && isQuantity(q)) check(name, p.symbol, p.value, q.value);
  }
}

const keys: fc.Arbitrary<AnalyticKey> = fc
  .record({
    base: fc.constantFrom(linearKey, tactileKey),
    preloadCn: fc.integer({ min: 25, max: 45 }),
    stiffness: fc.integer({ min: 4, max: 14 }),
    actuation: fc.integer({ min: 130, max: 260 }),
  })
  .map(({ base, preloadCn, stiffness, actuation }) => ({
    ...base,
    preloadCn,
    stiffness,
    actuationMm: actuation / 100,
    resetMm: actuation / 100 - 0.2,
  }));

const seeds = fc.integer({ min: 1, max: 10_000 });
const settings = { seed: 11, numRuns: 25 };

test("a shift of the displacement's zero changes nothing", () => {
  fc.assert(
    fc.property(keys, seeds, fc.integer({ min: -2000, max: 2000 }), (key, seed, shift) => {
      const strokes = recordCycle(key, { ...fineRecording, seed });
      const moved = strokes.map((stroke) => ({
        ...stroke,
        displacementMm: stroke.displacementMm.map((x) => x + shift / 1000),
      }));
      compare(reduce(strokes), reduce(moved), (name, _, a, b) => expect(Math.abs(a - b), name).toBeLessThan(1e-6));
    }),
    settings,
  );
});

test("forces of all kinds scale with the force, positions stay", () => {
  fc.assert(
    fc.property(keys, seeds, fc.integer({ min: 2, max: 5 }), (key, seed, factor) => {
      const strokes = recordCycle(key, { ...fineRecording, seed });
      const larger = strokes.map((stroke) => ({
        ...stroke,
        forceCn: stroke.forceCn.map((force) => factor * force),
        forceStepCn: factor * stroke.forceStepCn,
      }));
      const times = <T extends { readonly value: number }>(stated: T): T => ({
        ...stated,
        value: factor * stated.value,
      });
      const { touchForce, prominence, bottomOutSlope } = one.method;
      const scaled = {
        ...one,
        method: {
          ...one.method,
          touchForce: times(touchForce),
          prominence: times(prominence),
          bottomOutSlope: times(bottomOutSlope),
        },
      };
      compare(reduce(strokes), reduce(larger, scaled), (name, symbol, a, b) => {
        const expected = symbol === "mm" || symbol === "1" ? a : factor * a;
        expect(Math.abs(b - expected), name).toBeLessThan(1e-6 * Math.max(1, Math.abs(expected)));
      });
    }),
    settings,
  );
});

test("repeated rows and dwells move no result beyond the resolution", () => {
  fc.assert(
    fc.property(
      keys,
      seeds,
      fc.array(fc.integer({ min: 0, max: 370 }), { minLength: 1, maxLength: 4 }),
      (key, seed, places) => {
        const strokes = recordCycle(key, { ...fineRecording, seed });
        const repeated = strokes.map((stroke) => {
          const rows = Array.from(stroke.displacementMm, (_, i) => i).flatMap((i) => Array<number>(places.includes(i) ? 60 : 1 + (i % 2)).fill(i)); // prettier-ignore
          return {
            ...stroke,
            displacementMm: Float64Array.from(rows, (i) => stroke.displacementMm[i]!),
            forceCn: Float64Array.from(rows, (i) => stroke.forceCn[i]!),
            contact: Uint8Array.from(rows, (i) => stroke.contact![i]!),
          };
        });
        compare(reduce(strokes), reduce(repeated), (name, symbol, a, b) => {
          const allowed = symbol === "mm" ? 0.002 : symbol === "cN" ? 0.2 : symbol === "mJ" ? 0.001 : 0.02;
          expect(Math.abs(a - b), name).toBeLessThan(allowed);
        });
      },
    ),
    settings,
  );
});

test("the order of the strokes and of the cycles does not matter", () => {
  const strokes = [1, 2, 3].flatMap((cycle) =>
    recordCycle(tactileKey, { ...fineRecording, seed: cycle }, "KeyF", cycle),
  );
  const three = { ...one, method: { ...one.method, cyclesUsed: [1, 2, 3] } };
  const forward = reduce(strokes, three);
  const backward = reduce([...strokes].reverse(), three);
  expect(JSON.stringify(backward)).toBe(JSON.stringify(forward));
});

test("small steps back on the press are left out of the curve and said", () => {
  const [press, release] = recordCycle(linearKey, fineRecording);
  const rows = Array.from(press!.displacementMm, (_, i) => i).flatMap((i) =>
    i === 150 ? [i, i - 2, i - 4, i - 2, i] : [i],
  );
  const back: Stroke = {
    ...press!,
    displacementMm: Float64Array.from(rows, (i) => press!.displacementMm[i]!),
    forceCn: Float64Array.from(rows, (i, at) => press!.forceCn[i]! - (rows[at - 1]! > i ? 6 : 0)),
    contact: Uint8Array.from(rows, (i) => press!.contact![i]!),
  };
  compare(reduce([press!, release!]), reduce([back, release!]), (name, symbol, a, b) => {
    expect(Math.abs(a - b), name).toBeLessThan(symbol === "cN" ? 0.3 : 0.02);
  });
  const result = reduceKeystroke([back, release!], one);
  expect(result.flags.map((flag) => flag.code)).toEqual(["slip"]);
});
