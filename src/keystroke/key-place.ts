/** Where a letter key lies: its row (D above, C home, B below) and column of the ISO/IEC 9995-1 grid, and the hand. */
export interface KeyPlace {
  readonly row: "D" | "C" | "B";
  readonly column: number;
  /** Of ten-finger typing: columns 1 to 5 left, the others right (common practice, no source). */
  readonly hand: "left" | "right";
}

/** Letters by row from column 1, by position and not by legend (ISO/IEC 9995-1 grid over W3C UI Events codes). */
const rows: readonly (readonly [KeyPlace["row"], string])[] = [
  ["D", "QWERTYUIOP"],
  ["C", "ASDFGHJKL"],
  ["B", "ZXCVBNM"],
];

/**
 * The place of a letter key by its W3C code; null for any other code.
 * @example keyPlace("KeyF") // { row: "C", column: 4, hand: "left" }
 */
export function keyPlace(code: string): KeyPlace | null {
  const letter = /^Key([A-Z])$/.exec(code)?.[1];
  if (letter === undefined) return null;
  for (const [row, letters] of rows) {
    const at = letters.indexOf(letter);
    if (at >= 0) return { row, column: at + 1, hand: at < 5 ? "left" : "right" };
  }
  return null;
}
