const isoDate = /^\d{4}-\d{2}-\d{2}(?:T\d{2}:\d{2}(?::\d{2}(?:\.\d+)?)?(?:Z|[+-]\d{2}:\d{2}))?$/;

/**
 * Milliseconds since 1970-01-01T00:00Z of an ISO 8601 date, or of a date and time with its offset; a date alone is its
 * midnight in UTC. @throws RangeError on anything else, a time without offset too, since it would mean another moment in
 * another time zone
 */
export function parseDate(text: string, where: string): number {
  const at = isoDate.test(text) ? Date.parse(text) : NaN;
  if (Number.isNaN(at)) {
    throw new RangeError(`the ${where} needs an ISO date such as 2026-03-09 or 2026-03-09T08:30:00Z, got "${text}"`);
  }
  return at;
}

/** The UTC day of a moment: "2026-03-09". */
export function sayDate(at: number): string {
  return new Date(at).toISOString().slice(0, 10);
}
