import { readFileSync, writeFileSync } from "node:fs";

/**
 * Replaces what stands between the marks `<!-- NAME:begin -->` and `<!-- NAME:end -->` of a page by a text.
 * @throws RangeError where a mark is missing or stands twice
 */
export function replaceBetween(page: string, name: string, text: string): string {
  const [begin, end] = [`<!-- ${name}:begin -->`, `<!-- ${name}:end -->`];
  for (const mark of [begin, end]) {
    if (page.split(mark).length !== 2) throw new RangeError(`the page must hold ${mark} once`);
  }
  const from = page.indexOf(begin) + begin.length;
  return `${page.slice(0, from)}\n\n${text}\n\n${page.slice(page.indexOf(end))}`;
}

/** Writes the parts of a page that a run gives, by the names of their marks. */
export function writePage(file: string, parts: Readonly<Record<string, string>>): void {
  const page = Object.entries(parts).reduce(
    (text, [name, part]) => replaceBetween(text, name, part),
    readFileSync(file, "utf8"),
  );
  writeFileSync(file, page);
}
