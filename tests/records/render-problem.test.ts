import { expect, test } from "vitest";
import type { Problem } from "../../src/records/index.js";
import { compareProblems, problemMessage, renderProblem } from "../../src/records/index.js";
import { nearestName } from "../../src/records/nearest.js";
import { makeProblem } from "../../src/records/problem-wording.js";
import { lineText, placeOf, sourceText } from "../../src/records/source-text.js";

const place = (line: number, column: number, length = 1) => ({ file: "units/u07/s2/force.csv", line, column, length });

test("a problem prints its place, code, sentence, the line before, a mark and the remedy", () => {
  const lines = Array.from({ length: 118 }, () => "");
  lines[116] = "KeyF,1,press,1.205,44.1,0";
  lines[117] = "KeyF,1,press";
  const problem = makeProblem("E_ROW_SHORT", place(118, 13), { found: "3 fields", expected: "6" });
  expect(renderProblem(problem, lines, { prefix: "data/" })).toBe(
    [
      "data/units/u07/s2/force.csv:118:13 E_ROW_SHORT  row has 3 fields, the header has 6",
      "  117 | KeyF,1,press,1.205,44.1,0",
      "  118 | KeyF,1,press",
      "      |             ^",
      "  hint: the row ends early; was the export cut off?",
    ].join("\n"),
  );
});

test("a problem in a file that cannot be shown prints no frame, and notes come last", () => {
  const problem = makeProblem("E_FILE_BINARY", place(1, 1), { found: "byte 5 is zero", notes: ["once", "twice"] });
  expect(renderProblem(problem, undefined).split("\n")).toEqual([
    "units/u07/s2/force.csv:1:1 E_FILE_BINARY  this is not a text file: byte 5 is zero",
    "  hint: export the table as CSV text; a workbook cannot be read",
    "  note: once",
    "  note: twice",
  ]);
});

test("line numbers of different width stand flush right, and more lines are shown on request", () => {
  const lines = Array.from({ length: 10 }, (_, i) => `line ${i + 1}`);
  const printed = renderProblem(makeProblem("E_NUMBER", place(10, 6, 2), { found: "10" }), lines, { linesBefore: 2 });
  expect(printed.split("\n").slice(1, 5)).toEqual([
    "   8 | line 8",
    "   9 | line 9",
    "  10 | line 10",
    "     |      ^^",
  ]);
});

test("control characters are shown as pictures, so that a file cannot steer the terminal", () => {
  const line = "a\u001b[31m\tb\u202ec";
  const printed = renderProblem(makeProblem("E_NUMBER", place(1, 2, 5), { found: "\u001b[31m" }), [line]);
  expect(printed).toContain("`\u241b[31m` is not a number");
  expect(printed).toContain("  1 | a\u241b[31m\u2409b\ufffdc");
  for (const control of ["\u001b", "\u202e", "\t"]) expect(printed).not.toContain(control);
});

test("a long line is cut around the mark", () => {
  const line = `${"x".repeat(500)}BAD${"y".repeat(500)}`;
  const [, shown, mark] = renderProblem(makeProblem("E_NUMBER", place(1, 501, 3), { found: "BAD" }), [line]).split(
    "\n",
  );
  expect(shown!.length).toBeLessThan(110);
  expect(shown!.slice(mark!.indexOf("^"), mark!.lastIndexOf("^") + 1)).toBe("BAD");
});

test("a text that looks like a place in the wording is left alone", () => {
  const problem = makeProblem("E_ROW_SHORT", place(1, 1), { found: "{expected}", expected: "{found}" });
  expect(problemMessage(problem)).toBe("row has {expected}, the header has {found}");
});

test("a long list of names is cut and says how many it leaves out", () => {
  const names = Array.from({ length: 30 }, (_, i) => `name-${i}`);
  expect(makeProblem("E_KEY_UNKNOWN", place(1, 1), { found: "zzz", names }).hint).toMatch(/name-23 and 6 more$/);
});

test("problems are ordered by file, line, column and code, by code unit", () => {
  const at = (file: string, line: number, column: number, code: Problem["code"] = "E_NUMBER"): Problem =>
    makeProblem(code, { file, line, column, length: 1 });
  const ordered = [at("B", 1, 1), at("a", 2, 1), at("a", 10, 2), at("a", 10, 2, "E_ROW_SHORT"), at("é", 1, 1)];
  expect([...ordered].reverse().sort(compareProblems)).toEqual(ordered);
});

test("the nearest name is the one that was meant, or none", () => {
  const names = ["press_speed", "method", "usb", "bluetooth"];
  for (const [text, near] of [
    ["metod", "method"],
    ["Method", "method"],
    ["press-speed", "press_speed"],
    ["ubs", "usb"],
    ["blutooth", "bluetooth"],
    ["method", undefined],
    ["firmware", undefined],
    ["", undefined],
    ["x".repeat(5000), undefined],
  ] as const) {
    expect(nearestName(text, names)).toBe(near);
  }
  expect(nearestName("x", [])).toBeUndefined();
});

test("offsets become lines and columns from 1, whatever ends the lines", () => {
  const source = sourceText("f", "ab\r\ncd\rde\n\nf");
  expect([1, 2, 3, 4, 5, 6].map((line) => lineText(source, line))).toEqual(["ab", "cd", "de", "", "f", ""]);
  expect(placeOf(source, 4, 99)).toEqual({ file: "f", line: 2, column: 2, length: 1 });
  expect(placeOf(source, 0, 2)).toEqual({ file: "f", line: 1, column: 1, length: 2 });
  expect(placeOf(source, source.text.length)).toMatchObject({ line: 5, column: 2, length: 1 });
});
