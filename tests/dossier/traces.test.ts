import { expect, test } from "vitest";
import { table } from "../../src/figures/table.js";
import type { Evidence } from "../../src/metrology/evidence.js";
import { evidenceStep } from "../../src/metrology/evidence.js";
import { Absent, Quantity } from "../../src/metrology/quantity.js";
import { documentOf, pageOfTables, words } from "./table-page.js";

const file = "units/u07/s2/force.csv";
const lines = (firstLine: number, path = file): Evidence => ({
  kind: "rows",
  file: path,
  firstLine,
  lastLine: firstLine + 9,
  columns: ["force_cN"],
});
const method = lines(1, "rigs/tester-1/rig.yaml");
const cycles = [1, 2, 3].map((cycle) => evidenceStep(`cycle ${cycle} of KeyA`, [lines(cycle * 20), method]));
const number = (what: string, inputs: readonly Evidence[]): Quantity =>
  new Quantity(inputs.length, "1", [], evidenceStep(what, inputs));
const page = (...values: (Quantity | Absent)[]): Document =>
  documentOf(
    pageOfTables([
      table(
        [{ key: "name", label: "Name" }, ...values.map((_, index) => ({ key: `v${index}`, label: `V${index}` }))],
        [{ name: "KeyA", ...Object.fromEntries(values.map((value, index) => [`v${index}`, value])) }],
        { finding: "F." },
      ),
    ]),
  );

test("rows to which two numbers lead are listed once, and every ground cites them", () => {
  const document = page(number("mean of force", cycles), number("mean of travel", cycles));
  expect([...document.querySelectorAll(".chain")].map(words)).toEqual([
    "mean of force ← traces T1 to T3",
    "mean of travel ← traces T1 to T3",
  ]);
  expect(words(document.querySelector(".traces p"))).toBe(
    `T1 to T3: all of them rigs/tester-1/rig.yaml lines 1–10 (force_cN); each its own lines of ${file} (force_cN).`,
  );
  expect([...document.querySelectorAll(".traces li")].map(words)).toEqual([
    "T1 cycle 1 of KeyA: lines 20–29",
    "T2 cycle 2 of KeyA: lines 40–49",
    "T3 cycle 3 of KeyA: lines 60–69",
  ]);
  expect(document.querySelector(".chain a")!.getAttribute("href")).toBe("#T1");
});

test("rows to which one number leads stay in its ground, and the annex is not there", () => {
  const document = page(number("mean of force", cycles));
  expect(words(document.querySelector(".chain"))).toContain(`${file} lines 20–29, 40–49, 60–69`);
  expect(document.querySelector("#traces")).toBeNull();
});

test("an absence whose evidence is a trace cites it", () => {
  const document = page(number("mean of force", cycles), new Absent("cN", "no peak", cycles[1]));
  expect([...document.querySelectorAll(".chain")].map(words)[1]).toBe("trace T1");
  expect(words(document.querySelector("#T1"))).toContain("lines 40–49");
});

test("a step that is the evidence of a printed number is cited as that number and is no trace", () => {
  const [first] = cycles;
  const own = new Quantity(1, "1", [], first!);
  const document = page(own, number("a", [first!]), number("b", [first!]));
  expect([...document.querySelectorAll(".chain")].slice(1).map(words)).toEqual(["a ← ground 1a", "b ← ground 1a"]);
  expect(document.querySelector("#traces")).toBeNull();
});

test("a step that rests on more than raw rows is no trace, what lies below it may be", () => {
  const shared = evidenceStep("mean of 3 cycles", cycles);
  const document = page(number("a", [shared]), number("b", [shared]));
  expect([...document.querySelectorAll(".chain")].map(words)).toEqual([
    "a ← mean of 3 cycles ← traces T1 to T3",
    "b ← mean of 3 cycles ← traces T1 to T3",
  ]);
});

test("a long chain that an earlier ground has word for word is not said again", () => {
  const steps = Array.from({ length: 20 }, (_, index) =>
    evidenceStep(`${"abcdefghijklmnopqrst"[index]} step of its own kind`, [
      evidenceStep("reading", [lines(index * 20)]),
    ]),
  );
  const evidence = evidenceStep("mean of all steps", steps);
  const document = page(new Quantity(1, "1", [], evidence), new Quantity(2, "1", [], evidence));
  const [first, second] = [...document.querySelectorAll(".chain")];
  expect(words(first)).toContain("t step of its own kind");
  expect(words(second)).toBe("the steps are those of ground 1a");
  expect(document.querySelector(second!.querySelector("a")!.getAttribute("href")!)!.contains(first!)).toBe(true);
});
