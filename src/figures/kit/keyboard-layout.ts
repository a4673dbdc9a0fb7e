/** A key of the drawn keyboard: its W3C UI Events code, its place and width in key pitches (19.05 mm, "u"). */
export interface LaidKey {
  readonly code: string;
  /** Left edge, from the left edge of the row of digits. */
  readonly x: number;
  /** Row from the top: 0 digits (E), 1 (D), 2 (C), 3 (B), 4 space bar (A); letters of ISO/IEC 9995-1. */
  readonly row: number;
  readonly width: number;
}

/** Left edge of the first key of each row against the row of digits, in u: D +0.5 from its neighbour, C +0.75, B +1.25. */
const rowStarts = [0, 1.5, 1.75, 2.25] as const;

const rows = [
  ["Backquote", ...digits("1234567890"), "Minus", "Equal"],
  [...letters("QWERTYUIOP"), "BracketLeft", "BracketRight"],
  [...letters("ASDFGHJKL"), "Semicolon", "Quote"],
  [...letters("ZXCVBNM"), "Comma", "Period", "Slash"],
] as const;

/**
 * The alphanumeric keys of a keyboard as laid out on the common US pattern (`ansi`) or the European one (`iso`, with the
 * key between left Shift and KeyZ). Codes name places, not legends: KeyQ bears an A on some keyboards.
 */
export function keyboardLayout(layout: "ansi" | "iso"): readonly LaidKey[] {
  const plain = rows.flatMap((codes, row) =>
    codes.map((code, column): LaidKey => ({ code, x: rowStarts[row]! + column, row, width: 1 })),
  );
  const extra: readonly LaidKey[] =
    layout === "ansi"
      ? [{ code: "Backslash", x: 13.5, row: 1, width: 1.5 }]
      : [
          { code: "Backslash", x: 12.75, row: 2, width: 1 },
          { code: "IntlBackslash", x: 1.25, row: 3, width: 1 },
        ];
  return [...plain, ...extra, { code: "Space", x: 3.75, row: 4, width: 6.25 }];
}

function letters(text: string): readonly string[] {
  return [...text].map((letter) => `Key${letter}`);
}

function digits(text: string): readonly string[] {
  return [...text].map((digit) => `Digit${digit}`);
}
