/** Frequencies at which a comb is looked for, per ms. */
export interface CombRange {
  readonly lowPerMs: number;
  readonly highPerMs: number;
  readonly stepPerMs: number;
}

/** The largest ordinate: mean resultant length r (0 to 1) of the values modulo 1/frequency. */
export interface CombPeak {
  readonly frequencyPerMs: number;
  readonly resultantLength: number;
}

/**
 * Spacings that n times can show: from 2.5 steps of the time base to half the range, so that three teeth fit; the grid
 * of frequencies is eight times finer than 1 / range.
 *
 * @param sorted ascending, in ms; @param stepMs frame time or timer step
 * @returns null where the range holds no such spacing
 */
export function combRange(sorted: readonly number[], stepMs: number): CombRange | null {
  const width = sorted.at(-1)! - sorted[0]!;
  if (!(width > 0)) return null;
  const shortest = Math.max(2.5 * stepMs, width / 40);
  if (!(width / 2 > shortest)) return null;
  return { lowPerMs: 2 / width, highPerMs: 1 / shortest, stepPerMs: 1 / (8 * width) };
}

/**
 * The largest ordinate of the periodogram r(f) = |sum exp(2 pi i f x)| / n over a range of frequencies. Harmonics of a
 * comb do as well as its own frequency: of ordinates within 2 % of the largest the lowest frequency is taken.
 */
export function combPeak(values: readonly number[], range: CombRange): CombPeak {
  const count = Math.floor((range.highPerMs - range.lowPerMs) / range.stepPerMs) + 1;
  const lengths = resultantLengths(values, range, count);
  let largest = 0;
  for (const length of lengths) largest = Math.max(largest, length);
  let at = lengths.findIndex((length) => length >= 0.98 * largest);
  while (at + 1 < count && lengths[at + 1]! > lengths[at]!) at++;
  return { frequencyPerMs: range.lowPerMs + at * range.stepPerMs, resultantLength: largest };
}

/** |sum exp(2 pi i f x)| / n. */
export function resultantLength(values: readonly number[], frequencyPerMs: number): number {
  let cosines = 0;
  let sines = 0;
  for (const value of values) {
    const angle = 2 * Math.PI * value * frequencyPerMs;
    cosines += Math.cos(angle);
    sines += Math.sin(angle);
  }
  return Math.hypot(cosines, sines) / values.length;
}

/** r at every frequency of the range; phasors are turned step by step, which saves the sines. */
function resultantLengths(values: readonly number[], range: CombRange, count: number): readonly number[] {
  const real = new Float64Array(count);
  const imaginary = new Float64Array(count);
  const origin = values[0] ?? 0;
  for (const value of values) {
    const first = 2 * Math.PI * (value - origin) * range.lowPerMs;
    const turn = 2 * Math.PI * (value - origin) * range.stepPerMs;
    let cosine = Math.cos(first);
    let sine = Math.sin(first);
    const cosineOfTurn = Math.cos(turn);
    const sineOfTurn = Math.sin(turn);
    for (let i = 0; i < count; i++) {
      real[i]! += cosine;
      imaginary[i]! += sine;
      const next = cosine * cosineOfTurn - sine * sineOfTurn;
      sine = sine * cosineOfTurn + cosine * sineOfTurn;
      cosine = next;
    }
  }
  return Array.from(real, (re, i) => Math.hypot(re, imaginary[i]!) / values.length);
}
