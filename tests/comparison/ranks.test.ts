import fc from "fast-check";
import { expect, test } from "vitest";
import { rankBy, rankChanges } from "../../src/comparison/index.js";
import { seededRandom } from "../../src/metrology/random.js";
import { normalCdf } from "../../src/statistics/numeric/distributions.js";
import { absent, own, quantity } from "./support.js";

interface Item {
  readonly id: string;
  readonly value: ReturnType<typeof quantity> | ReturnType<typeof absent>;
}
const options = { first: "smallest", seed: 1 } as const;
const valueOf = ({ value }: Item): Item["value"] => value;

test("the probability that one comes before another is that of their difference (computed from the normal distribution)", () => {
  const { beats } = rankBy([1, 2], (i) => own(`u${i}`, i, 1), { ...options, draws: 200_000 });
  expect(beats[0]![1]).toBeCloseTo(normalCdf(1 / Math.SQRT2), 2);
  expect(beats[0]![1]! + beats[1]![0]!).toBeCloseTo(1, 12);
});

test("values that are equal in a draw count half for each", () => {
  const { beats, ranks } = rankBy([1, 2], () => quantity(5), options);
  expect(beats[0]![1]).toBe(0.5);
  expect(ranks.map(({ rank }) => rank.count)).toEqual([1, 1]);
});

test("well apart, every rank is sure; a shared rig does not blur it", () => {
  const rig = { id: "rig", u: 100 };
  const { ranks } = rankBy([3, 1, 2], (i) => quantity(i, [rig, { id: `${i}`, u: 0.05 }]), options);
  expect(ranks.map(({ item, rank, best, worst }) => [item, rank.count, best.count, worst.count])).toEqual([
    [1, 1, 1, 1],
    [2, 2, 2, 2],
    [3, 3, 3, 3],
  ]);
});

test("items without a value are listed apart, never ranked last; without items all is empty", () => {
  const found = rankBy<Item>(
    [
      { id: "a", value: own("a", 1, 1) },
      { id: "b", value: absent("not measured") },
    ],
    valueOf,
    options,
  );
  expect(found.ranks.map(({ item }) => item.id)).toEqual(["a"]);
  expect(found.unranked).toEqual([{ item: { id: "b", value: expect.anything() }, reason: "not measured" }]);
  expect(rankBy<Item>([], valueOf, options).ranks).toEqual([]);
});

test("the true rank lies in its 95 % interval in at least 95 % of 400 seeded runs", () => {
  const random = seededRandom(41);
  const truth = [0, 0.5, 1, 2, 3];
  let inside = 0;
  for (let run = 0; run < 400; run++) {
    const { ranks } = rankBy(truth, (t) => own(`u${t}`, t + 0.7 * random.normal(), 0.7), { ...options, draws: 500 });
    inside += ranks.filter(({ item, best, worst }) => {
      const rank = truth.indexOf(item) + 1;
      return best.count <= rank && rank <= worst.count;
    }).length;
  }
  expect(inside / (400 * truth.length)).toBeGreaterThan(0.95);
});

test("two units of measure are refused", () => {
  expect(() => rankBy([1, 2], (i) => (i === 1 ? quantity(1) : quantity(1, [], "mm" as "cN")), options)).toThrow(
    /cannot rank/,
  );
});

interface Twice {
  readonly id: string;
  readonly before: ReturnType<typeof quantity>;
  readonly after: ReturnType<typeof quantity>;
}
const twice = (id: string, before: number, after: number, u = 0.3): Twice => ({
  id,
  before: own(`${id}/1`, before, u),
  after: own(`${id}/2`, after, u),
});
const sides = { before: ({ before }: Twice) => before, after: ({ after }: Twice) => after };

test("an order that surely turned is named with both units, a shift within the uncertainty is not", () => {
  const found = rankChanges(
    [twice("a", 1, 9), twice("b", 5, 4), twice("c", 20, 20), twice("d", 20.1, 19.9)],
    sides,
    options,
  );
  expect(found.reversals.map(({ falls, rises }) => [falls.id, rises.id])).toEqual([["a", "b"]]);
  expect(found.changes.map(({ item, change }) => [item.id, change])).toEqual([
    ["a", "yes"],
    ["b", "yes"],
    ["c", "undecided"],
    ["d", "undecided"],
  ]);
  expect(found.brackets.after).toEqual([{ from: 3, to: 4 }]);
});

test("a pair that turned only when taken alone is listed apart, with its own p, and is no reversal", () => {
  const still = Array.from({ length: 8 }, (_, i) => twice(`u${i}`, 20 + 5 * i, 20 + 5 * i));
  const found = rankChanges([twice("a", 1, 2), twice("b", 2, 1), ...still], sides, options);
  expect(found.reversals).toEqual([]);
  expect(found.turnedAlone.map(({ falls, rises }) => [falls.id, rises.id])).toEqual([["a", "b"]]);
  expect(found.turnedAlone[0]!.pValue).toBeCloseTo(2 * (1 - normalCdf(1 / 0.3 / Math.SQRT2)), 4);
});

test("ranked from the largest, the one that falls is the one that was larger", () => {
  const found = rankChanges([twice("a", 9, 1), twice("b", 5, 6)], sides, { ...options, first: "largest" });
  expect(found.reversals.map(({ falls, rises }) => [falls.id, rises.id])).toEqual([["a", "b"]]);
});

test("units without a value on a side are not ranked, so that ranks before and after compare the same units", () => {
  const items = [twice("a", 1, 2), twice("b", 3, 4), { ...twice("c", 2, 0), after: absent("not retested") }];
  const found = rankChanges(items, { before: ({ before }) => before, after: ({ after }) => after }, options);
  expect(found.changes[2]).toMatchObject({ before: null, after: null, reason: "not retested", change: null });
  expect(found.changes[1]!.after!.rank.count).toBe(2);
});

test("of 1500 seeded tables of eight units whose order never changed, at most 5 % name a turned pair (gate 6 %)", () => {
  const random = seededRandom(42);
  let tables = 0;
  for (let table = 0; table < 1500; table++) {
    const items = Array.from({ length: 8 }, (_, i) => {
      const truth = i * 0.4;
      return twice(`u${i}`, truth + 0.3 * random.normal(), truth + 0.3 * random.normal());
    });
    if (rankChanges(items, sides, { ...options, draws: 1 }).reversals.length > 0) tables++;
  }
  expect(tables / 1500).toBeLessThanOrEqual(0.06);
});

test("brackets lie within the ranks and ascend", () => {
  const values = fc.array(
    fc.tuple(fc.double({ min: 0, max: 9, noNaN: true }), fc.double({ min: 0, max: 9, noNaN: true })),
    { minLength: 1, maxLength: 9 },
  );
  fc.assert(
    fc.property(values, (pairs) => {
      const items = pairs.map(([a, b], i) => twice(`u${i}`, a, b, 1));
      const { brackets } = rankChanges(items, sides, { ...options, draws: 1 });
      for (const { from, to } of [...brackets.before, ...brackets.after]) {
        expect(from).toBeGreaterThanOrEqual(1);
        expect(to).toBeLessThanOrEqual(items.length);
        expect(from).toBeLessThanOrEqual(to);
      }
    }),
    { seed: 8, numRuns: 100 },
  );
});
