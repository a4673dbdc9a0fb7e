import { distance } from "fastest-levenshtein";

/**
 * The candidate nearest to a misspelt name by Levenshtein distance without regard to case, two swapped neighbours
 * counting once, or null where none is near: at most one edit for names of up to five characters, a third of the length
 * for longer ones, and never more than 3.
 * Ties go to the candidate that stands first.
 */
export function nearestName(name: string, candidates: Iterable<string>): string | null {
  const limit = Math.min(3, Math.max(1, Math.floor(name.length / 3)));
  const lower = name.toLowerCase();
  let best: string | null = null;
  let bestDistance = limit + 1;
  for (const candidate of candidates) {
    if (candidate === name || Math.abs(candidate.length - name.length) >= bestDistance) continue;
    const edits = isSwap(lower, candidate.toLowerCase()) ? 1 : distance(lower, candidate.toLowerCase());
    if (edits < bestDistance) {
      best = candidate;
      bestDistance = edits;
    }
  }
  return best;
}

/** Whether one text is the other with two neighbouring characters swapped. */
function isSwap(a: string, b: string): boolean {
  if (a.length !== b.length) return false;
  const at = a.split("").findIndex((char, index) => char !== b[index]);
  return at >= 0 && a.slice(0, at) + a.slice(at + 1, at + 2) + a.slice(at, at + 1) + a.slice(at + 2) === b;
}
