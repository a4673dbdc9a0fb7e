import chisquareCdf from "@stdlib/stats-base-dists-chisquare-cdf";
import { divisorOf } from "../metrology/source.js";
import { holmKernel } from "../statistics/tests/multiplicity.js";
import { standardDeviation } from "./kept-mean.js";
import type { LockCheck, PhaseTest } from "./model.js";
import { rayleighTest } from "./rayleigh.js";
import type { StatedPeriod } from "./stated-periods.js";

/** Contact times of one clip of film, or of one run of a timer: one time base. */
export type ContactRun = readonly number[];

/** Rayleigh's test is not made below this many phases. */
const leastPhases = 5;
/** Below this many phases a test that finds nothing shows nothing. */
const enoughPhases = 8;
/** Family-wise level of the two tests over all periods of a connection (Holm). */
const familyLevel = 0.01;

/**
 * Whether the presses of one connection met each stated period at random phases (measurement model, section 4).
 *
 * Contact times and the intervals between successive presses are taken modulo the period and tested by Rayleigh's test,
 * family-wise at 1 % over all periods (Holm); several clips are joined by Fisher's method, since clips share no time
 * base. Locked: the contact phases gather. Unknown: the intervals gather although the contact phases march, which a
 * slightly wrong period would do to a locked rhythm too; or there is too little to test. Periods below two steps of the
 * time base cannot be seen in it: there, and where there are too few contacts, the rhythm counts as random where the
 * intervals' own sd, or the jitter stated for the rig, is at least the period.
 *
 * Locked or unknown adds period / sqrt(12), undivided; for the camera's frame, where both ends are read, frame / sqrt(6).
 *
 * @param runs contact times in ms, ascending or not, one array a time base
 * @param options.stepMs resolution of the contact times; `statedJitterMs` sd of the press interval, null where not stated
 */
export function checkLocks(
  runs: readonly ContactRun[],
  periods: readonly StatedPeriod[],
  options: { readonly stepMs: number; readonly statedJitterMs: number | null },
): readonly LockCheck[] {
  const sortedRuns = runs.map((run) => [...run].sort((a, b) => a - b));
  const intervals = sortedRuns.flatMap((run) => run.slice(1).map((time, i) => time - run[i]!));
  const tested = periods.map((stated) => {
    const seen = stated.periodMs !== null && stated.periodMs >= 2 * options.stepMs;
    return {
      stated,
      contacts: seen ? testRuns(sortedRuns, stated.periodMs) : null,
      intervals: seen ? testPhases(intervals, stated.periodMs) : null,
    };
  });
  const adjusted = holm(tested.flatMap((each) => [each.contacts?.pValue ?? null, each.intervals?.pValue ?? null]));
  return tested.map(({ stated, contacts, intervals: rhythm }, i) => {
    const { period, label, periodMs } = stated;
    const head = { period, label, periodMs, contacts, intervals: rhythm };
    if (periodMs === null) {
      return { ...head, status: "not_stated", basis: "the record does not state this period", addedMs: 0 };
    }
    const added = period === "camera_frame" ? periodMs / divisorOf("triangular") : periodMs / Math.sqrt(12);
    if (contacts !== null && below(adjusted[2 * i])) {
      const basis = `contact times gather at one phase (n = ${contacts.n}, r = ${contacts.resultantLength.toFixed(2)})`;
      return { ...head, status: "locked", basis, addedMs: added };
    }
    if (rhythm !== null && below(adjusted[2 * i + 1])) {
      const basis =
        `the press interval is regular against this period (r = ${rhythm.resultantLength.toFixed(2)}), ` +
        "so that phases which march cannot be told from a period stated a little wrong";
      return { ...head, status: "unknown", basis, addedMs: added };
    }
    if (contacts !== null && contacts.n >= enoughPhases) {
      const basis = `${contacts.n} contact times show no lock (r = ${contacts.resultantLength.toFixed(2)}, adjusted p = ${adjusted[2 * i]!.toFixed(2)})`;
      return { ...head, status: "not_locked", basis, addedMs: 0 };
    }
    const jitter = rhythmJitter(intervals, options.statedJitterMs);
    if (jitter !== null && jitter.sdMs >= periodMs) {
      const basis = `the press interval varies by more than this period (${jitter.words} ${jitter.sdMs.toFixed(1)} ms)`;
      return { ...head, status: "not_locked", basis, addedMs: 0 };
    }
    const basis =
      jitter === null
        ? "too few contact times on one time base, and no jitter of the press interval is stated"
        : `contact times cannot show this period, and the press interval's ${jitter.words} is ${jitter.sdMs.toFixed(1)} ms`;
    return { ...head, status: "unknown", basis, addedMs: added };
  });
}

function rhythmJitter(
  intervals: readonly number[],
  statedMs: number | null,
): { readonly sdMs: number; readonly words: string } | null {
  if (intervals.length >= leastPhases) return { sdMs: standardDeviation(intervals), words: "observed sd" };
  return statedMs !== null && statedMs >= 0 ? { sdMs: statedMs, words: "stated sd" } : null;
}

function testPhases(timesMs: readonly number[], periodMs: number): PhaseTest | null {
  return timesMs.length >= leastPhases ? rayleighTest(timesMs.map((time) => time / periodMs)) : null;
}

/** One run: its own test. Several: Fisher's sum of logarithms; n and r are over the runs tested. */
function testRuns(runs: readonly ContactRun[], periodMs: number): PhaseTest | null {
  const tests = runs.map((run) => testPhases(run, periodMs)).filter((test) => test !== null);
  if (tests.length <= 1) return tests[0] ?? null;
  const sum = tests.reduce((total, test) => total - 2 * Math.log(Math.max(test.pValue, Number.MIN_VALUE)), 0);
  const n = tests.reduce((total, test) => total + test.n, 0);
  return {
    n,
    resultantLength: tests.reduce((total, test) => total + test.n * test.resultantLength, 0) / n,
    directionCycles: tests[0]!.directionCycles,
    pValue: 1 - chisquareCdf(sum, 2 * tests.length),
  };
}

/** Holm's adjusted p values; places without a test stay null. */
function holm(pValues: readonly (number | null)[]): readonly (number | null)[] {
  const places = pValues.flatMap((p, i) => (p === null ? [] : [{ p, i }]));
  if (places.length === 0) return pValues;
  const found = holmKernel(places.map(({ p }) => p));
  const adjusted: (number | null)[] = pValues.map(() => null);
  places.forEach(({ i }, place) => (adjusted[i] = found[place]!));
  return adjusted;
}

function below(p: number | null | undefined): boolean {
  return p !== null && p !== undefined && p < familyLevel;
}
