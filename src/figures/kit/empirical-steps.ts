/** A corner of a step line: value, share of readings at or below it. */
export type Corner = readonly [value: number, share: number];

/**
 * Half-width of the band that holds the whole true distribution function with the given probability, whatever its shape:
 * sqrt(ln(2 / (1 - level)) / (2 n)) (Dvoretzky, Kiefer and Wolfowitz 1956, with the constant of Massart, Annals of
 * Probability 18:1269, 1990). @throws RangeError where n is not at least 1 or the level not between 0 and 1
 */
export function bandHalfWidth(n: number, level: number): number {
  if (!(n >= 1)) throw new RangeError(`a distribution of ${n} readings has no band`);
  if (!(level > 0 && level < 1)) throw new RangeError(`the band's level is ${level}; it must be between 0 and 1`);
  return Math.sqrt(Math.log(2 / (1 - level)) / (2 * n));
}

/**
 * The empirical distribution function as the corners of its step line, from `from` to `to`; tied values make one higher
 * step. @param sorted ascending values, at least one
 */
export function stepOutline(sorted: readonly number[], from: number, to: number): readonly Corner[] {
  const corners: Corner[] = [[Math.min(from, sorted[0] ?? from), 0]];
  sorted.forEach((value, index) => {
    if (value === sorted[index + 1]) return;
    corners.push([value, corners.at(-1)![1]], [value, (index + 1) / sorted.length]);
  });
  return [...corners, [Math.max(to, sorted.at(-1) ?? to), 1]];
}

/** The closed outline of the step line widened by the half-width, cut at 0 and 1. */
export function bandOutline(steps: readonly Corner[], halfWidth: number): readonly Corner[] {
  const upper = steps.map(([value, share]): Corner => [value, Math.min(1, share + halfWidth)]);
  const lower = steps.map(([value, share]): Corner => [value, Math.max(0, share - halfWidth)]);
  return [...upper, ...lower.reverse()];
}
