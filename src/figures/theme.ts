/**
 * The one theme of all figures: sizes in px of a drawing 460 px wide, and colours by role.
 *
 * The narrow design width is deliberate: scaled down to a 343 px column (a 375 px telephone) the 12.5 px text is still
 * 9.3 px, and at 540 px it is 14.7 px, the size of the text around it.
 */
export const sizes = Object.freeze({
  widthPx: 460,
  /** Widest that a page should show a figure, so that its text does not outgrow the page's. */
  widestPx: 560,
  textPx: 12.5,
  /** Second line inside a key or beside a point. */
  smallPx: 11,
  linePx: 15.5,
  /** A row of a chart with one row an item. */
  rowPx: 23,
  tickPx: 4,
  marginPx: 6,
});

/** Widths of lines, px. */
export const strokes = Object.freeze({ grid: 0.6, axis: 0.9, faint: 0.9, thin: 1.2, curve: 1.9 });

/** Colours by role, as they stand in a drawing; the values come from the page's style sheet. */
export const colours = Object.freeze({
  paper: "var(--figure-paper)",
  ink: "var(--figure-ink)",
  quiet: "var(--figure-quiet)",
  faint: "var(--figure-faint)",
  rule: "var(--figure-rule)",
  first: "var(--figure-first)",
  second: "var(--figure-second)",
  third: "var(--figure-third)",
  shade: "var(--figure-shade)",
  tints: Object.freeze([1, 2, 3, 4, 5].map((step) => `var(--figure-tint-${step})`)),
});

/** Values of the colour roles in one appearance of the page. */
export interface Palette {
  readonly paper: string;
  readonly ink: string;
  /** Secondary text: ticks, remarks. */
  readonly quiet: string;
  /** Curves in the background that still must be seen. */
  readonly faint: string;
  /** Grid lines: decoration, without a contrast of their own. */
  readonly rule: string;
  readonly first: string;
  readonly second: string;
  readonly third: string;
  /** Areas bounded by lines. */
  readonly shade: string;
  /** Five steps of one hue, weakest first, with ink legible on each. */
  readonly tints: readonly [string, string, string, string, string];
}

/**
 * Series colours are those of Okabe and Ito, Color Universal Design (2008), as reprinted by Wong, Nature Methods 8:441
 * (2011): on light paper blue, vermillion and bluish green; on dark paper sky blue, orange and bluish green, the members
 * with enough contrast there. Tints are its blue mixed into the paper. Series differ in dash and shape as well.
 */
export const lightPalette: Palette = Object.freeze({
  paper: "#ffffff",
  ink: "#1a1d21",
  quiet: "#565d66",
  faint: "#868d96",
  rule: "#e1e4e8",
  first: "#0072b2",
  second: "#d55e00",
  third: "#009e73",
  shade: "#e3eef6",
  tints: ["#ebf4f9", "#cce3f0", "#a8cfe5", "#85bbda", "#61a8cf"],
} as const);

/** As `lightPalette`, for dark paper. */
export const darkPalette: Palette = Object.freeze({
  paper: "#14171b",
  ink: "#e8eaed",
  quiet: "#a9b1ba",
  faint: "#7b838d",
  rule: "#2c3138",
  first: "#56b4e9",
  second: "#e69f00",
  third: "#009e73",
  shade: "#1b2f3d",
  tints: ["#12222d", "#0f2d3f", "#0d3851", "#0a4363", "#084e76"],
} as const);
