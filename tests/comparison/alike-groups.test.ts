import fc from "fast-check";
import { expect, test } from "vitest";
import { alikeBrackets, alikeGroups } from "../../src/comparison/index.js";
import { absent, own, quantity } from "./support.js";

interface Item {
  readonly id: string;
  readonly value: ReturnType<typeof quantity>;
}
const items = (values: readonly (readonly [number, number])[]): readonly Item[] =>
  values.map(([value, u], i) => ({ id: `u${i}`, value: own(`u${i}`, value, u) }));

/** Every largest set without a pair that differs, by trying all sets: the definition itself. */
function largestAlike(pValues: readonly (readonly number[])[], level: number): readonly string[] {
  const n = pValues.length;
  const sets = Array.from({ length: 2 ** n - 1 }, (_, k) =>
    Array.from({ length: n }, (__, i) => i).filter((i) => ((k + 1) >> i) & 1),
  ).filter((set) => set.every((i) => set.every((j) => i === j || pValues[i]![j]! > level)));
  return sets
    .filter((set) => !sets.some((other) => other.length > set.length && set.every((i) => other.includes(i))))
    .map(String)
    .sort();
}

const scattered = fc.array(
  fc.tuple(fc.double({ min: 0, max: 10, noNaN: true }), fc.double({ min: 0.1, max: 2, noNaN: true })),
  {
    minLength: 1,
    maxLength: 8,
  },
);

test("the groups are all the largest sets without a pair that differs (no published set; tried over all sets)", () => {
  fc.assert(
    fc.property(scattered, (values) => {
      const { groups, pValues, level } = alikeGroups(items(values), ({ value }) => value);
      expect(groups.map(String).sort()).toEqual(largestAlike(pValues, level));
    }),
    { seed: 2, numRuns: 150 },
  );
});

test("likeness is not carried over: the middle one stands in two groups", () => {
  const { groups } = alikeGroups(
    items([
      [0, 1],
      [3, 1],
      [6, 1],
    ]),
    ({ value }) => value,
  );
  expect(groups).toEqual([
    [0, 1],
    [1, 2],
  ]);
});

test("items without a value are left out, and one item alone is a group", () => {
  const found = alikeGroups(["a", "b"], (id) => (id === "a" ? own("a", 1, 1) : absent("not measured")));
  expect(found.order.map(({ item }) => item)).toEqual(["a"]);
  expect(found.groups).toEqual([[0]]);
  expect(alikeGroups([], () => own("x", 1, 1)).groups).toEqual([]);
});

test("a rig that all share tells units apart that it would hide", () => {
  const rig = { id: "rig", u: 5 };
  const { groups } = alikeGroups([1, 2], (i) => quantity(i, [rig, { id: `own ${i}`, u: 0.1 }]));
  expect(groups).toEqual([[0], [1]]);
});

test("a bracket never joins two that differ, and every alike pair is in a bracket or listed apart", () => {
  fc.assert(
    fc.property(scattered, (values) => {
      const found = alikeGroups(items(values), ({ value }) => value);
      const { brackets, unshown } = alikeBrackets(found);
      for (const { first, last } of brackets) {
        for (let i = first; i <= last; i++) {
          for (let j = i + 1; j <= last; j++) expect(found.pValues[i]![j]).toBeGreaterThan(found.level);
        }
      }
      found.order.forEach((_, i) =>
        found.order.slice(i + 1).forEach((__, k) => {
          const j = i + 1 + k;
          const inBracket = brackets.some(({ first, last }) => first <= i && j <= last);
          const apart = unshown.some(([a, b]) => a === i && b === j);
          expect(inBracket || apart).toBe(found.pValues[i]![j]! > found.level);
        }),
      );
    }),
    { seed: 3, numRuns: 200 },
  );
});

test("two uncertain items on both sides of a sure one are alike without a bracket", () => {
  const found = alikeGroups(
    items([
      [0, 3],
      [7, 0.01],
      [7.2, 0.01],
      [7.4, 3],
    ]),
    ({ value }) => value,
  );
  const { brackets, unshown } = alikeBrackets(found);
  expect(brackets).toEqual(
    [
      { first: 0, last: 1 },
      { first: 2, last: 3 },
    ].filter(({ first, last }) => found.pValues[first]![last]! > found.level),
  );
  expect(unshown.length).toBeGreaterThan(0);
});

test("a level that is none is refused", () => {
  expect(() => alikeGroups([1], () => own("x", 1, 1), { level: NaN })).toThrow(/level/);
});
