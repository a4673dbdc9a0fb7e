/** A list cut down for a table, and the words that say so. */
export interface Thinned<T> {
  readonly points: readonly T[];
  /** Every how many points one was kept; 1 where all were. */
  readonly every: number;
}

/**
 * Keeps every n-th point and the last, so that at most about `most` remain; the stride is the smallest that does.
 * @throws RangeError where `most` is below 2
 */
export function thin<T>(points: readonly T[], most: number): Thinned<T> {
  if (!(most >= 2)) throw new RangeError(`a curve cannot be thinned to ${most} points`);
  const every = Math.max(1, Math.ceil((points.length - 1) / (most - 1)));
  const kept = points.filter((_, index) => index % every === 0 || index === points.length - 1);
  return { points: kept, every };
}

/** The words for a table of curves thinned by these strides; undefined where nothing was left out. */
export function sayThinned(strides: readonly number[]): string | undefined {
  const most = Math.max(1, ...strides);
  if (most === 1) return undefined;
  const least = Math.min(...strides);
  const which = least === most ? `every ${ordinal(most)}` : `every ${ordinal(Math.max(1, least))} to ${ordinal(most)}`;
  return `Of each curve, ${which} stored point and the last are listed; the drawing uses all of them.`;
}

function ordinal(count: number): string {
  const suffix = count % 100 >= 11 && count % 100 <= 13 ? "th" : (["th", "st", "nd", "rd"][count % 10] ?? "th");
  return `${count}${suffix}`;
}
