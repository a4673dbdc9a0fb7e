import { expect, test } from "vitest";
import type { KeystrokeReduction } from "../../src/keystroke/index.js";
import { characteristicNames, reduceKeystroke, splitStream } from "../../src/keystroke/index.js";
import { seededRandom } from "../../src/metrology/random.js";
import type { Stroke } from "../../src/records/readings.js";
import { context, fineRecording, linearKey, method, recordCycle } from "./analytic-curve.js";

const one = { ...context, method: { ...method, keys: ["KeyF"], cyclesUsed: [1] } };
const [template] = recordCycle(linearKey, fineRecording);

function stroke(kind: Stroke["stroke"], displacements: readonly number[], forces: readonly number[]): Stroke {
  return {
    ...template!,
    stroke: kind,
    displacementMm: Float64Array.from(displacements),
    forceCn: Float64Array.from(forces),
    contact: new Uint8Array(displacements.length),
  };
}

/** Every characteristic is a finite number or absent with a clause, and both survive as data. */
function sane(result: KeystrokeReduction): void {
  for (const key of result.keys) {
    for (const name of characteristicNames) {
      const measured = key[name];
      if (measured.absent) expect(measured.reason.length, name).toBeGreaterThan(10);
      else {
        expect(Number.isFinite(measured.value), name).toBe(true);
        expect(Number.isFinite(measured.u), name).toBe(true);
      }
    }
    for (const cycle of key.cycles) {
      for (const [x, force] of [...cycle.curve.press, ...cycle.curve.release]) {
        expect(Number.isFinite(x) && Number.isFinite(force)).toBe(true);
      }
    }
  }
}

const random = seededRandom(4);
const noise = (count: number, size: number): readonly number[] =>
  Array.from({ length: count }, () => size * random.normal());
const ramp = (count: number): readonly number[] => Array.from({ length: count }, (_, i) => i / 100);
const zeros = (count: number): readonly number[] => Array<number>(count).fill(0);

const cases: Readonly<Record<string, readonly [readonly number[], readonly number[]]>> = {
  "no rows": [[], []],
  "one row": [[0.5], [3]],
  "two rows": [
    [0, 1],
    [0, 50],
  ],
  "three rows": [
    [0, 1, 2],
    [0, 50, 90],
  ],
  "displacement that never moves": [zeros(50), ramp(50)],
  "force that never moves": [ramp(300), zeros(300)],
  "nothing moves": [zeros(50), zeros(50)],
  "noise only": [ramp(300), noise(300, 0.2)],
  "noise in both channels": [noise(300, 1), noise(300, 20)],
  "a single spike": [ramp(300), ramp(300).map((_, i) => (i === 150 ? 80 : 0))],
  "a jump to a plateau": [ramp(300), ramp(300).map((x) => (x > 1 ? 50 : 0))],
  "a force that falls all along": [ramp(300), ramp(300).map((x) => 90 - 20 * x)],
  "a wall": [ramp(300), ramp(300).map((x) => 4000 * Math.max(0, x - 0.3))],
  "negative forces": [ramp(300), ramp(300).map((x) => -40 * x)],
  "huge numbers": [ramp(300).map((x) => 1e6 * x), ramp(300).map((x) => 1e9 * x)],
};

for (const [name, [displacements, forces]] of Object.entries(cases)) {
  test(`hostile strokes give finite numbers or reasons: ${name}`, () => {
    const down = stroke("press", displacements, forces);
    const up = stroke("release", [...displacements].reverse(), [...forces].reverse());
    for (const strokes of [[down], [up], [down, up]]) sane(reduceKeystroke(strokes, one));
    const closed = { ...down, contact: down.contact!.map((_, i) => (i > displacements.length / 2 ? 1 : 0)) };
    sane(reduceKeystroke([closed, up], one));
    sane(reduceKeystroke([closed, up], { ...one, contactSource: "report" }));
    const split = splitStream(down.displacementMm, down.forceCn);
    expect(split.cycles.length > 0).toBe(split.reason === "");
  });
}

test("no strokes at all give a reduction without keys", () => {
  const result = reduceKeystroke([], one);
  expect(result).toMatchObject({ keys: [], missingKeys: ["KeyF"], representativeKey: "" });
  expect(result.flags.map((flag) => flag.code)).toEqual(["few_keys"]);
});

test("a release alone leaves every characteristic absent: no press stroke was recorded", () => {
  const up = recordCycle(linearKey, fineRecording)[1]!;
  const key = reduceKeystroke([up], one).keys[0]!;
  for (const name of characteristicNames) {
    const measured = key[name];
    expect(measured.absent && measured.reason).toBe("no press stroke was recorded");
  }
});

test("numbers that are not finite and arrays of unequal length are refused with key, cycle and row", () => {
  expect(() => reduceKeystroke([stroke("press", [0, NaN, 1], [0, 1, 2])], one)).toThrow(
    /press of KeyF, cycle 1: row 2/,
  );
  expect(() => reduceKeystroke([stroke("press", [0, 1], [0, Infinity])], one)).toThrow(/row 2/);
  expect(() => reduceKeystroke([stroke("press", [0, 1, 2], [0, 1])], one)).toThrow(/3 displacements but 2 forces/);
});

test("the strokes handed in are not changed", () => {
  const strokes = recordCycle(linearKey, fineRecording);
  const before = JSON.stringify(strokes.map((each) => [Array.from(each.displacementMm), Array.from(each.forceCn)]));
  reduceKeystroke(strokes, one);
  expect(JSON.stringify(strokes.map((each) => [Array.from(each.displacementMm), Array.from(each.forceCn)]))).toBe(
    before,
  );
});
