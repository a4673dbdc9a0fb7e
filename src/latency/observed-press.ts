import type { Evidence } from "../metrology/evidence.js";

/** Why a press gives no interval. */
export type PressFault = "missed" | "double" | "unreadable" | "impossible" | "incomplete";

/** What one reader read of one press, in frames of its clip. */
export interface FrameReading {
  readonly reader: string;
  readonly contactFrame: number;
  readonly markFrame: number | null;
  readonly responseFrame: number;
}

/** One press of film or timings before anything is calibrated or subtracted; its readers' rows drawn together. */
export interface ObservedPress {
  readonly connection: string;
  readonly press: number;
  readonly key: string;
  /** Clip of film, or empty for timings: presses of one clip share a time base. */
  readonly clip: string;
  readonly outcome: "ok" | "missed" | "double" | "unreadable";
  /** Reason of an exclusion by hand; empty: in. */
  readonly excluded: string;
  readonly fault: { readonly kind: PressFault; readonly reason: string } | null;
  /** Contact to response, mean of the readers, by the stated frame rate; null where it cannot be formed. */
  readonly timeMs: number | null;
  /** Frame time of film, or step of the timer: both ends are known to within one. 0 where unknown. */
  readonly stepMs: number;
  /** Contact on the clip's own time base; null where not read. */
  readonly contactMs: number | null;
  /** Contact to the plunger's mark, mean of the readers that read it. */
  readonly markMs: number | null;
  /** Readings that entered `timeMs`. */
  readonly readings: readonly FrameReading[];
  /** What a reviewer must know about how the rows were drawn together. */
  readonly notes: readonly string[];
  readonly evidence: Evidence;
}

/** Valid: enters L. */
export function isValid(press: ObservedPress): press is ObservedPress & { readonly timeMs: number } {
  return press.fault === null && press.excluded === "" && press.timeMs !== null;
}

/** Press order: by number, then key, then clip, in code units. */
export function comparePresses(a: ObservedPress, b: ObservedPress): number {
  return a.press - b.press || compareText(a.key, b.key) || compareText(a.clip, b.clip);
}

export function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
