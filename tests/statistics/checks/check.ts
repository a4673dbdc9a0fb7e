import { readFileSync } from "node:fs";

/** One number compared: it agrees where |got - want| ≤ tolerance. */
export interface Compared {
  readonly name: string;
  readonly got: number;
  readonly want: number;
  readonly tolerance: number;
}

/** A comparison of one procedure with one source. */
export interface Check {
  /** Name of the kernel. */
  readonly procedure: string;
  readonly kind: "published" | "computed";
  /** Where the wanted values come from. */
  readonly source: string;
  readonly compare: () => readonly Compared[];
}

// The stored inputs have many layouts; each check knows its own.
// eslint-disable-next-line @typescript-eslint/no-explicit-any
export type Stored = any;

type Found = Readonly<Record<string, unknown>>;

interface Entry {
  readonly id: string;
  readonly source: string;
  readonly input: Stored;
  readonly expected: readonly {
    readonly name: string;
    readonly value: unknown;
    readonly tol?: number | null;
    readonly rel?: number | null;
  }[];
}

function read(file: string): Stored {
  return JSON.parse(readFileSync(new URL(`../../reference/${file}`, import.meta.url), "utf8"));
}

/** Numbers in order, however nested; booleans as 0 and 1. */
export function flatten(value: unknown): readonly number[] {
  if (Array.isArray(value)) return value.flatMap(flatten);
  return [value === null || value === undefined ? NaN : Number(value)];
}

/** An entry of a file of published values. */
export function entryOf(file: string, id: string): Entry {
  const found = (read(`${file}.json`).entries as Entry[]).find((entry) => entry.id === id);
  if (found === undefined) throw new Error(`${file}.json has no entry ${id}`);
  return found;
}

/** Compares what is found with a published entry, name by name, within the entry's tolerances. */
export function published(procedure: string, file: string, id: string, find: (input: Stored) => Found): Check {
  const entry = entryOf(file, id);
  return {
    procedure,
    kind: "published",
    source: entry.source,
    compare: () =>
      Object.entries(find(entry.input)).flatMap(([name, got]) => {
        const wanted = entry.expected.find((item) => item.name === name);
        if (wanted === undefined) throw new Error(`${id} has no value ${name}`);
        return pairUp(`${id} ${name}`, got, wanted.value, (value) =>
          Math.max(wanted.tol ?? 0, (wanted.rel ?? 0) * Math.abs(value)),
        );
      }),
  };
}

export interface Tolerance {
  /** Relative tolerance; default 1e-9. */
  readonly rel?: number;
  /** Absolute tolerance; default 1e-12. */
  readonly abs?: number;
}

/** Compares what is found with values that another program computed over random inputs. */
export function computed(
  procedure: string,
  program: "r" | "scipy",
  name: string,
  find: (input: Stored) => Found,
  tolerance: Tolerance = {},
): Check {
  const file = read(`statistics-${program}.json`);
  const stored = file.cases[name] as { input: Stored; expected: Found } | undefined;
  if (stored === undefined) throw new Error(`statistics-${program}.json has no case ${name}`);
  return {
    procedure,
    kind: "computed",
    source: file.made as string,
    compare: () =>
      Object.entries(find(stored.input)).flatMap(([item, got]) =>
        pairUp(`${name} ${item}`, got, stored.expected[item], (value) =>
          Math.max(tolerance.abs ?? 1e-12, (tolerance.rel ?? 1e-9) * Math.abs(value)),
        ),
      ),
  };
}

function pairUp(
  name: string,
  got: unknown,
  want: unknown,
  toleranceOf: (value: number) => number,
): readonly Compared[] {
  if (want === undefined) throw new Error(`${name} is not stored`);
  const found = flatten(got);
  const wanted = flatten(want);
  if (found.length !== wanted.length) throw new Error(`${name}: ${found.length} values, ${wanted.length} wanted`);
  return wanted.map((value, i) => ({ name, got: found[i]!, want: value, tolerance: toleranceOf(value) }));
}

/** Digits in which two numbers agree, from 0 to 15. */
export function digitsAgreed(got: number, want: number): number {
  if (got === want) return 15;
  const off = want === 0 ? Math.abs(got) : Math.abs((got - want) / want);
  return Number.isFinite(off) ? Math.max(0, Math.min(15, -Math.log10(off))) : 0;
}
