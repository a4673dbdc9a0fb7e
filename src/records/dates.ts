const datePattern = /^(\d{4})-(\d{2})-(\d{2})$/;
const instantPattern = /^(\d{4}-\d{2}-\d{2})T(\d{2}):(\d{2})(?::(\d{2})(?:\.\d{1,9})?)?(Z|[+-](\d{2}):(\d{2}))$/;

/** Whether a text is a day of the calendar, YYYY-MM-DD (ISO 8601-1:2019, 5.2.2), from the year 1900 on. */
export function isDate(text: string): boolean {
  const match = datePattern.exec(text);
  if (match === null) return false;
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  const date = new Date(Date.UTC(year, month - 1, day));
  return year >= 1900 && date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
}

/** Whether a text is a time with its offset from UTC: 2026-03-09T09:10:00Z, seconds optional (ISO 8601-1:2019, 5.4). */
export function isInstant(text: string): boolean {
  const match = instantPattern.exec(text);
  if (match === null || !isDate(match[1]!)) return false;
  const within = (part: string | undefined, most: number): boolean => part === undefined || Number(part) <= most;
  return (
    within(match[2], 23) && within(match[3], 59) && within(match[4], 59) && within(match[6], 14) && within(match[7], 59)
  );
}

/** Milliseconds since 1970-01-01T00:00Z. Throws RangeError where the text is no instant as `isInstant` means it. */
export function instantMs(text: string): number {
  if (!isInstant(text)) throw new RangeError(`${JSON.stringify(text)} is no time with its offset from UTC`);
  return Date.parse(text);
}

/** The day that a time names, where it was measured. */
export function dayOf(instant: string): string {
  return instant.slice(0, 10);
}
