import { expect, test } from "vitest";
import { evidenceStep } from "../../src/metrology/evidence.js";
import { Quantity } from "../../src/metrology/quantity.js";
import { checkCellResult, checkPrintable } from "../../src/templates/run/check-result.js";
import { phrase } from "../../src/templates/words/phrase.js";
import { result } from "../../src/templates/words/result.js";

const force = new Quantity(45, "cN", [], evidenceStep("test", []));
const refusal = (value: unknown): string | undefined => checkPrintable(value, ["keys"])?.message;
const table = (cell: unknown, more: object = {}): unknown => ({
  kind: "table",
  columns: [{ key: "a", label: "A" }],
  rows: [{ a: cell }],
  finding: "F.",
  ...more,
});
const tableRefusal = (value: unknown): string | undefined => checkCellResult("table", value)?.message;

test("a phrase may hold whatever an inline value may be", () => {
  expect(refusal(phrase("from ", force, " on, ", result("Force", force), { kind: "reference", target: "keys" }))).toBeUndefined();
  expect(refusal(phrase())).toBeUndefined();
});

test("what may not be printed alone may not be printed in a phrase", () => {
  expect(refusal({ kind: "phrase", parts: ["from ", 3] })).toContain("a bare number");
  expect(refusal({ kind: "phrase", parts: [{ kind: "reference", target: "kys" }] })).toContain("not there");
  expect(refusal({ kind: "phrase", parts: [phrase("within")] })).toContain("cannot be a phrase");
  expect(refusal({ kind: "phrase", parts: "from" })).toContain("a phrase without parts");
});

test("a table may hold results, and none without label or value", () => {
  expect(tableRefusal(table(result("Force", force)))).toBeUndefined();
  expect(tableRefusal(table({ kind: "result", label: "Force", value: 3 }))).toContain("a result without label or value");
  expect(tableRefusal(table({ ...result("Force", force), verdict: "yes" }))).toContain("a result with");
});

test("filters of a table are a list of columns", () => {
  expect(tableRefusal(table("x", { filters: ["a"] }))).toBeUndefined();
  expect(tableRefusal(table("x", { filters: "a" }))).toContain("filters are no list");
  expect(tableRefusal(table("x", { filters: [1] }))).toContain("filters are no list");
});
