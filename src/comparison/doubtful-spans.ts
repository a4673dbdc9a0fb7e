/** A stretch of time in which a rig cannot be trusted: from its last good check to the next good one. */
export interface DoubtfulSpan<Check> {
  /** Null where no good check came before. */
  readonly lastGood: Check | null;
  /** Checks that failed, oldest first; at least one. */
  readonly failed: readonly Check[];
  /** Null where no good check has followed yet. */
  readonly nextGood: Check | null;
  /** First and last day of the span, as ISO dates; null where it has no such end. */
  readonly from: string | null;
  readonly until: string | null;
  /** Day of the first failed check: from here on the shift was surely there. */
  readonly firstFailed: string;
}

export interface DoubtfulSpanOptions<Check> {
  /** ISO date or instant of a check. */
  readonly date: (check: Check) => string;
  readonly isGood: (check: Check) => boolean;
  /** Days on which the rig was calibrated anew: whatever was wrong before ends there. */
  readonly calibrated?: readonly string[];
}

/**
 * The spans between the last good and the next good check around every run of failed checks (measurement model, section 7).
 * A calibration after a failed check ends the span as a good check does.
 *
 * @param checks of one rig and of one kind, or of several kinds that watch the same thing; in any order
 * @returns spans, oldest first; empty where every check is good
 * @throws RangeError on a date that does not begin with an ISO day
 */
export function doubtfulSpans<Check>(
  checks: readonly Check[],
  options: DoubtfulSpanOptions<Check>,
): readonly DoubtfulSpan<Check>[] {
  const ordered = checks
    .map((check, index) => ({ check, index, day: isoDay(options.date(check)), good: options.isGood(check) }))
    .sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : a.index - b.index));
  const calibrated = (options.calibrated ?? []).map(isoDay).sort(byText);
  const spans: DoubtfulSpan<Check>[] = [];
  let lastGood: (typeof ordered)[number] | null = null;
  let failed: typeof ordered = [];
  const close = (next: (typeof ordered)[number] | null): void => {
    const first = failed[0];
    if (first === undefined) return;
    const renewed = calibrated.find((day) => day > failed.at(-1)!.day && (next === null || day <= next.day));
    const begun = calibrated.findLast((day) => day <= first.day && (lastGood === null || day > lastGood.day));
    spans.push({
      lastGood: lastGood?.check ?? null,
      failed: failed.map(({ check }) => check),
      nextGood: next?.check ?? null,
      from: begun ?? lastGood?.day ?? null,
      until: renewed ?? next?.day ?? null,
      firstFailed: first.day,
    });
    failed = [];
  };
  for (const each of ordered) {
    const renewed = failed.length > 0 && calibrated.some((day) => day > failed.at(-1)!.day && day <= each.day);
    if (each.good || renewed) close(each.good ? each : null);
    if (each.good) lastGood = each;
    else failed.push(each);
  }
  close(null);
  return spans;
}

/** The day of an ISO date or instant. @throws RangeError where it does not begin with one */
export function isoDay(text: string): string {
  if (!/^\d{4}-\d{2}-\d{2}/.test(text)) throw new RangeError(`"${text}" does not begin with a day such as 2026-03-02`);
  return text.slice(0, 10);
}

function byText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
