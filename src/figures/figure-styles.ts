import { darkPalette, lightPalette, sizes, type Palette } from "./theme.js";

/**
 * The style sheet that every page with figures carries: the colour roles as custom properties, light and dark by the
 * reader's preference, always light in print, system colours where the reader forces them, and the size of drawings.
 * A page whose paper is not white sets `--figure-paper` to its own, so that the halo of labels matches.
 */
export function figureStyles(): string {
  return [
    `:root { ${properties(lightPalette)} }`,
    `@media screen and (prefers-color-scheme: dark) { :root { ${properties(darkPalette)} } }`,
    `@media (forced-colors: active) { :root { ${properties(forcedPalette)} } .figure-drawing { forced-color-adjust: none; } }`,
    `.figure-drawing { display: block; width: 100%; max-width: ${sizes.widestPx}px; height: auto; color: var(--figure-ink); ` +
      `font-family: var(--figure-font, "Helvetica Neue", Helvetica, Arial, "Liberation Sans", "Nimbus Sans", sans-serif); }`,
    `.figure-drawing text { white-space: pre; }`,
    `@media print { .figure-drawing { max-width: 130mm; break-inside: avoid; } }`,
  ].join("\n");
}

const forcedPalette: Palette = {
  paper: "Canvas",
  ink: "CanvasText",
  quiet: "CanvasText",
  faint: "GrayText",
  rule: "GrayText",
  first: "LinkText",
  second: "CanvasText",
  third: "CanvasText",
  shade: "Canvas",
  tints: ["Canvas", "Canvas", "Canvas", "Canvas", "Canvas"],
};

function properties(palette: Palette): string {
  const { tints, ...plain } = palette;
  const roles = Object.entries(plain).map(([role, value]) => `--figure-${role}: ${value};`);
  return [...roles, ...tints.map((value, index) => `--figure-tint-${index + 1}: ${value};`)].join(" ");
}
