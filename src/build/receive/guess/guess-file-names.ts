import { isKeyCode } from "../../../records/key-codes.js";
import { strokeOfWord } from "./name-words.js";

/** What a set of file names says, by patterns that a columns file can use. */
export interface FileNameGuess {
  /** Pattern with `{key}`; null where the names hold nothing that could be a key. */
  readonly key: {
    readonly pattern: string;
    readonly codes: ReadonlyMap<string, string>;
    readonly isCode: boolean;
  } | null;
  /** Words of the names that name strokes. */
  readonly stroke: { readonly pattern: string; readonly words: ReadonlyMap<string, "press" | "release"> } | null;
  /** `countedFrom` is the smallest number in the names. */
  readonly cycle: { readonly pattern: string; readonly countedFrom: number } | null;
  /** Pattern with `{key}` for the part that differs from file to file; null where that cannot be said. */
  readonly differing: { readonly pattern: string; readonly texts: readonly string[] } | null;
}

/**
 * What a set of file names says about key, stroke and cycle: names are cut at spaces, hyphens, underscores, points and
 * brackets, and their parts are compared. A single letter or digit could be a legend; a key code is surely one.
 *
 * @param paths paths as the user gave them; only the last name counts
 */
export function guessFromFileNames(paths: readonly string[]): FileNameGuess {
  const names = paths.map(namePart);
  const parts = names.map((name) => name.split(/([\s_\-.()[\]]+)/u));
  const nothing: FileNameGuess = { key: null, stroke: null, cycle: null, differing: differingStem(names) };
  const [first] = parts;
  if (first === undefined || parts.some((each) => each.length !== first.length)) return nothing;
  const columns = first.map((_, i) => parts.map((each) => each[i]!));
  const words = columns.map((column, i) => (i % 2 === 0 && i < first.length - 1 ? column : []));
  const stroke = words.findIndex((column) => column.length > 0 && column.every((each) => isStroke(each)));
  const key = bestKey(words);
  const cycle = words.findIndex((column, i) => i !== key && i !== stroke && isCycle(column));
  const pattern = columns
    .map((column, i) => {
      if (i === key) return "{key}";
      if (i === stroke) return "{stroke}";
      if (i === cycle) return column[0]!.replace(/\d+$/u, "{cycle}");
      return new Set(column).size === 1 && !/[{}*\\]/u.test(column[0]!) ? column[0]! : "*";
    })
    .join("");
  const keys = key === -1 ? [] : [...new Set(columns[key]!)];
  return {
    key:
      key === -1
        ? null
        : { pattern, codes: new Map(keys.map((text) => [text, codeOf(text)])), isCode: keys.every(isKeyCode) },
    stroke: stroke === -1 ? null : { pattern, words: strokeMap(columns[stroke]!) },
    cycle: cycle === -1 ? null : { pattern, countedFrom: Math.min(...columns[cycle]!.map(numberAtEnd)) },
    differing: nothing.differing,
  };
}

/**
 * The only part in which the names of several files differ, as a pattern with a place of this name; null where there is
 * none, more than one, or where two names are alike in it.
 */
export function differingPart(
  paths: readonly string[],
  place: string,
): { readonly pattern: string; readonly texts: readonly string[] } | null {
  const parts = paths.map((path) => namePart(path).split(/([\s_\-.()[\]]+)/u));
  const [first] = parts;
  if (first === undefined || paths.length < 2 || parts.some((each) => each.length !== first.length)) return null;
  const differing = first.flatMap((text, i) => (parts.every((each) => each[i] === text) ? [] : [i]));
  const [at] = differing;
  if (at === undefined || differing.length > 1 || at % 2 === 1) return null;
  const texts = parts.map((each) => each[at]!);
  if (new Set(texts).size !== texts.length || first.some((text) => /[{}*\\]/u.test(text))) return null;
  return { pattern: first.map((text, i) => (i === at ? `{${place}}` : text)).join(""), texts };
}

const namePart = (path: string): string => path.replaceAll("\\", "/").replace(/^.*\//u, "");

function isStroke(text: string): boolean {
  const stroke = strokeOfWord(text);
  return stroke === "press" || stroke === "release";
}

function strokeMap(texts: readonly string[]): ReadonlyMap<string, "press" | "release"> {
  return new Map([...new Set(texts)].map((text) => [text, strokeOfWord(text) as "press" | "release"]));
}

/** The part that holds key codes in every name; else the one of single letters or digits, if there is only one such. */
function bestKey(words: readonly (readonly string[])[]): number {
  const codes = words.findIndex((column) => column.length > 0 && column.every(isKeyCode));
  if (codes !== -1) return codes;
  const legends = words.flatMap((column, i) =>
    column.length > 0 && column.every((text) => /^[A-Za-z0-9]$/u.test(text)) ? [i] : [],
  );
  const letters = legends.filter((i) => words[i]!.every((text) => /^[A-Za-z]$/u.test(text)));
  return letters.length === 1 ? letters[0]! : legends.length === 1 && letters.length === 0 && new Set(words[legends[0]!]).size > 3 ? legends[0]! : -1; // prettier-ignore
}

/** A part such as `1` or `run2` with few different numbers that start at 0 or 1, with one word before them. */
function isCycle(column: readonly string[]): boolean {
  if (column.length < 2 || !column.every((text) => /^\D{0,12}\d{1,2}$/u.test(text))) return false;
  if (new Set(column.map((text) => text.replace(/\d+$/u, ""))).size !== 1) return false;
  const numbers = [...new Set(column.map(numberAtEnd))].sort((a, b) => a - b);
  return (
    numbers.length > 1 &&
    numbers[0]! <= 1 &&
    numbers.length < column.length &&
    numbers.every((each, i) => each === numbers[0]! + i)
  );
}

function numberAtEnd(text: string): number {
  return Number(/\d+$/u.exec(text)?.[0]);
}

/** The code of the key that a code or a legend names. */
export function codeOf(text: string): string {
  if (isKeyCode(text)) return text;
  return /^\d$/u.test(text) ? `Digit${text}` : `Key${text.toUpperCase()}`;
}

/** All names but for their ends, which are alike: the part that tells the files apart. */
function differingStem(names: readonly string[]): FileNameGuess["differing"] {
  const [first] = names;
  if (first === undefined) return null;
  const end = /\.[^.]*$/u.exec(first)?.[0] ?? "";
  if (!names.every((name) => name.endsWith(end) && name.length > end.length)) return null;
  const texts = names.map((name) => name.slice(0, name.length - end.length));
  return new Set(texts).size === texts.length ? { pattern: `{key}${end}`, texts } : null;
}
