import fc from "fast-check";
import { expect, test } from "vitest";
import { readArchive, readStrokes } from "../../src/records/index.js";
import { smallestStep } from "../../src/records/smallest-step.js";
import type { Override } from "./make-archive.js";
import { forceTable, replacing, withArchive } from "./make-archive.js";

const force = "units/u01/s1/force.csv";
const header = "key,cycle,stroke,displacement_mm,force_cN,contact";

function strokesOf(files: Readonly<Record<string, Override>>): ReturnType<typeof readStrokes> {
  return withArchive(files, (root) => {
    const archive = readArchive(root);
    return readStrokes(archive, archive.units[0]!.sessions[0]!);
  });
}

test("a file reads as one stroke for each key, cycle and direction, in file order, with its lines", () => {
  const { strokes, problems } = strokesOf({});
  expect(problems).toEqual([]);
  expect(strokes.map((s) => `${s.key} ${s.cycle} ${s.stroke} ${s.evidence.firstLine}-${s.evidence.lastLine}`)).toEqual([
    "KeyF 1 press 2-42",
    "KeyF 1 release 43-83",
    "KeyF 2 press 84-124",
    "KeyF 2 release 125-165",
    "KeyA 1 press 166-206",
    "KeyA 1 release 207-247",
    "KeyA 2 press 248-288",
    "KeyA 2 release 289-329",
  ]);
  expect(strokes[0]?.evidence).toMatchObject({ file: force, columns: ["displacement_mm", "force_cN", "contact"] });
  expect([strokes[0]?.displacementMm[10], strokes[0]?.forceCn[10], strokes[0]?.contact?.[20]]).toEqual([1, 41.8, 1]);
});

test("cycles excluded by hand are read like all others; their reasons stand in the session", () => {
  const { strokes } = strokesOf({});
  expect(strokes.filter((stroke) => stroke.key === "KeyA" && stroke.cycle === 2)).toHaveLength(2);
});

test("a stroke without contact readings has none, and another one of the same file keeps its own", () => {
  const { strokes, problems } = strokesOf({ [force]: (text) => text.replace(/^(KeyA,2,press,.*),[01]$/gm, "$1,") });
  expect(problems).toEqual([]);
  expect(strokes.map((stroke) => stroke.contact === null)).toEqual([
    false,
    false,
    false,
    false,
    false,
    false,
    true,
    false,
  ]);
});

test("a stroke with an error of its own is left out and named; the others are read", () => {
  const { strokes, problems } = strokesOf({
    [force]: replacing("KeyF,2,press,0.500,34.0,0", "KeyF,2,press,0.500,34.0,9"),
  });
  expect(problems.map((p) => `${p.code} ${p.line}`)).toEqual(["E_CONTACT_VALUE 89"]);
  expect(strokes).toHaveLength(7);
  expect(strokes.some((stroke) => stroke.key === "KeyF" && stroke.cycle === 2 && stroke.stroke === "press")).toBe(
    false,
  );
});

test("a misspelt stroke breaks the run it stands in and does not split it", () => {
  const { strokes, problems } = strokesOf({ [force]: replacing("KeyF,2,press,0.500", "KeyF,2,pres,0.500") });
  expect(problems.map((p) => `${p.code} ${p.line}`)).toEqual(["E_VALUE_UNKNOWN 89"]);
  expect(strokes).toHaveLength(7);
});

test("rows before the first readable one are reported and hide no stroke", () => {
  const { strokes, problems } = strokesOf({ [force]: replacing(`${header}\n`, `${header}\nF,1,press,0,0,0\n`) });
  expect(problems.map((p) => `${p.code} ${p.line}`)).toEqual(["E_KEY_CODE 2"]);
  expect(strokes).toHaveLength(8);
  expect(strokes[0]?.evidence.firstLine).toBe(3);
});

