import fc from "fast-check";
import { expect, test } from "vitest";
import { safeLabel, safeText } from "../../../src/figures/drawing/safe-text.js";
import { ellipsize, textWidth, wrapText } from "../../../src/figures/drawing/text-width.js";

test("the width of a text is the sum of its characters' advances, with a small allowance", () => {
  expect(textWidth("", 10)).toBe(0);
  expect(textWidth("0000000000", 10)).toBeCloseTo(10 * 5.56 * 1.04, 10);
  expect(textWidth("Wi", 10)).toBeCloseTo((9.44 + 2.22) * 1.04, 10);
  expect(textWidth("漢", 10)).toBeCloseTo(10.4, 10);
  expect(textWidth("e\u0301", 10)).toBe(textWidth("e", 10));
});

test("a text is cut only where it is too wide, and then fits with its ellipsis", () => {
  fc.assert(
    fc.property(fc.string({ unit: "grapheme", maxLength: 60 }), fc.integer({ min: 30, max: 300 }), (text, width) => {
      const cut = ellipsize(text, width, 12);
      expect(textWidth(cut, 12)).toBeLessThanOrEqual(width);
      if (textWidth(text, 12) <= width) expect(cut).toBe(text);
      else expect(cut.endsWith("…")).toBe(true);
      expect(cut).not.toMatch(/\p{Surrogate}/u);
    }),
    { seed: 3, numRuns: 200 },
  );
});

test("a wrapped text keeps its words in order, each line within the width", () => {
  const text = "Dashed: 40 cN to 55 cN (data sheet, revision 3). Dotted: nominal 47 cN, typical, not judged.";
  const lines = wrapText(text, 150, 12);
  expect(lines.join(" ")).toBe(text);
  for (const line of lines) expect(textWidth(line, 12)).toBeLessThanOrEqual(150);
  expect(wrapText("", 100, 12)).toEqual([]);
});

test("controls, overrides of direction and lone surrogates become the replacement character", () => {
  expect(safeText("a\u0000b\u202ec\ud800d\u001be\ttab\n")).toBe("a\ufffdb\ufffdc\ufffdd\ufffde\ttab\n");
  expect(safeText("👩‍💻 plain µm ± é")).toBe("👩‍💻 plain µm ± é");
});

test("a label is one line, and one written from right to left is set apart from the text around it", () => {
  expect(safeLabel("  two\n lines ")).toBe("two lines");
  expect(safeLabel("مفتاح")).toBe("\u2068مفتاح\u2069");
  expect(safeLabel("\u2067sneaky\u2066")).toBe("sneaky");
});
