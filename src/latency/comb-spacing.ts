/** A comb fitted to times: spacing with its standard error, and how many teeth hold two times or more. */
export interface CombFit {
  readonly spacingMs: number;
  readonly u: number;
  readonly teeth: number;
}

/** A tooth counts from this many times: a stray one makes no tooth. */
const leastPerTooth = 2;

/**
 * Fits the spacing of a comb by least squares of the times on their tooth numbers, from a first value. Only teeth that
 * hold two times or more count; where all differences of their numbers share a factor, the spacing is that many times
 * longer.
 *
 * @param sorted times in ms, ascending; @param firstMs spacing above 0 to start from
 * @returns u is 0 where all times lie on the comb exactly; with fewer than two teeth the spacing is the first value
 */
export function combSpacing(sorted: readonly number[], firstMs: number): CombFit {
  if (!(firstMs > 0)) throw new RangeError(`the spacing to start from is ${firstMs} ms; it must be above 0`);
  let fit: CombFit = { spacingMs: firstMs, u: 0, teeth: 0 };
  let finest = firstMs;
  for (let round = 0; round < 4; round++) {
    const numbers = toothNumbers(sorted, finest);
    const held = new Map<number, number>();
    for (const number of numbers) held.set(number, (held.get(number) ?? 0) + 1);
    const onTeeth = sorted
      .map((time, i) => ({ time, number: numbers[i]! }))
      .filter(({ number }) => held.get(number)! >= leastPerTooth);
    const first = onTeeth[0]?.number ?? 0;
    const factor = onTeeth.reduce((a, { number }) => gcd(a, number - first), 0);
    const teeth = new Set(onTeeth.map(({ number }) => number)).size;
    if (factor === 0) return { ...fit, teeth };
    const slope = regress(
      onTeeth.map(({ number }) => (number - first) / factor),
      onTeeth.map(({ time }) => time),
    );
    const settled = slope.value === fit.spacingMs;
    finest = slope.value / factor;
    fit = { spacingMs: slope.value, u: slope.u, teeth };
    if (settled) break;
  }
  return fit;
}

/** Tooth of each time about the phase that fits best. */
function toothNumbers(sorted: readonly number[], spacingMs: number): readonly number[] {
  let cosines = 0;
  let sines = 0;
  for (const time of sorted) {
    const angle = (2 * Math.PI * (time - sorted[0]!)) / spacingMs;
    cosines += Math.cos(angle);
    sines += Math.sin(angle);
  }
  const phase = Math.atan2(sines, cosines) / (2 * Math.PI);
  return sorted.map((time) => Math.round((time - sorted[0]!) / spacingMs - phase));
}

function regress(xs: readonly number[], ys: readonly number[]): { readonly value: number; readonly u: number } {
  const n = xs.length;
  const meanX = xs.reduce((a, b) => a + b, 0) / n;
  const meanY = ys.reduce((a, b) => a + b, 0) / n;
  let squares = 0;
  let products = 0;
  xs.forEach((x, i) => {
    squares += (x - meanX) ** 2;
    products += (x - meanX) * (ys[i]! - meanY);
  });
  const value = products / squares;
  let residual = 0;
  xs.forEach((x, i) => (residual += (ys[i]! - meanY - value * (x - meanX)) ** 2));
  return { value, u: Math.sqrt(residual / Math.max(1, n - 2) / squares) };
}

function gcd(a: number, b: number): number {
  let [x, y] = [Math.abs(a), Math.abs(b)];
  while (y !== 0) [x, y] = [y, x % y];
  return x;
}
