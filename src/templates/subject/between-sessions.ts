import type { ConnectionSettings, Method, Session } from "../../records/archive.js";
import { statedText } from "./views.js";

/** What two sessions of a unit have beside their methods that differs, and what may differ without being recorded. */
export interface BetweenSessions {
  /** Clauses: "firmware was 1.2 and is 1.3". */
  readonly differences: readonly string[];
  /** Clauses on what one of the records or both leave out, so that a change cannot be ruled out. */
  readonly unsettled: readonly string[];
}

const notRecorded = "not recorded";

/**
 * Compares what the records of two sessions say beside their methods: firmware, driver, contact source, press speed, display
 * and the settings of the connections that both used. What a record leaves out is no difference and no likeness: of the
 * firmware it is said always, of driver, display and connections where the methods measure a latency, which they enter.
 */
export function betweenSessions(before: Session, after: Session, kind: Method["kind"]): BetweenSessions {
  const shared = Object.keys(before.connections).filter((name) => after.connections[name] !== undefined);
  const isLatency = kind === "latency";
  const pairs: readonly Compared[] = [
    { what: "firmware", old: before.firmware, now: after.firmware, matters: true },
    { what: "driver", old: before.driver, now: after.driver, matters: isLatency },
    { what: "contact source", old: before.contactSource, now: after.contactSource, matters: false },
    { what: "press speed", old: statedText(before.pressSpeed), now: statedText(after.pressSpeed), matters: true },
    {
      what: "display refresh",
      old: statedText(before.refreshRate),
      now: statedText(after.refreshRate),
      matters: isLatency,
    },
    ...shared.flatMap((name) => settingsOf(name, before.connections[name]!, after.connections[name]!, isLatency)),
  ];
  const missing = pairs.filter(({ old, now }) => old === notRecorded || now === notRecorded);
  return {
    differences: pairs
      .filter((pair) => !missing.includes(pair) && pair.old !== pair.now)
      .map(({ what, old, now }) => `${what} was ${old} and is ${now}`),
    unsettled: missing
      .filter(({ matters }) => matters)
      .map(({ what, old, now }) => `${what} is not recorded in ${old === now ? "either" : "one"} of the two sessions`),
  };
}

interface Compared {
  readonly what: string;
  readonly old: string;
  readonly now: string;
  /** Whether a missing record of it leaves something open. */
  readonly matters: boolean;
}

function settingsOf(
  name: string,
  old: ConnectionSettings,
  now: ConnectionSettings,
  matters: boolean,
): readonly Compared[] {
  return [
    { what: `polling of ${name}`, old: old.pollingSet, now: now.pollingSet, matters },
    { what: `debounce of ${name}`, old: old.debounce, now: now.debounce, matters },
    { what: `adapter of ${name}`, old: old.adapter, now: now.adapter, matters },
  ];
}

const months = "january february march april may june july august september october november december".split(" ");
const named = new RegExp(
  String.raw`\b(\d{4})-(\d{2})(?:-(\d{2}))?\b|\b(${months.join("|")})\s+(\d{4})\b|\b((?:19|20)\d{2})\b`,
  "gi",
);

/**
 * Whether a note names a time that reaches into the one between two days. Times are ISO days and months, English months with
 * a year, and years; from the earliest to the latest that the note names counts as one time, since it may tell of a stretch.
 *
 * @param from, until ISO days; both belong to the time between them
 * @returns false for a note that names no time
 */
export function tellsOfBetween(note: string, from: string, until: string): boolean {
  const times = [...note.matchAll(named)].map(([, isoYear, isoMonth, isoDay, word, wordYear, year]) => {
    const month = word === undefined ? isoMonth : `${months.indexOf(word.toLowerCase()) + 1}`.padStart(2, "0");
    const start = [isoYear ?? wordYear ?? year, month ?? "01", isoDay ?? "01"].join("-");
    const end = [isoYear ?? wordYear ?? year, month ?? "12", isoDay ?? "31"].join("-");
    return { start, end };
  });
  const earliest = times.map(({ start }) => start).sort(byText)[0];
  const latest = times.map(({ end }) => end).sort(byText).at(-1);
  return earliest !== undefined && latest !== undefined && earliest <= until && latest >= from;
}

function byText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
