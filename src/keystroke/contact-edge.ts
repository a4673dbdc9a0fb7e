import type { CorrectedStroke } from "./correction.js";
import type { Found, Place } from "./estimate.js";
import { missing, term } from "./estimate.js";
import type { StrokeSources } from "./stroke-sources.js";

/** Where the contact changed over, and what else it did. */
export interface ContactEdge extends Place {
  /** Changes of the same kind that belong to this one: more than 1 is bounce. */
  readonly changes: number;
  /** Travel from the first to the last of them, mm. */
  readonly bounceMm: number;
  /** Earlier changes of the same kind, too far before to be bounce: teasing, or a contact before the touch. */
  readonly strayMm: readonly number[];
  /** Whether the contact stayed changed over to the end of the stroke. */
  readonly isLasting: boolean;
}

/** Changes nearer than this share of the smoothing window belong to one changing-over. */
const bounceShare = 1 / 4;

/**
 * Contact edge of one stroke: on a press where the contact closes (make, the operating position), on a release where it
 * opens (break, the release position). Where the contact chatters, the edge is the first change of the last group of
 * changes, which runs back as long as neighbouring changes lie within a quarter of the smoothing window (or three
 * displacement steps, or two rows); earlier changes are stray.
 *
 * The place is midway between the two rows of the change; the gap and the resolution are its grid term.
 *
 * @param stroke rows in file order; `contact` null: the file has none
 */
export function contactEdge(stroke: CorrectedStroke, windowMm: number, sources: StrokeSources): Found<ContactEdge> {
  const { contact, xMm } = stroke;
  const isPress = stroke.stroke === "press";
  if (contact === null) return missing(`the ${stroke.stroke} has no contact readings`);
  if (contact.length === 0) return missing(`the ${stroke.stroke} holds no readings`);
  const wanted = isPress ? 1 : 0;
  const changes: number[] = [];
  const undone: number[] = [];
  for (let i = 1; i < contact.length; i++) {
    if (contact[i] === contact[i - 1]) continue;
    (contact[i] === wanted ? changes : undone).push(i);
  }
  if (changes.length === 0) {
    if (isPress) {
      return missing(contact[0] === 1 ? "the contact is closed from the first reading on" : "the contact never closes");
    }
    return missing(contact[0] === 0 ? "the contact is open from the first reading on" : "the contact never opens");
  }
  const typicalGapMm = Math.abs(xMm[xMm.length - 1]! - xMm[0]!) / Math.max(1, xMm.length - 1);
  const nearMm = Math.max(bounceShare * windowMm, 3 * stroke.displacementStepMm, 2 * typicalGapMm);
  const placeOf = (row: number): number => (xMm[row]! + xMm[row - 1]!) / 2;
  let first = changes.length - 1;
  while (first > 0 && Math.abs(placeOf(changes[first]!) - placeOf(changes[first - 1]!)) <= nearMm) first--;
  const row = changes[first]!;
  const gapMm = Math.abs(xMm[row]! - xMm[row - 1]!);
  const name = isPress ? "make" : "break";
  const label = isPress
    ? "Closing of the contact: spacing of the readings"
    : "Opening of the contact: spacing of the readings";
  const source = sources.grid(name, label, Math.hypot(gapMm, stroke.displacementStepMm) / Math.sqrt(12), "mm");
  const wasChangedAtStart = contact[0] === wanted;
  return {
    found: true,
    at: {
      xMm: placeOf(row),
      terms: [term("grid", source, 1)],
      changes: changes.length - first,
      bounceMm: Math.abs(placeOf(changes[changes.length - 1]!) - placeOf(row)),
      strayMm: [...(wasChangedAtStart ? [xMm[0]!] : []), ...changes.slice(0, first).map(placeOf)],
      isLasting: contact[contact.length - 1] === wanted,
    },
  };
}
