import fc from "fast-check";
import { expect, test } from "vitest";
import { describeLines, mergeRanges, rowsByFile } from "../../src/dossier/line-ranges.js";

test("touching and overlapping runs of lines become one", () => {
  expect(
    mergeRanges([
      [10, 12],
      [2, 4],
      [5, 6],
      [11, 20],
    ]),
  ).toEqual([
    [2, 6],
    [10, 20],
  ]);
});

test("merged runs hold exactly the lines that went in", () => {
  const range = fc
    .tuple(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 0, max: 9 }))
    .map(([a, n]) => [a, a + n] as const);
  fc.assert(
    fc.property(fc.array(range, { maxLength: 12 }), (ranges) => {
      const lines = (list: readonly (readonly [number, number])[]): Set<number> =>
        new Set(list.flatMap(([a, b]) => Array.from({ length: b - a + 1 }, (_, i) => a + i)));
      const merged = mergeRanges(ranges);
      expect([...lines(merged)].sort((a, b) => a - b)).toEqual([...lines(ranges)].sort((a, b) => a - b));
      merged.slice(1).forEach(([first], index) => expect(first).toBeGreaterThan(merged[index]![1] + 1));
    }),
    { seed: 7, numRuns: 200 },
  );
});

test("one line, several runs, and very many runs are worded apart", () => {
  expect(describeLines([[14, 14]])).toBe("line\u00a014");
  expect(
    describeLines([
      [2, 4],
      [9, 9],
    ]),
  ).toBe("lines\u00a02–4, 9");
  const many = Array.from({ length: 49 }, (_, index) => [index * 3 + 1, index * 3 + 1] as const);
  expect(describeLines(many)).toBe("49 runs of lines from 1 to 145");
});

test("rows are gathered by file in order of first appearance, columns once each", () => {
  const leaf = (file: string, firstLine: number, columns: string[]) =>
    ({ kind: "rows", file, firstLine, lastLine: firstLine + 1, columns }) as const;
  expect(rowsByFile([leaf("b.csv", 2, ["x"]), leaf("a.csv", 5, ["y"]), leaf("b.csv", 4, ["x", "z"])])).toEqual([
    { file: "b.csv", ranges: [[2, 5]], columns: ["x", "z"] },
    { file: "a.csv", ranges: [[5, 6]], columns: ["y"] },
  ]);
});
