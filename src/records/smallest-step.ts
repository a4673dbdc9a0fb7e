/**
 * The smallest difference between two different readings of a channel: its recorded resolution (JCGM 100:2008,
 * F.2.2.1). Differences under a billionth of the largest reading are the rounding of doubles and do not count; the step
 * is rounded to nine digits for the same reason. 0 where all readings are equal or there is none; NaN is refused.
 */
export function smallestStep(readings: Float64Array): number {
  if (readings.some((reading) => !Number.isFinite(reading))) throw new RangeError("a reading is not a finite number");
  const sorted = readings.slice().sort();
  const tiny = 1e-9 * Math.max(Math.abs(sorted[0] ?? 0), Math.abs(sorted.at(-1) ?? 0));
  let step = Infinity;
  for (let i = 1; i < sorted.length; i += 1) {
    const difference = sorted[i]! - sorted[i - 1]!;
    if (difference > tiny && difference < step) step = difference;
  }
  return Number.isFinite(step) ? Number(step.toPrecision(9)) : 0;
}
