import fc from "fast-check";
import { expect, test } from "vitest";
import { meritChanges, meritCurve, meritStates, meritsFor, pickChanges } from "../../src/comparison/index.js";
import type { MeritInputs } from "../../src/comparison/index.js";
import { expand } from "../../src/metrology/index.js";
import type { ScoringMethod } from "../../src/records/archive.js";
import { normalCdf } from "../../src/statistics/numeric/distributions.js";
import { absent, own, present, quantity } from "./support.js";

const head = {
  title: "",
  since: "2026-01-01",
  notes: [],
  file: "",
  evidence: { kind: "rows", file: "", firstLine: 1, lastLine: 1, columns: [] },
} as const;
const scoring = (changed: Partial<ScoringMethod> = {}): ScoringMethod => ({
  ...head,
  id: "scoring@1",
  kind: "scoring",
  missingConnection: "renormalise",
  curves: {
    actuationForce: [
      [0, 0],
      [100, 1],
    ],
    latency: [
      [0, 1],
      [50, 0],
    ],
  },
  purposes: { hall: { actuationForce: 3, latency: 1 }, force_only: { actuationForce: 1 } },
  grades: [
    { name: "good", from: 0.5 },
    { name: "poor", from: 0 },
  ],
  picks: 1,
  ...changed,
});
interface Unit {
  readonly id: string;
  readonly inputs: MeritInputs;
}
const unit = (id: string, force: number, u = 1, latency?: number): Unit => ({
  id,
  inputs: {
    actuationForce: own(`${id}/force`, force, u),
    ...(latency === undefined ? {} : { latency: own(`${id}/latency`, latency, 1, { symbol: "ms" }) }),
  },
});
const inputsOf = ({ inputs }: Unit): MeritInputs => inputs;

test("a merit curve is straight between its points and flat outside them", () => {
  const points = [
    [30, 0.4],
    [50, 1],
    [70, 0.6],
  ] as const;
  expect([20, 30, 40, 50, 60, 70, 90].map((x) => meritCurve(points, x))).toEqual([0.4, 0.4, 0.7, 1, 0.8, 0.6, 0.6]);
});

test("a merit curve without points, with points that do not rise, or at NaN is refused", () => {
  expect(() => meritCurve([], 1)).toThrow(/at least one point/);
  expect(() =>
    meritCurve(
      [
        [1, 0],
        [1, 1],
      ],
      0.5,
    ),
  ).toThrow(/must rise/);
  expect(() => meritCurve([[1, 0]], NaN)).toThrow(/NaN/);
});

test("a merit lies between its curves' least and greatest, and a monotone curve keeps the order of values", () => {
  const points = fc
    .uniqueArray(fc.integer({ min: 0, max: 100 }), { minLength: 1, maxLength: 6 })
    .map((xs) => [...xs].sort((a, b) => a - b).map((x, i, all) => [x, i / all.length] as const));
  fc.assert(
    fc.property(points, fc.integer({ min: -50, max: 150 }), fc.integer({ min: -50, max: 150 }), (curve, a, b) => {
      const [low, high] = [meritCurve(curve, Math.min(a, b)), meritCurve(curve, Math.max(a, b))];
      expect(low).toBeLessThanOrEqual(high);
      expect(low).toBeGreaterThanOrEqual(0);
      expect(high).toBeLessThan(1);
    }),
    { seed: 7, numRuns: 200 },
  );
});

test("the merit is the weighted mean of its curves (computed by hand: (3 x 0.4 + 0.8)/4)", () => {
  const [found] = meritsFor([unit("a", 40, 1, 10)], inputsOf, scoring(), { purpose: "hall", seed: 1 }).merits;
  expect(present(found!.merit).value).toBeCloseTo((3 * 0.4 + 0.8) / 4, 12);
  expect(found!.parts).toEqual([
    { characteristic: "actuationForce", weight: 0.75, merit: 0.4 },
    { characteristic: "latency", weight: 0.25, merit: 0.8 },
  ]);
});

