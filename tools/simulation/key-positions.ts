/** Where an alphabetic key lies (ISO/IEC 9995-1 grid, after the US layout): rows D, C, B from the top, columns 1 to 10. */
export interface KeyPosition {
  readonly key: string;
  readonly row: "D" | "C" | "B";
  readonly column: number;
  readonly hand: "left" | "right";
}

const rows = { D: "QWERTYUIOP", C: "ASDFGHJKL", B: "ZXCVBNM" } as const;

/** The 26 alphabetic keys as W3C UI Events codes, in alphabetical order. */
export const keyPositions: readonly KeyPosition[] = Object.entries(rows)
  .flatMap(([row, letters]) =>
    [...letters].map((letter, i) => ({
      key: `Key${letter}`,
      row: row as KeyPosition["row"],
      column: i + 1,
      hand: i < 5 ? ("left" as const) : ("right" as const),
    })),
  )
  .sort((a, b) => (a.key < b.key ? -1 : 1));

/** Force that a place on the keyboard adds to every stroke there, in cN; fixed for a unit, no tolerance. */
export interface PositionEffect {
  readonly rowCn: Readonly<Record<KeyPosition["row"], number>>;
  /** Per column to the right of the middle of the keyboard. */
  readonly columnCn: number;
  /** Added on the right hand's side. */
  readonly rightHandCn: number;
}

export const noPositionEffect: PositionEffect = { rowCn: { D: 0, C: 0, B: 0 }, columnCn: 0, rightHandCn: 0 };

export function positionForceCn(position: KeyPosition, effect: PositionEffect): number {
  return (
    effect.rowCn[position.row] +
    effect.columnCn * (position.column - 5.5) +
    (position.hand === "right" ? effect.rightHandCn : 0)
  );
}
