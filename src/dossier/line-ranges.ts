import type { EvidenceRows } from "../metrology/evidence.js";

/** What a piece of evidence takes from one file. */
export interface FileRows {
  readonly file: string;
  /** 1-based, inclusive, ascending, apart by at least one line. */
  readonly ranges: readonly (readonly [first: number, last: number])[];
  /** In order of first appearance. */
  readonly columns: readonly string[];
}

/** Most runs of lines that are listed one by one. */
const listedRuns = 48;

/** Gathers rows by file in order of first appearance; touching and overlapping runs of lines become one. */
export function rowsByFile(rows: readonly EvidenceRows[]): readonly FileRows[] {
  const files = new Map<string, EvidenceRows[]>();
  for (const leaf of rows) {
    const known = files.get(leaf.file);
    if (known === undefined) files.set(leaf.file, [leaf]);
    else known.push(leaf);
  }
  return [...files].map(([file, leaves]) => ({
    file,
    ranges: mergeRanges(leaves.map((leaf) => [leaf.firstLine, leaf.lastLine])),
    columns: [...new Set(leaves.flatMap((leaf) => leaf.columns))],
  }));
}

/** Merges inclusive line ranges that overlap or touch; the result ascends. */
export function mergeRanges(ranges: readonly (readonly [number, number])[]): readonly (readonly [number, number])[] {
  const merged: [number, number][] = [];
  for (const [first, last] of [...ranges].sort((a, b) => a[0] - b[0] || a[1] - b[1])) {
    const open = merged.at(-1);
    if (open !== undefined && first <= open[1] + 1) open[1] = Math.max(open[1], last);
    else merged.push([first, last]);
  }
  return merged;
}

/** "line 14", "lines 2–801, 1604–2400"; beyond 48 runs only how many and between which lines. */
export function describeLines(ranges: FileRows["ranges"]): string {
  const first = ranges[0];
  const last = ranges.at(-1);
  if (first === undefined || last === undefined) return "no lines";
  if (ranges.length > listedRuns) return `${ranges.length} runs of lines from ${first[0]} to ${last[1]}`;
  const runs = ranges.map(([from, to]) => (from === to ? `${from}` : `${from}–${to}`));
  return `${ranges.length === 1 && first[0] === first[1] ? "line" : "lines"}\u00a0${runs.join(", ")}`;
}