test.each([
  ["renormalise", 0.4, null],
  ["zero", 0.3, null],
  ["not_scored", null, "no latency: not measured"],
] as const)("a missing connection by the rule %s", (missingConnection, value, reason) => {
  const [found] = meritsFor([unit("a", 40)], inputsOf, scoring({ missingConnection }), {
    purpose: "hall",
    seed: 1,
  }).merits;
  if (value === null) expect(found!.merit.absent && found!.merit.reason).toBe(reason);
  else expect(present(found!.merit).value).toBeCloseTo(value, 12);
});

test("any other missing characteristic leaves a unit without a merit, last in the list, with the reason", () => {
  const without: Unit = { id: "b", inputs: { actuationForce: absent("no contact was recorded") } };
  const { merits, best } = meritsFor([without, unit("a", 40)], inputsOf, scoring(), { purpose: "force_only", seed: 1 });
  expect(merits.map(({ item }) => item.id)).toEqual(["a", "b"]);
  expect(merits[1]!.merit.absent && merits[1]!.merit.reason).toBe("no actuation force: no contact was recorded");
  expect(best.map(({ id }) => id)).toEqual(["a"]);
});

test("on a straight curve the draws give the uncertainty of the law of propagation", () => {
  const [found] = meritsFor([unit("a", 40, 2)], inputsOf, scoring(), {
    purpose: "force_only",
    seed: 3,
    draws: 20000,
  }).merits;
  const merit = present(found!.merit);
  expect(merit.u).toBeCloseTo(0.02, 3);
  expect(found!.interval![0]).toBeCloseTo(0.4 - expand(merit).U, 2);
  expect(found!.interval![1]).toBeCloseTo(0.4 + expand(merit).U, 2);
});

test("the probability of a grade is that of the normal distribution beyond its lower end", () => {
  const [found] = meritsFor([unit("a", 49, 2)], inputsOf, scoring(), {
    purpose: "force_only",
    seed: 3,
    draws: 20000,
  }).merits;
  expect(found!.grade).toBe("poor");
  expect(found!.grades[0]!.probability).toBeCloseTo(normalCdf((49 - 50) / 2), 2);
});

test("a source that two units share is drawn once, so it does not make their order uncertain", () => {
  const rig = { id: "rig", u: 10 };
  const shared = [
    { id: "a", inputs: { actuationForce: quantity(40, [rig, { id: "a", u: 0.01 }]) } },
    { id: "b", inputs: { actuationForce: quantity(41, [rig, { id: "b", u: 0.01 }]) } },
  ];
  const found = meritsFor(shared, inputsOf, scoring(), { purpose: "force_only", seed: 1, draws: 2000 });
  expect(found.probabilityOfPicks).toBe(1);
  expect(found.picks!.map(({ id }) => id)).toEqual(["b"]);
  const apart = meritsFor([unit("a", 40, 10), unit("b", 41, 10)], inputsOf, scoring(), {
    purpose: "force_only",
    seed: 1,
    draws: 20000,
  });
  expect(apart.picks).toBeNull();
  expect(apart.probabilityOfPicks).toBeCloseTo(normalCdf(1 / (10 * Math.SQRT2)), 2);
});

test("equal merits share the place that they compete for, and there is no safe choice between them", () => {
  const plateau = scoring({ curves: { actuationForce: [[0, 1]], latency: [[0, 1]] } });
  const found = meritsFor([unit("a", 40), unit("b", 45), unit("c", 50)], inputsOf, plateau, {
    purpose: "force_only",
    seed: 1,
    draws: 500,
  });
  expect(found.best.map(({ id }) => id)).toEqual(["a", "b", "c"]);
  expect(found.picks).toBeNull();
  expect(found.merits.map(({ probabilityPicked }) => probabilityPicked)).toEqual(
    [1 / 3, 1 / 3, 1 / 3].map((p) => expect.closeTo(p, 10)),
  );
});

