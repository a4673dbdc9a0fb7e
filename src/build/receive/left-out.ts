/** Lines of a file that are not in the record, and why. */
export interface LeftOut {
  readonly firstLine: number;
  readonly lastLine: number;
  readonly reason: string;
}

/** In line order, with neighbouring stretches of one reason joined. */
export function joinLeftOut(stretches: readonly LeftOut[]): readonly LeftOut[] {
  const joined: LeftOut[] = [];
  for (const stretch of [...stretches].sort((a, b) => a.firstLine - b.firstLine || a.lastLine - b.lastLine)) {
    const last = joined.at(-1);
    if (last !== undefined && last.reason === stretch.reason && stretch.firstLine <= last.lastLine + 1) {
      joined[joined.length - 1] = { ...last, lastLine: Math.max(last.lastLine, stretch.lastLine) };
    } else {
      joined.push(stretch);
    }
  }
  return joined;
}

/** "line 4", "lines 4 to 12". */
export function lineRange(first: number, last: number): string {
  return first === last ? `line ${first}` : `lines ${first} to ${last}`;
}

/** "4", "4-12". */
export function shortRange(first: number, last: number): string {
  return first === last ? String(first) : `${first}-${last}`;
}
