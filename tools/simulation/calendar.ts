const dayMs = 86_400_000;

/** The date that lies so many days after another; both YYYY-MM-DD. */
export function addDays(date: string, days: number): string {
  return new Date(Date.parse(`${date}T00:00:00Z`) + days * dayMs).toISOString().slice(0, 10);
}

/** Every `step`-th date from one to another, the last included where it is met. */
export function everyDays(from: string, to: string, step: number): readonly string[] {
  const dates: string[] = [];
  for (let date = from; date <= to; date = addDays(date, step)) dates.push(date);
  return dates;
}

/** A date, a start such as "09:10" and a length in minutes as the `start` and `end` of a session. */
export function sessionTimes(date: string, start: string, minutes: number): { start: string; end: string } {
  const from = Date.parse(`${date}T${start}:00Z`);
  const iso = (at: number): string => `${new Date(at).toISOString().slice(0, 19)}Z`;
  return { start: iso(from), end: iso(from + minutes * 60_000) };
}