test("the same seed gives the same merits, another one nearly the same", () => {
  const run = (seed: number): number => {
    const { merits } = meritsFor([unit("a", 49, 2), unit("b", 47, 2)], inputsOf, scoring(), { purpose: "hall", seed });
    return merits[0]!.grades[0]!.probability;
  };
  expect(run(5)).toBe(run(5));
  expect(Math.abs(run(5) - run(6))).toBeLessThan(0.04);
});

test("an unknown purpose is refused with the nearest one, and a weight without a curve is", () => {
  expect(() => meritsFor([unit("a", 1)], inputsOf, scoring(), { purpose: "force_onli", seed: 1 })).toThrow(
    /did you mean force_only/,
  );
  const broken = scoring({ curves: { latency: [[0, 1]] } });
  expect(() => meritsFor([unit("a", 1)], inputsOf, broken, { purpose: "hall", seed: 1 })).toThrow(/no curve/);
});

interface Twice {
  readonly id: string;
  readonly old: MeritInputs;
  readonly now: MeritInputs;
}
const twice = (id: string, old: number, now: number, u = 1): Twice => ({
  id,
  old: { actuationForce: own(`${id}/old`, old, u) },
  now: { actuationForce: own(`${id}/new`, now, u) },
});
const states = (units: readonly Twice[], draws = 4000): ReturnType<typeof meritStates<Twice>> =>
  meritStates(
    units,
    [
      { name: "old", scoring: scoring(), inputsOf: ({ old }) => old },
      { name: "new", scoring: scoring({ id: "scoring@2" }), inputsOf: ({ now }) => now },
    ],
    { purpose: "force_only", seed: 1, draws },
  );

test("a pick changes where the order that it needs is sure, and stays where no other comes in", () => {
  const changed = pickChanges(states([twice("a", 60, 40), twice("b", 50, 55)]), 0, 1);
  expect(changed.outcome).toBe("changed");
  expect(changed.entering.map(({ item }) => item.id)).toEqual(["b"]);
  const same = pickChanges(states([twice("a", 60, 61), twice("b", 50, 55)]), 0, 1);
  expect([same.outcome, same.kept.map(({ id }) => id)]).toEqual(["unchanged", ["a"]]);
});

test("a pick that another overtakes by value alone is no safe choice", () => {
  const found = pickChanges(states([twice("a", 60, 50), twice("b", 50, 50.5)]), 0, 1);
  expect(found.outcome).toBe("no safe choice");
  expect(found.entering[0]!.probability).toBeCloseTo(normalCdf(0.5 / Math.SQRT2), 1);
});

test("a unit without a merit in one state does not change a pick", () => {
  const units = [twice("a", 60, 60), { ...twice("b", 50, 90), old: { actuationForce: absent("new") } }];
  expect(pickChanges(states(units), 0, 1).outcome).toBe("unchanged");
});

test("a grade changes, stays or cannot be told by the draws of both states together", () => {
  const changes = meritChanges(states([twice("up", 40, 60), twice("same", 80, 81), twice("open", 49, 51, 2)]), 0, 1);
  expect(Object.fromEntries(changes.map(({ item, gradeChanges }) => [item.id, gradeChanges]))).toEqual({
    up: "yes",
    same: "no",
    open: "undecided",
  });
  const open = changes.find(({ item }) => item.id === "open")!;
  const [p, q] = [normalCdf((49 - 50) / 2), normalCdf((51 - 50) / 2)];
  expect(open.probabilityOtherGrade!).toBeCloseTo(p * (1 - q) + (1 - p) * q, 1);
});

test("what a unit's two merits share cancels in their change", () => {
  const rig = { id: "rig", u: 5 };
  const units: readonly Twice[] = [
    { id: "a", old: { actuationForce: quantity(40, [rig]) }, now: { actuationForce: quantity(42, [rig]) } },
  ];
  const [found] = meritChanges(states(units), 0, 1);
  expect(present(found!.change).value).toBeCloseTo(0.02, 12);
  expect(present(found!.change).u).toBeLessThan(1e-6);
  expect(present(found!.after.merit).u).toBeGreaterThan(0.04);
});
