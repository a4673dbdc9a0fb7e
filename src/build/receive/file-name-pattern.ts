/** A pattern of file names that gives one value. */
export interface FileNamePattern {
  readonly written: string;
  /** The value in a file's path; undefined where the path does not fit. */
  readonly valueIn: (path: string) => string | undefined;
}

/**
 * Parses a pattern such as `{key}_*.csv` or `{key}/down.csv`: `{name}` is the value, `*` any other part, both at least one
 * character long, as short as the rest allows, and without a slash. Everything else stands for itself; case counts. The
 * pattern is held against the end of a path, whole names only: `{key}.csv` fits `exports/F.csv`, and gives `F`.
 *
 * @param name the value's own place, which must stand in the pattern once
 * @param others places of other values, allowed in the pattern so that one pattern serves all; they count as `*`
 * @returns the pattern, or what is wrong with it as the end of a sentence
 */
export function parseFileNamePattern(
  written: string,
  name: string,
  others: readonly string[],
): FileNamePattern | { readonly wrong: string } {
  const places = [...written.matchAll(/\{([^{}]*)\}/g)].map((match) => match[1]!);
  const unknown = places.find((place) => place !== name && !others.includes(place));
  if (unknown !== undefined) return { wrong: `has a place {${unknown}}; known are ${listPlaces([name, ...others])}` };
  const own = places.filter((place) => place === name).length;
  if (own !== 1) return { wrong: own === 0 ? `has no place {${name}}` : `has {${name}} ${own} times` };
  if (/[{}]/.test(written.replace(/\{[^{}]*\}/g, ""))) return { wrong: "has a brace that is never closed or opened" };
  if (written.startsWith("/") || written.includes("\\"))
    return { wrong: "must start with a name and use `/` for folders" };
  const parts = written.split(/(\{[^{}]*\}|\*)/).map((part) => {
    if (part === `{${name}}`) return "([^/]+?)";
    return part === "*" || part.startsWith("{") ? "[^/]+?" : escapeRegExp(part);
  });
  const expression = new RegExp(`^(?:.*/)?${parts.join("")}$`, "u");
  return { written, valueIn: (path) => expression.exec(path.replaceAll("\\", "/"))?.[1] };
}

function listPlaces(names: readonly string[]): string {
  return [...new Set(names)].map((name) => `{${name}}`).join(", ");
}

function escapeRegExp(text: string): string {
  return text.replace(/[\\^$.*+?()[\]{}|/]/gu, "\\$&");
}
