import { mean } from "d3-array";
import { evidenceStep } from "../metrology/evidence.js";
import type { Film, PressReading } from "../records/readings.js";
import type { FrameReading, ObservedPress, PressFault } from "./observed-press.js";
import { comparePresses, compareText } from "./observed-press.js";

/**
 * Draws the rows of `presses.csv` together: one press a connection, key, clip and press number, its time the mean of its
 * readers' response minus contact frames over the clip's frame rate. No row is dropped: a press without an interval
 * keeps its place, with the fault.
 *
 * Readers who disagree on the outcome (one ok, one missed or double) make the press unreadable; one who could not read
 * it leaves it to the others. A reader's row excluded by hand leaves the press to the others too; where no row is left,
 * the press is excluded, but its interval is still formed, so that the page can show it.
 *
 * @returns by connection, in order of first appearance; presses by number, then key, then clip
 */
export function observeFilm(
  presses: readonly PressReading[],
  films: readonly Film[],
): ReadonlyMap<string, readonly ObservedPress[]> {
  const filmOf = new Map(films.map((film) => [film.clip, film]));
  const groups = new Map<string, PressReading[]>();
  for (const row of presses) {
    const id = JSON.stringify([row.connection, row.key, row.clip, row.press]);
    const group = groups.get(id);
    if (group === undefined) groups.set(id, [row]);
    else group.push(row);
  }
  const byConnection = new Map<string, ObservedPress[]>();
  for (const rows of groups.values()) {
    const sorted = [...rows].sort((a, b) => compareText(a.reader, b.reader));
    const observed = observePress(sorted, filmOf.get(sorted[0]!.clip));
    const list = byConnection.get(observed.connection);
    if (list === undefined) byConnection.set(observed.connection, [observed]);
    else list.push(observed);
  }
  for (const list of byConnection.values()) list.sort(comparePresses);
  return byConnection;
}

function observePress(rows: readonly PressReading[], film: Film | undefined): ObservedPress {
  const { connection, press, key, clip } = rows[0]!;
  const included = rows.filter((row) => row.excluded === "");
  const excluded = included.length > 0 ? "" : [...new Set(rows.map((row) => row.excluded))].join("; ");
  const used = included.length > 0 ? included : rows;
  const notes = rows
    .filter((row) => included.length > 0 && row.excluded !== "")
    .map((row) => `the reading of ${row.reader} is excluded: ${row.excluded}`);
  const rate = film?.frameRateHz;
  const stepMs = rate !== undefined && rate > 0 && Number.isFinite(rate) ? 1000 / rate : 0;
  const readable = used.filter((row) => row.outcome === "ok" || row.outcome === "double");
  const readings = readable.filter(hasBothFrames).map((row): FrameReading => {
    const { reader, contactFrame, markFrame, responseFrame } = row;
    return { reader, contactFrame, markFrame: isFrame(markFrame) ? markFrame : null, responseFrame };
  });
  const readers = [...new Set(used.map((row) => row.reader))];
  if (readers.length < used.length) notes.push("one reader read this press more than once; the readings are averaged");
  const silent = used.filter((row) => row.outcome === "unreadable");
  if (silent.length > 0 && readings.length > 0) {
    notes.push(`${silent.map((row) => row.reader).join(", ")} could not read this press`);
  }
  const contacts = used.map((row) => row.contactFrame).filter(isFrame);
  const marks = readings.filter((reading) => reading.markFrame !== null);
  const { outcome, fault } = judge(used, readings, stepMs, clip);
  return {
    connection,
    press,
    key,
    clip,
    outcome,
    excluded,
    fault,
    timeMs: stepMs > 0 ? meanOrNull(readings.map((r) => (r.responseFrame - r.contactFrame) * stepMs)) : null,
    stepMs,
    contactMs: stepMs > 0 ? meanOrNull(contacts.map((frame) => frame * stepMs)) : null,
    markMs: stepMs > 0 ? meanOrNull(marks.map((r) => (r.markFrame! - r.contactFrame) * stepMs)) : null,
    readings,
    notes,
    evidence: evidenceStep(`press ${press} of ${key} read on film by ${readers.join(", ")}`, [
      ...rows.map((row) => row.evidence),
      ...(film === undefined ? [] : [film.evidence]),
    ]),
  };
}

function judge(
  rows: readonly PressReading[],
  readings: readonly FrameReading[],
  stepMs: number,
  clip: string,
): Pick<ObservedPress, "outcome" | "fault"> {
  const fault = (outcome: ObservedPress["outcome"], kind: PressFault, reason: string) => ({
    outcome,
    fault: { kind, reason },
  });
  const clear = rows.filter((row) => row.outcome !== "unreadable");
  const outcomes = [...new Set(clear.map((row) => row.outcome))];
  if (outcomes.length > 1) {
    const said = clear.map((row) => `${row.reader} ${row.outcome}`).join(", ");
    return fault("unreadable", "unreadable", `the readers disagree on what happened: ${said}`);
  }
  const outcome = outcomes[0] ?? "unreadable";
  if (outcome === "missed") return fault("missed", "missed", "no response to this press");
  if (outcome === "double") return fault("double", "double", "two responses to one press");
  if (outcome === "unreadable") return fault("unreadable", "unreadable", "the film of this press could not be read");
  const early = readings.find((reading) => reading.responseFrame < reading.contactFrame);
  if (early !== undefined) {
    const frames = early.contactFrame - early.responseFrame;
    return fault("ok", "impossible", `${early.reader} read the response ${frames} frames before contact`);
  }
  if (readings.length === 0) return fault("ok", "incomplete", "no reader gave both a contact and a response frame");
  if (stepMs === 0) return fault("ok", "incomplete", `films.csv gives no frame rate for clip ${clip}`);
  return { outcome, fault: null };
}

function isFrame(frame: number | null): frame is number {
  return frame !== null && Number.isFinite(frame);
}

function hasBothFrames(row: PressReading): row is PressReading & { contactFrame: number; responseFrame: number } {
  return isFrame(row.contactFrame) && isFrame(row.responseFrame);
}

function meanOrNull(values: readonly number[]): number | null {
  return values.length === 0 ? null : mean(values)!;
}