test("readings in other units of measure give the same strokes", () => {
  const scaled = (factors: readonly [number, number], names: readonly [string, string]) => (text: string) =>
    text
      .trimEnd()
      .split("\n")
      .map((line, i) => {
        if (i === 0) return line.replace("displacement_mm", names[0]).replace("force_cN", names[1]);
        const cells = line.split(",");
        cells[3] = String(Math.round(Number(cells[3]) * factors[0] * 1e6) / 1e6);
        cells[4] = String(Math.round(Number(cells[4]) * factors[1] * 1e6) / 1e6);
        return cells.join(",");
      })
      .join("\n");
  const plain = strokesOf({}).strokes;
  const { strokes, problems } = strokesOf({ [force]: scaled([1000, 0.01], ["displacement_um", "force_N"]) });
  expect(problems).toEqual([]);
  expect(strokes.map((s) => [s.displacementMm, s.forceCn, s.displacementStepMm, s.forceStepCn])).toEqual(
    plain.map((s) => [s.displacementMm, s.forceCn, s.displacementStepMm, s.forceStepCn]),
  );
  expect(strokes[0]?.evidence.columns).toEqual(["displacement_um", "force_N", "contact"]);
});

test("one wild reading is no second recording, and a dwell is no standstill", () => {
  const wild = (text: string): string =>
    text.replace(
      "KeyF,1,press,0.500,34.0,0",
      "KeyF,1,press,3.900,34.0,0\nKeyF,1,press,0.500,34.0,0\nKeyF,1,press,0.500,34.1,0",
    );
  const { strokes, problems } = strokesOf({ [force]: wild });
  expect(problems).toEqual([]);
  expect(strokes[0]?.displacementMm).toHaveLength(43);
});

test("the recorded step is the smallest difference of two readings, free of the rounding of doubles", () => {
  expect(smallestStep(Float64Array.from([0.3, 0.1, 0.2, 0.1]))).toBe(0.1);
  expect(smallestStep(Float64Array.from([0.1 + 0.2, 0.3, 0.8]))).toBe(0.5);
  expect(smallestStep(Float64Array.from([5, 5]))).toBe(0);
  expect(smallestStep(new Float64Array(0))).toBe(0);
  expect(() => smallestStep(Float64Array.from([1, NaN]))).toThrow(/not a finite number/);
  const { strokes } = strokesOf({ [force]: forceTable(["KeyF", "KeyA"], [1, 2]).replace("force_cN", "force_gf") });
  expect(strokes[0]?.forceStepCn).toBe(0.0980665);
});

test("a recorded step divides every difference of readings recorded in whole steps", () => {
  fc.assert(
    fc.property(fc.uniqueArray(fc.integer({ min: 0, max: 5000 }), { minLength: 2 }), (counts) => {
      const sorted = [...counts].sort((a, b) => a - b);
      const least = Math.min(...sorted.slice(1).map((count, i) => count - sorted[i]!));
      expect(smallestStep(Float64Array.from(counts, (count) => count * 0.005))).toBeCloseTo(least * 0.005, 9);
    }),
    { seed: 9 },
  );
});

test("keys between the heaviest and the lightest of ergonomic limits give no word about magnitude", () => {
  const scale = (factor: number) => (text: string) =>
    text.replace(
      /^(Key.,\d,\w+,[\d.]+),([\d.]+)/gm,
      (_, head: string, cN: string) => `${head},${(Number(cN) * factor).toFixed(2)}`,
    );
  for (const factor of [0.25, 0.5, 2, 4]) expect(strokesOf({ [force]: scale(factor) }).problems).toEqual([]);
});

test("the approach through air does not make a key light, nor the end stop heavy", () => {
  const approach = (text: string): string =>
    text.replace(/^(Key.,\d),press,0\.000,0\.0,0$/gm, (line, head: string) => {
      const air = Array.from({ length: 60 }, (_, i) => `${head},press,${(i / 10 - 6).toFixed(3)},0.0,0`);
      return [...air, line].join("\n");
    });
  const stop = (text: string): string =>
    text.replace(/^(Key.,\d),press,4\.000,.*$/gm, (line, head: string) => `${line}\n${head},press,4.010,900.0,1`);
  expect(strokesOf({ [force]: (text) => stop(approach(text)) }).problems).toEqual([]);
});
