import { closest, distance } from "fastest-levenshtein";

/**
 * The valid name nearest to a text by edit distance (Levenshtein 1966), where it is near enough to be what was meant: a
 * third of the longer one's characters, at least one; or equal but for case, hyphens and underscores, or but for two
 * neighbouring characters that changed places. Ties go to the
 * name listed first. Undefined where none is near, on an empty text, and on one of more than 100 characters.
 */
export function nearestName(text: string, names: readonly string[]): string | undefined {
  if (text === "" || text.length > 100 || names.length === 0) return undefined;
  const plain = (name: string): string => name.toLowerCase().replace(/[-_ ]/g, "");
  const alike = names.find((name) => plain(name) === plain(text));
  if (alike !== undefined) return alike === text ? undefined : alike;
  const exchanged = names.find((name) => isExchange(plain(name), plain(text)));
  if (exchanged !== undefined) return exchanged;
  const near = closest(text, names);
  const allowed = Math.max(1, Math.floor(Math.max(text.length, near.length) / 3));
  return distance(text, near) <= allowed ? near : undefined;
}

/** Whether two texts differ by one exchange of neighbouring characters. */
function isExchange(a: string, b: string): boolean {
  if (a.length !== b.length) return false;
  const first = [...a].findIndex((character, i) => character !== b[i]);
  if (first === -1) return false;
  const exchanged = a.slice(0, first) + (a[first + 1] ?? "") + a[first]! + a.slice(first + 2);
  return exchanged === b;
}
