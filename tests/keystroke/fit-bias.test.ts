import { expect, test } from "vitest";
import type { KeyCharacteristic, KeyReduction } from "../../src/keystroke/index.js";
import { reduceKeystroke } from "../../src/keystroke/index.js";
import { isQuantity } from "../../src/metrology/index.js";
import type { Quantity } from "../../src/metrology/index.js";
import { seededRandom } from "../../src/metrology/random.js";
import type { Stroke } from "../../src/records/readings.js";
import { meanOf } from "../../src/statistics/numeric/sums.js";
import { context, method } from "./analytic-curve.js";

const logistic = (x: number): number => 1 / (1 + Math.exp(-x));
const rise = (x: number): number => (x <= 0 ? 0 : 30 * (1 - Math.exp(-x / 0.03)) + 6 * x);
const stop = (x: number): number => 900 * 0.012 * Math.log1p(Math.exp((x - 2.5) / 0.012));
const gauss = (x: number): number => Math.exp(-0.5 * x * x);

/** A lopsided peak: built up slowly, let go at once. */
const lopsided = (x: number): number =>
  rise(x) + 13 * logistic((x - 0.6) / 0.07) * (1 - logistic((x - 1) / 0.025)) + stop(x);
/** A flat peak, symmetric but for the spring's slope, and a flat valley. */
const flat = (x: number): number => rise(x) + 16 * gauss((x - 0.9) / 0.4) - 9 * gauss((x - 1.8) / 0.35) + stop(x);

const names = ["KeyA", "KeyE", "KeyF", "KeyI", "KeyN", "KeyP", "KeyT", "KeyZ"];

/** Presses of eight equal keys, three times each. */
function presses(force: (x: number) => number, noiseCn: number, seed: number): readonly Stroke[] {
  const random = seededRandom(seed);
  return names.flatMap((key) =>
    [1, 2, 3].map((cycle): Stroke => {
      const shift = 0.01 * random.uniform();
      const x = Float64Array.from({ length: 280 }, (_, i) => 0.01 * i - 0.2 + shift);
      return {
        key,
        cycle,
        stroke: "press",
        displacementMm: x,
        forceCn: x.map((at) => (at > 0 ? force(at) : 0) + noiseCn * random.normal()),
        contact: null,
        displacementStepMm: 0.001,
        forceStepCn: 0.001,
        evidence: { kind: "rows", file: "force.csv", firstLine: 1, lastLine: 1, columns: [] },
      };
    }),
  );
}

/** Place (from where the force is 1 cN) and force of the highest point before 1.3 mm and of the lowest behind it. */
function truthOf(force: (x: number) => number): Record<"peakPosition" | "peakForce" | "valleyForce", number> {
  const at = (i: number): number => i * 1e-5;
  let [peak, valley, touch] = [0, 130_000, 0];
  while (force(at(touch)) < 1) touch++;
  for (let i = 20_000; i < 130_000; i++) if (force(at(i)) > force(at(peak))) peak = i;
  for (let i = peak; i < 245_000; i++) if (force(at(i)) < force(at(valley))) valley = i;
  return { peakPosition: at(peak - touch), peakForce: force(at(peak)), valleyForce: force(at(valley)) };
}

const quantity = (key: KeyReduction, name: KeyCharacteristic): Quantity => {
  const measured = key[name];
  if (!isQuantity(measured)) throw new Error(`${name}: ${measured.reason}`);
  return measured;
};
const reduce = (strokes: readonly Stroke[]): readonly KeyReduction[] => reduceKeystroke(strokes, context).keys;
const meanError = (sessions: readonly (readonly KeyReduction[])[], name: KeyCharacteristic, truth: number): number =>
  meanOf(sessions.flat().map((key) => quantity(key, name).value)) - truth;

test("the bias of a parabola at a lopsided peak is taken off, to less than half", () => {
  const truth = truthOf(lopsided).peakPosition;
  const strokes = [1, 2, 3].map((seed) => presses(lopsided, 0.08, seed));
  const together = meanError(strokes.map(reduce), "peakPosition", truth);
  const alone = meanError(
    strokes.flat().map((stroke) => reduce([stroke])),
    "peakPosition",
    truth,
  );
  console.log(`lopsided peak: off by ${alone.toFixed(4)} mm alone, by ${together.toFixed(4)} mm corrected`);
  expect(alone).toBeLessThan(-0.006);
  expect(Math.abs(together)).toBeLessThan(-alone / 2);
});

test("keys share the correction's uncertainty: its standard error, and half of it as a rectangle", () => {
  const keys = reduce(presses(lopsided, 0.08, 1));
  const parts = keys.map((key) =>
    quantity(key, "peakPosition").components.filter(({ source }) => source.id.includes("smoothing")),
  );
  expect(parts[0]!.map(({ source }) => [source.type, source.distribution, source.dof])).toEqual([
    ["A", "t", 23],
    ["B", "rectangular", Infinity],
  ]);
  for (const part of parts) {
    part.forEach(({ source, contribution }, i) => {
      expect(source.id).toBe(parts[0]![i]!.source.id);
      expect(contribution).toBeCloseTo(parts[0]![i]!.contribution, 12);
    });
  }
});

test("a flat peak of a noisy curve is read too high and its valley too low; a part of that is taken off, never more", () => {
  const truth = truthOf(flat);
  const strokes = Array.from({ length: 12 }, (_, i) => presses(flat, 0.35, 20 + i));
  const off = (name: "peakForce" | "valleyForce"): readonly [alone: number, together: number] => [
    meanError(
      strokes.flat().map((stroke) => reduce([stroke])),
      name,
      truth[name],
    ),
    meanError(strokes.map(reduce), name, truth[name]),
  ];
  for (const [name, sign] of [["peakForce", 1] as const, ["valleyForce", -1] as const]) {
    const [alone, together] = off(name);
    console.log(`${name}: off by ${alone.toFixed(4)} cN alone, by ${together.toFixed(4)} cN corrected`);
    expect(sign * alone).toBeGreaterThan(0.01);
    expect(sign * together).toBeGreaterThan(0);
    expect(sign * together).toBeLessThan(0.85 * sign * alone);
  }
});

test("of a single stroke nothing is taken off", () => {
  const [stroke] = presses(lopsided, 0.08, 4);
  const [key] = reduce([stroke!]);
  const cycle = key!.cycles[0]!.characteristics.peakPosition;
  expect(quantity(key!, "peakPosition").value).toBe(isQuantity(cycle) ? cycle.value : NaN);
  expect(quantity(key!, "peakPosition").components.some(({ source }) => source.id.endsWith("/remainder"))).toBe(false);
});

test("a cycle that is not used is corrected as the used ones are, and corrects none", () => {
  const strokes = presses(lopsided, 0.08, 5);
  const two = reduceKeystroke(strokes, { ...context, method: { ...method, cyclesUsed: [1, 2] } }).keys;
  const without = reduceKeystroke(
    strokes.filter((stroke) => stroke.cycle < 3),
    context,
  ).keys;
  two.forEach((key, i) => {
    expect(quantity(key, "peakPosition").value).toBe(quantity(without[i]!, "peakPosition").value);
    expect(JSON.stringify(key.cycles[2]!.characteristics.peakPosition.evidence)).toContain(
      "for the bias of local fits",
    );
  });
});
