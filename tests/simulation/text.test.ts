import { expect, test } from "vitest";
import { parse } from "yaml";
import { renderCsv, renderYaml, shortNumber } from "../../tools/simulation/text.js";

test("numbers are short, never minus zero, and never anything but numbers", () => {
  expect(shortNumber(0.30000000000000004, 3)).toBe("0.3");
  expect(shortNumber(-0.0001, 2)).toBe("0");
  expect(shortNumber(45, 1)).toBe("45");
  expect(() => shortNumber(NaN, 2)).toThrow(RangeError);
});

test("fields are quoted only where they must be", () => {
  expect(
    renderCsv("a,b", [
      ["x, y", null],
      ['say "so"', 1],
    ]),
  ).toBe('a,b\n"x, y",\n"say ""so""",1\n');
});

test("a description reads back as it was written, small collections on one line", () => {
  const raw = {
    id: "u07",
    sample_no: "3",
    terms: { span: { value_ratio: 1, u_ratio: 0.003 } },
    list: ["a", "b"],
    none: [],
  };
  const text = renderYaml(raw);
  expect(parse(text)).toEqual(raw);
  expect(text).toContain("span: { value_ratio: 1, u_ratio: 0.003 }");
  expect(text).toContain('sample_no: "3"');
});
