import { expect, test } from "vitest";
import fc from "fast-check";
import { splitStream } from "../../src/keystroke/index.js";
import type { StreamSplit } from "../../src/keystroke/index.js";

/** Displacements with a force that follows them: 20 cN/mm beyond 0.2 mm. */
function split(
  displacements: readonly number[],
  force = (x: number): number => Math.max(0, 20 * (x - 0.2)),
): StreamSplit {
  const xs = Float64Array.from(displacements);
  return splitStream(xs, xs.map(force));
}

const ramp = (from: number, to: number, rows: number): readonly number[] =>
  Array.from({ length: rows }, (_, i) => from + ((to - from) * i) / (rows - 1));

const down = ramp(0, 4, 401);
const up = ramp(4, 0, 401);

test("approach, press and release of one stream become a press and a release", () => {
  const { cycles, leftRows, reason } = split([...down, ...up]);
  expect(cycles).toEqual([{ press: { from: 0, to: 401 }, release: { from: 401, to: 802 } }]);
  expect(leftRows).toBe(0);
  expect(reason).toBe("");
});

test("a dwell at the start belongs to the press, one at the bottom to neither stroke", () => {
  const { cycles, leftRows } = split([
    ...Array<number>(50).fill(0),
    ...down,
    ...Array<number>(30).fill(4),
    ...up.slice(1),
  ]);
  expect(cycles).toEqual([{ press: { from: 0, to: 451 }, release: { from: 480, to: 881 } }]);
  expect(leftRows).toBe(29);
});

test("a pause and small steps back do not start a stroke", () => {
  const trembling = down.flatMap((x, i) => (i % 40 === 39 ? [x, x - 0.02, x - 0.01, x, x, x] : [x]));
  const { cycles } = split([...trembling, ...up]);
  expect(cycles).toHaveLength(1);
  expect(cycles[0]!.press).toEqual({ from: 0, to: trembling.length });
});

test("every cycle of a stream of three is found, without a row in two strokes", () => {
  const { cycles } = split([...down, ...up, ...down, ...up, ...down, ...up]);
  expect(cycles).toHaveLength(3);
  const ranges = cycles.flatMap((cycle) => [cycle.press, cycle.release!]);
  for (let i = 1; i < ranges.length; i++) expect(ranges[i]!.from).toBeGreaterThanOrEqual(ranges[i - 1]!.to);
});

test("an axis that counts down is split by the force, not by its sign", () => {
  const { cycles } = split([...down, ...up].map((x) => 10 - x), (x) => Math.max(0, 20 * (9.8 - x))); // prettier-ignore
  expect(cycles).toEqual([{ press: { from: 0, to: 401 }, release: { from: 401, to: 802 } }]);
});

test("a stream without a release has none", () => {
  expect(split(down).cycles).toEqual([{ press: { from: 0, to: 401 }, release: null }]);
});

test("a stream without a press says why", () => {
  expect(split([]).reason).toMatch(/only 0 rows/);
  expect(split([1, 2]).reason).toMatch(/only 2 rows/);
  expect(split(Array<number>(20).fill(1)).reason).toMatch(/does not move/);
  expect(split(down, () => 3).reason).toMatch(/holds no press/);
});

test("numbers that are not finite and lengths that differ are refused with their row", () => {
  expect(() => split([0, 1, NaN])).toThrow(/row 3/);
  expect(() => splitStream(new Float64Array(3), new Float64Array(2))).toThrow(/3 displacements but 2 forces/);
});

test("readings rounded to any step, repeated and with dwells give one press and one release", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 20 }),
      fc.integer({ min: 1, max: 4 }),
      fc.array(fc.integer({ min: 0, max: 800 }), { maxLength: 5 }),
      (stepMicrometres, repeats, dwells) => {
        const step = stepMicrometres / 1000;
        const rows = [...down, ...up].flatMap((x, i) => {
          const count = repeats + 25 * dwells.filter((row) => row === i).length;
          return Array<number>(count).fill(Math.round(x / step) * step);
        });
        const { cycles } = split(rows);
        expect(cycles).toHaveLength(1);
        expect(cycles[0]!.release).not.toBeNull();
        const deepest = rows[cycles[0]!.press.to - 1]!;
        expect(deepest).toBeCloseTo(Math.max(...rows), 12);
      },
    ),
    { seed: 5, numRuns: 60 },
  );
});
