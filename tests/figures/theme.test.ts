import { expect, test } from "vitest";
import { darkPalette, lightPalette, type Palette } from "../../src/figures/theme.js";

/** Relative luminance and contrast by WCAG 2.2, definitions of "relative luminance" and "contrast ratio". */
function luminance(colour: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const share = parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}

function contrast(a: string, b: string): number {
  const [dark, light] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (light! + 0.05) / (dark! + 0.05);
}

const palettes: readonly (readonly [string, Palette])[] = [
  ["light", lightPalette],
  ["dark", darkPalette],
];

test("the contrast of black on white is 21", () => {
  expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 10);
});

test.each(palettes)("in the %s theme text has a contrast of 4.5 on paper, shade and every tint", (_, palette) => {
  for (const text of [palette.ink, palette.quiet]) {
    expect(contrast(text, palette.paper)).toBeGreaterThanOrEqual(4.5);
    expect(contrast(text, palette.shade)).toBeGreaterThanOrEqual(4.5);
  }
  for (const tint of palette.tints) expect(contrast(palette.ink, tint)).toBeGreaterThanOrEqual(4.5);
  expect(contrast(palette.paper, palette.first)).toBeGreaterThanOrEqual(4.5);
});

test.each(palettes)("in the %s theme marks have a contrast of 3 on paper", (_, palette) => {
  for (const mark of [palette.first, palette.second, palette.third, palette.faint, palette.ink, palette.quiet]) {
    expect(contrast(mark, palette.paper)).toBeGreaterThanOrEqual(3);
  }
});

test.each(palettes)(
  "in the %s theme tints grow steadily away from the paper, so that grey print keeps their order",
  (_, palette) => {
    const steps = palette.tints.map((tint) => contrast(tint, palette.paper));
    expect([...steps].sort((a, b) => a - b)).toEqual(steps);
  },
);

test("series colours are members of the published palette", () => {
  const published = ["#000000", "#e69f00", "#56b4e9", "#009e73", "#f0e442", "#0072b2", "#d55e00", "#cc79a7"];
  for (const [, { first, second, third }] of palettes) {
    expect(published).toEqual(expect.arrayContaining([first, second, third]));
  }
});
