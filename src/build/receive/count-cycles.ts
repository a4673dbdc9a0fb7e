/** Rows of one stroke, `to` not included, with its cycle where it is stated. */
export interface StrokeSpan {
  readonly from: number;
  readonly to: number;
  readonly key: string;
  readonly cycle: number | null;
  readonly stroke: "press" | "release";
}

/** Numbers the strokes of one file after another. */
export interface CycleCounter {
  /** The strokes of the next file, each with its cycle. */
  readonly number: (strokes: readonly StrokeSpan[]) => readonly (StrokeSpan & { readonly cycle: number })[];
}

/**
 * Numbers cycles in the order of files and rows, for each key from 1. A press starts a cycle; a release belongs to the
 * press before it in the same file. In a file that holds releases and no press before them, the first release is that of
 * the first cycle, and so on, so that files of presses and files of releases pair up in their order. Stated cycles stay.
 */
export function cycleCounter(): CycleCounter {
  const counts = new Map<string, { presses: number; releases: number }>();
  return {
    number: (strokes) => {
      const open = new Map<string, number>();
      return strokes.map((span) => {
        if (span.cycle !== null) return { ...span, cycle: span.cycle };
        const count = counts.get(span.key) ?? { presses: 0, releases: 0 };
        counts.set(span.key, count);
        if (span.stroke === "press") {
          count.presses += 1;
          open.set(span.key, count.presses);
          return { ...span, cycle: count.presses };
        }
        count.releases = open.get(span.key) ?? count.releases + 1;
        return { ...span, cycle: count.releases };
      });
    },
  };
}
