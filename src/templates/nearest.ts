import { distance } from "fastest-levenshtein";

/**
 * The candidate nearest to a misspelt name by Levenshtein distance without regard to case, or null where none is near:
 * at most one edit for names of up to three characters, a third of the length for longer ones, and never more than 3.
 * Ties go to the candidate that stands first.
 */
export function nearestName(name: string, candidates: Iterable<string>): string | null {
  const limit = Math.min(3, Math.max(1, Math.floor(name.length / 3)));
  const lower = name.toLowerCase();
  let best: string | null = null;
  let bestDistance = limit + 1;
  for (const candidate of candidates) {
    if (candidate === name || Math.abs(candidate.length - name.length) >= bestDistance) continue;
    const edits = distance(lower, candidate.toLowerCase());
    if (edits < bestDistance) {
      best = candidate;
      bestDistance = edits;
    }
  }
  return best;
}
