import { expect, test } from "vitest";
import type { TemplateProblem } from "../../src/templates/outcome.js";
import { renderTemplateProblem } from "../../src/templates/render-template-problem.js";

const problem = (line: number, column: number, length: number, hint = "mend it"): TemplateProblem => ({
  code: "E_TYPE",
  severity: "error",
  file: "templates/unit.md",
  line,
  column,
  length,
  message: "something is wrong",
  hint,
});

test("a problem prints its place, the line before, the marked line and the remedy", () => {
  expect(renderTemplateProblem(problem(2, 3, 2), "one\nabcdef\n")).toBe(
    [
      "templates/unit.md:2:3 E_TYPE  something is wrong",
      "  1 | one",
      "  2 | abcdef",
      "    |   ^^",
      "  hint: mend it",
    ].join("\n"),
  );
});

test("the first line has none before it, and line numbers align", () => {
  expect(renderTemplateProblem(problem(1, 1, 3), "one\n").split("\n").slice(1, 3)).toEqual(["  1 | one", "    | ^^^"]);
  const lines = Array.from({ length: 10 }, (_, index) => `line ${index + 1}`).join("\r\n");
  expect(renderTemplateProblem(problem(10, 1, 4), lines).split("\n").slice(1, 4)).toEqual([
    "   9 | line 9",
    "  10 | line 10",
    "     | ^^^^",
  ]);
});

test("tabs, wide, combining and paired characters keep the mark in place", () => {
  const frame = (text: string, mark: string): string =>
    renderTemplateProblem(problem(1, text.indexOf(mark) + 1, mark.length), text).split("\n")[2]!;
  expect(frame("\ta\tbad", "bad")).toBe("    | \t \t^^^");
  expect(frame("漢字 bad", "bad")).toBe("    |      ^^^");
  expect(frame("🎹 bad", "bad")).toBe("    |    ^^^");
  expect(frame("e\u0301 bad", "bad")).toBe("    |   ^^^");
  expect(frame("x 漢字", "漢字")).toBe("    |   ^^^^");
});

test("a long line is cut around the mark and says so", () => {
  const text = `${"a".repeat(300)}BAD${"b".repeat(300)}`;
  const [, shown = "", mark = ""] = renderTemplateProblem(problem(1, 301, 3), text).split("\n");
  expect(shown).toMatch(/^ {2}1 \| …a{30}BADb+…$/);
  expect(shown.length).toBeLessThan(112);
  expect(shown.slice(mark.indexOf("^"), mark.lastIndexOf("^") + 1)).toBe("BAD");
});

test("a mark longer than the window, or than the line, ends with it", () => {
  const long = renderTemplateProblem(problem(1, 1, 500), "x".repeat(500)).split("\n");
  expect(long[2]!.trimEnd().length).toBeLessThanOrEqual(long[1]!.length);
  expect(renderTemplateProblem(problem(1, 3, 50), "abcd").split("\n")[2]).toBe("    |   ^^");
  expect(renderTemplateProblem(problem(1, 5, 1), "abcd").split("\n")[2]).toBe("    |     ^");
});

test("without the source, or beyond its end, only the place and the remedy are printed", () => {
  expect(renderTemplateProblem(problem(9, 1, 1), "one").split("\n")).toHaveLength(2);
  expect(renderTemplateProblem(problem(1, 1, 1, ""), null)).toBe("templates/unit.md:1:1 E_TYPE  something is wrong");
});
