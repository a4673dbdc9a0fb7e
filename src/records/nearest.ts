import { distance } from "fastest-levenshtein";

/** Longest text that is looked for; a whole sentence is no misspelt name. */
const longestText = 100;

/**
 * The valid name that a misspelt one was most likely meant to be, by edit distance (Levenshtein 1966) without regard to case,
 * two swapped neighbours counting as one edit: at most one edit for texts of up to five characters, a third of the length
 * for longer ones, never more than three. A name that differs in case, hyphens and underscores alone comes first. Ties go to the
 * name listed first. Undefined where none is near, and for a text that is one of the names, empty, or too long.
 */
export function nearestName(text: string, names: Iterable<string>): string | undefined {
  const list = [...names];
  if (text === "" || text.length > longestText || list.includes(text)) return undefined;
  const alike = list.find((name) => plain(name) === plain(text));
  if (alike !== undefined) return alike;
  const lower = text.toLowerCase();
  let best: string | undefined;
  let fewest = Math.min(3, Math.max(1, Math.floor(text.length / 3))) + 1;
  for (const name of list) {
    if (Math.abs(name.length - text.length) >= fewest) continue;
    const edits = isSwap(lower, name.toLowerCase()) ? 1 : distance(lower, name.toLowerCase());
    if (edits < fewest) [best, fewest] = [name, edits];
  }
  return best;
}

function plain(name: string): string {
  return name.toLowerCase().replace(/[-_ ]/g, "");
}

/** Whether one text is the other with two neighbouring characters swapped. */
function isSwap(a: string, b: string): boolean {
  if (a.length !== b.length) return false;
  const at = a.split("").findIndex((char, index) => char !== b[index]);
  return at >= 0 && a.slice(0, at) + a.slice(at + 1, at + 2) + a.slice(at, at + 1) + a.slice(at + 2) === b;
}
