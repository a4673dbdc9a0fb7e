import { expect, test } from "vitest";
import { movements } from "../../src/comparison/index.js";
import { verdictWord } from "../../src/metrology/index.js";
import { seededRandom } from "../../src/metrology/random.js";
import { absent, own, quantity } from "./support.js";

const margin = quantity(3);
const one = (value: number, u: number, dof?: number): ReturnType<typeof movements<string>>[number] =>
  movements(["u01"], () => own("d", value, u, dof === undefined ? {} : { dof }), { smallestChange: margin })[0]!;

test("a large change moved, a small one did not move, and a vague one cannot be told", () => {
  expect(verdictWord(one(-4.9, 0.35).verdict)).toBe("moved");
  expect(verdictWord(one(0.4, 0.35).verdict)).toBe("did not move");
  expect(verdictWord(one(2.6, 1.4).verdict)).toBe("cannot tell");
});

test("a change that surely differs from nothing but surely does not matter did not move", () => {
  expect(one(0.5, 0.05).verdict.outcome).toBe("no");
});

test("a moved unit whose interval holds the smallest change that matters says so", () => {
  const found = one(2.9, 0.35);
  expect(found.verdict.outcome).toBe("yes");
  expect(found.note).toBe("its size may not matter");
  expect(one(9, 0.35).note).toBe("");
});

test("a bench whose U is larger than the smallest change that matters cannot show that a unit did not move", () => {
  const found = one(0, 1.6);
  expect(found.pSame!).toBeLessThan(0.05);
  expect(found.verdict.outcome).toBe("undecided");
  expect(found.note).toBe("this bench cannot show that it did not move");
});

test("without a smallest change only moved and cannot tell are said", () => {
  const found = movements([5, 0], (d) => own(`d${d}`, d, 0.5));
  expect(found.map(({ verdict }) => verdictWord(verdict))).toEqual(["moved", "cannot tell"]);
  expect(found.every(({ pSame, note }) => pSame === null && note === "")).toBe(true);
});

test("an item without a change keeps its place and its reason, and takes no part in the adjustment", () => {
  const found = movements(["a", "b"], (id) => (id === "a" ? absent("no second session") : own("b", 0.1, 0.2)), {
    smallestChange: margin,
  });
  expect(found[0]!.verdict.statement).toContain("no second session");
  expect(found[0]!.pMoved).toBeNull();
  expect(found[1]!.verdict.rule).toContain("Holm over 1 ");
});

test("each row has its own smallest change, and all rows are one family", () => {
  const rows = [
    { id: "force", d: quantity(1, [{ id: "f", u: 0.2 }]), margin: quantity(3) },
    { id: "travel", d: quantity(0.2, [{ id: "t", u: 0.01 }], "mm"), margin: quantity(0.12, [], "mm") },
  ];
  const found = movements(rows, ({ d }) => d, { smallestChange: ({ margin: own }) => own });
  expect(found.map(({ verdict }) => verdict.outcome)).toEqual(["no", "yes"]);
  expect(found[1]!.verdict.rule).toContain("Holm over 2 ");
});

test("the same object twice in the list is judged twice", () => {
  const unit = { d: own("d", 9, 1) };
  expect(movements([unit, unit], ({ d }) => d).map(({ verdict }) => verdict.outcome)).toEqual(["yes", "yes"]);
});

test("over 4000 seeded tables in which nothing moved, any false moved has at most 5 % (gate 6 %)", () => {
  const random = seededRandom(11);
  const [tables, rows, dof] = [4000, 10, 8];
  let withFalse = 0;
  for (let table = 0; table < tables; table++) {
    const found = movements(
      Array.from({ length: rows }, (_, i) => i),
      (i) => {
        const s = Math.sqrt(Array.from({ length: dof }, () => random.normal() ** 2).reduce((a, b) => a + b, 0) / dof);
        return own(`d${i}`, random.normal(), s, { dof });
      },
    );
    if (found.some(({ verdict }) => verdict.outcome === "yes")) withFalse++;
  }
  expect(withFalse / tables).toBeLessThanOrEqual(0.06);
  expect(withFalse / tables).toBeGreaterThanOrEqual(0.035);
});

test("over 4000 seeded tables in which one row moved by exactly what matters, it is said not to have in at most 6 %", () => {
  const random = seededRandom(12);
  const [tables, dof] = [4000, 12];
  let wrong = 0;
  for (let table = 0; table < tables; table++) {
    const found = movements(
      [3, 0, 0, 0],
      (truth) => {
        const s =
          0.5 * Math.sqrt(Array.from({ length: dof }, () => random.normal() ** 2).reduce((a, b) => a + b, 0) / dof);
        return own(`d${truth}/${random.below(1e9)}`, truth + 0.5 * random.normal(), s, { dof });
      },
      { smallestChange: margin },
    );
    if (found[0]!.verdict.outcome === "no") wrong++;
  }
  expect(wrong / tables).toBeLessThanOrEqual(0.06);
});
