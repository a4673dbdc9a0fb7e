import { expect, test } from "vitest";
import { expectedChange, probabilityBeyond, workEffort } from "../../src/comparison/index.js";
import { expand } from "../../src/metrology/index.js";
import { seededRandom } from "../../src/metrology/random.js";
import { predictionIntervalKernel } from "../../src/statistics/index.js";
import { absent, own, present, quantity } from "./support.js";

interface Unit {
  readonly kind: string;
  readonly change: ReturnType<typeof own> | ReturnType<typeof absent>;
}
const unit = (kind: string, change: number): Unit => ({ kind, change: own(`${kind}${change}`, change, 0.3) });
const options = { change: ({ change }: Unit) => change, kind: ({ kind }: Unit) => kind, id: "u07/actuationForce" };
const pending = (kind: string): Unit => ({ kind, change: absent("not retested") });

test("the interval is that of one further value (Hahn and Meeker; against the checked kernel)", () => {
  const changes = [0.4, 1.6, -0.9, 0.3];
  const found = expectedChange(
    pending("linear"),
    changes.map((value) => unit("linear", value)),
    options,
  );
  const { lower, upper } = predictionIntervalKernel(changes);
  const change = present(found.change);
  expect(change.value - expand(change).U).toBeCloseTo(lower, 10);
  expect(change.value + expand(change).U).toBeCloseTo(upper, 10);
  expect(found.basis).toBe("kind");
  expect(found.note).toBe("from 4 retested units of its kind (linear)");
});

test("under three of its kind all kinds are taken, and it is said so", () => {
  const retested = [unit("linear", 1), unit("linear", 2), unit("tactile", -1), unit("clicky", 0)];
  const found = expectedChange(pending("linear"), retested, options);
  expect(found.from.count).toBe(4);
  expect(found.note).toBe("from 4 retested units of all kinds, since only 2 of its kind (linear) were retested");
  expect(expectedChange(pending("silent"), retested, options).note).toContain("since none of its kind (silent)");
});

test("under three in all nothing is expected", () => {
  const found = expectedChange(pending("linear"), [unit("linear", 1), unit("linear", 2)], options);
  expect(found.basis).toBe("none");
  expect(found.change.absent && found.change.reason).toContain("three are needed");
});

test("of units like the others, 95 % of the further changes lie inside (3000 seeded runs)", () => {
  const random = seededRandom(21);
  let inside = 0;
  for (let run = 0; run < 3000; run++) {
    const retested = Array.from({ length: 5 }, (_, i) => ({
      kind: "linear",
      change: quantity(2 * random.normal(), [{ id: `${i}`, u: 0.1 }]),
    }));
    const { change } = expectedChange(pending("linear"), retested, options);
    const next = 2 * random.normal();
    if (Math.abs(next - present(change).value) <= expand(present(change)).U) inside++;
  }
  expect(inside / 3000).toBeGreaterThan(0.94);
  expect(inside / 3000).toBeLessThan(0.96);
});

test("the probability of a change beyond a margin is the share of draws beyond it", () => {
  const change = quantity(1, [{ id: "x", u: 2, dof: 4 }]);
  const random = seededRandom(22);
  let beyond = 0;
  for (let draw = 0; draw < 40000; draw++) {
    const scale = Math.sqrt([1, 2, 3, 4].reduce((s) => s + random.normal() ** 2, 0) / 4);
    if (Math.abs(1 + (2 * random.normal()) / scale) > 3) beyond++;
  }
  expect(probabilityBeyond(change, quantity(3))).toBeCloseTo(beyond / 40000, 2);
  expect(probabilityBeyond(quantity(4), quantity(3))).toBe(1);
  expect(() => probabilityBeyond(change, quantity(3, [], "mm"))).toThrow(/mm/);
});

test("effort is added up from the stated minutes, and a missing one is named", () => {
  const effort = { mount: quantity(7, [], "min"), key: quantity(5, [], "min") };
  expect(present(workEffort({ mount: 1, key: 8, filmReading: 0 }, effort)).value).toBe(47);
  const missing = workEffort({ mount: 1, filmReading: 2 }, effort);
  expect(missing.absent && missing.reason).toBe("lab.yaml states no effort for film reading");
  expect(() => workEffort({ key: NaN }, effort)).toThrow(/NaN times/);
});
