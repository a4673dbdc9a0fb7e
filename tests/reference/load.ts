import { readFileSync } from "node:fs";
import { expect } from "vitest";

/** One published value: it passes where |got - value| <= max(tol, rel |value|). */
export interface PublishedValue {
  readonly name: string;
  readonly value: unknown;
  readonly tol?: number | null;
  readonly rel?: number | null;
  readonly printed?: string;
}

export interface PublishedEntry {
  readonly id: string;
  readonly what: string;
  readonly source: string;
  readonly input: Readonly<Record<string, unknown>>;
  readonly expected: readonly PublishedValue[];
}

/** One entry of a file of published check values in this folder. Throws where it is not there. */
export function publishedEntry(file: string, id: string): PublishedEntry {
  const parsed = JSON.parse(readFileSync(new URL(file, import.meta.url), "utf8")) as { entries: PublishedEntry[] };
  const entry = parsed.entries.find((each) => each.id === id);
  if (entry === undefined) throw new Error(`tests/reference/${file} has no entry "${id}"`);
  return entry;
}

/** Asserts that a computed number or list agrees with a published value within the tolerance its file states. */
export function expectPublished(entry: PublishedEntry, name: string, got: number | readonly number[]): void {
  const published = entry.expected.find((each) => each.name === name);
  if (published === undefined) throw new Error(`entry "${entry.id}" has no value "${name}"`);
  const wanted = [published.value].flat() as number[];
  const found = [got].flat() as number[];
  expect(found.length, `${entry.id} ${name}: number of values`).toBe(wanted.length);
  wanted.forEach((value, i) => {
    const tolerance = Math.max(published.tol ?? 0, (published.rel ?? 0) * Math.abs(value));
    const off = Math.abs(found[i]! - value);
    expect(off <= tolerance, `${entry.source}: ${name} is ${value} (± ${tolerance}), got ${found[i]}`).toBe(true);
  });
}
