import type { ColumnLook, PairLook } from "./column-shape.js";
import type { Sureness } from "./decision.js";
import { lessSure } from "./decision.js";
import type { GuessInput } from "./guess-input.js";
import type { MeasuredGuess } from "./guess-force.js";
import { describe, guessForcePair } from "./guess-force.js";
import type { FileNameGuess } from "./guess-file-names.js";
import { codeOf, guessFromFileNames } from "./guess-file-names.js";
import { rolesOfName, strokeOfWord } from "./name-words.js";
import { isKeyCode } from "../../../records/key-codes.js";
import type { Proposal } from "./proposal.js";
import { pickOf, proposeIgnored } from "./propose-ignored.js";

/** Proposes the parts of a columns file of kind `force`. */
export function proposeForce(input: GuessInput, proposal: Proposal): void {
  const { columns, unitOf } = input;
  const used = new Set<ColumnLook>();
  const pair = guessForcePair(columns, unitOf);
  for (const role of ["displacement", "force"] as const) {
    const guess = pair?.[role];
    if (guess === undefined) {
      proposal.add(role, { column: null, unit: null }, "unsure", "no two columns of numbers could be it");
      continue;
    }
    used.add(guess.column);
    const isReversed = role === "force" ? pair?.look?.isForceReversed : pair?.look?.isDisplacementReversed;
    addMeasured(input, proposal, role, guess, isReversed === true, used);
  }
  proposeContact(columns, pair, used, proposal);
  const names = guessFromFileNames(input.names);
  proposeKey(columns, names, used, proposal);
  const isSplit = proposeStroke(columns, names, pair?.look, used, proposal);
  proposeCycle(columns, names, pair?.look, isSplit, used, proposal);
  proposeIgnored(columns, used, proposal);
}

function addMeasured(
  { columns, unitOf }: GuessInput,
  proposal: Proposal,
  role: "displacement" | "force",
  guess: MeasuredGuess,
  isReversed: boolean,
  used: Set<ColumnLook>,
): void {
  const beside = columns[guess.column.position + 1];
  const isBeside = beside?.unitWord !== undefined && unitOf(guess.column) === beside.unitWord;
  if (isBeside) used.add(beside);
  const unitColumn = !isBeside ? {} : beside.name === "" ? { unit_column_number: beside.position + 1 } : { unit_column: beside.name }; // prettier-ignore
  const reversed = isReversed ? `; it is ${role === "force" ? "negative" : "falling"} while pressing, so its sign is turned` : ""; // prettier-ignore
  proposal.add(
    role,
    { ...pickOf(columns, guess.column), unit: guess.unit.name, ...unitColumn, ...(isReversed && { reversed: true }) },
    lessSure(guess.sureness, guess.unit.sureness),
    `${describe(guess.column)}: ${guess.reason}; ${guess.unit.name}: ${guess.unit.reason}${reversed}`,
  );
}

/** A column of two values that changes between rest and the deepest point. */
function proposeContact(
  columns: readonly ColumnLook[],
  pair: { readonly displacement: { readonly column: ColumnLook } } | undefined,
  used: Set<ColumnLook>,
  proposal: Proposal,
): void {
  const found = columns.find((column) => {
    const filled = column.words.filter((word) => word !== "");
    return !used.has(column) && filled.length === 2 && rolesOfName(column.name, ["contact"]).length > 0;
  });
  const displacement = pair?.displacement.column.numbers;
  if (found?.numbers === undefined || found.numbers === null || !displacement) return;
  const deepest = displacement.reduce((at, each, i) => (Math.abs(each - displacement[0]!) > Math.abs(displacement[at]! - displacement[0]!) ? i : at), 0); // prettier-ignore
  const [atRest, atDeepest] = [found.numbers[0]!, found.numbers[deepest]!];
  used.add(found);
  const words = found.words.filter((word) => word !== "");
  const closed = words.find((word) => Number(word.replace(",", ".")) === atDeepest) ?? words[1]!;
  const open = words.find((word) => word !== closed)!;
  proposal.add(
    "contact",
    { ...pickOf(columns, found), closed: [closed], open: [open] },
    atRest === atDeepest ? "unsure" : "likely",
    atRest === atDeepest ? "its name says so, but it is the same at rest and at the deepest point" : `its name says so, and it is ${closed} at the deepest point`, // prettier-ignore
  );
}

function proposeKey(
  columns: readonly ColumnLook[],
  names: FileNameGuess,
  used: Set<ColumnLook>,
  proposal: Proposal,
): void {
  const isLegend = (word: string): boolean => /^[A-Za-z0-9]$/u.test(word) || isKeyCode(word);
  const found = columns.find((column) => !used.has(column) && rolesOfName(column.name, ["key"]).length > 0 && column.words.every((word) => word !== "")); // prettier-ignore
  if (found !== undefined) {
    used.add(found);
    const areCodes = found.words.every(isKeyCode);
    const codes = Object.fromEntries(found.words.map((word) => [word, isLegend(word) ? codeOf(word) : null]));
    const value = { ...pickOf(columns, found), ...(!areCodes && { codes }) };
    const sureness = areCodes ? "sure" : found.words.every(isLegend) ? "likely" : "unsure";
    proposal.add("key", value, sureness, areCodes ? "it holds key codes" : legendReason(found.words.every(isLegend)));
    return;
  }
  const { key, differing } = names;
  if (key !== null) {
    const codes = [...key.codes];
    const single = codes.length === 1 ? codes[0] : undefined;
    const value = single
      ? { is: single[1] }
      : { file_name: key.pattern, ...(!key.isCode && { codes: Object.fromEntries(codes) }) };
    const from = codes.length === 1 ? "the file's name holds" : "the files' names hold";
    proposal.add("key", value, key.isCode ? "sure" : "likely", `${from} ${key.isCode ? "key codes" : `legends; ${legendReason(true)}`}`); // prettier-ignore
  } else if (differing !== null && differing.texts.length > 1) {
    const codes = Object.fromEntries(differing.texts.map((text) => [text, null]));
    proposal.add("key", { file_name: differing.pattern, codes }, "unsure", "no name of a key shows; if each file is one key, write the key codes, such as KeyF"); // prettier-ignore
  } else {
    proposal.add("key", { is: null }, "unsure", "no name of a key shows; write its key code, such as KeyF");
  }
}

function legendReason(all: boolean): string {
  return all
    ? "key codes name places, not legends: on a layout other than US they differ"
    : "write the key code of each, such as KeyF";
}

/** Gives whether both strokes are split from one stream. */
function proposeStroke(
  columns: readonly ColumnLook[],
  names: FileNameGuess,
  look: PairLook | undefined,
  used: Set<ColumnLook>,
  proposal: Proposal,
): boolean {
  const found = columns.find((column) => {
    const strokes = column.words.map(strokeOfWord);
    return (
      !used.has(column) &&
      column.numbers === null &&
      strokes.includes("press") &&
      strokes.every((each) => each !== undefined)
    );
  });
  if (found !== undefined) {
    used.add(found);
    const lists = listsOf(found.words.map((word) => [word, strokeOfWord(word)!] as const));
    proposal.add("stroke", { ...pickOf(columns, found), ...lists }, "sure", `it holds ${found.words.join(", ")}`);
    return false;
  }
  if (names.stroke !== null) {
    proposal.add("stroke", { file_name: names.stroke.pattern, ...listsOf([...names.stroke.words]) }, "likely", "words in the files' names say so"); // prettier-ignore
    return false;
  }
  if (look !== undefined && look.releases === 0) {
    proposal.add("stroke", { is: "press" }, "likely", "the first file holds a press and no release");
    return false;
  }
  const sureness: Sureness = look === undefined ? "unsure" : "sure";
  const reason =
    look === undefined
      ? "no press shows"
      : `the stream turns: ${count(look.presses, "press", "presses")} and ${count(look.releases, "release", "releases")}`;
  proposal.add("stroke", { from: "stream" }, sureness, reason);
  return true;
}

function count(n: number, noun: string, nouns: string): string {
  return `${n} ${n === 1 ? noun : nouns}`;
}

function listsOf(
  words: readonly (readonly [word: string, list: string])[],
): Readonly<Record<string, readonly string[]>> {
  const lists: Record<string, string[]> = {};
  for (const [word, list] of words) (lists[list] ??= []).push(word);
  // Words that are the table's own need no list.
  return Object.fromEntries(Object.entries(lists).filter(([list, all]) => all.length > 1 || all[0] !== list));
}

function proposeCycle(
  columns: readonly ColumnLook[],
  names: FileNameGuess,
  look: PairLook | undefined,
  isSplit: boolean,
  used: Set<ColumnLook>,
  proposal: Proposal,
): void {
  const found = columns.find((column) => !used.has(column) && column.isWhole && !column.isMonotone && column.words.length < 40 && rolesOfName(column.name, ["cycle"]).length > 0); // prettier-ignore
  if (found !== undefined) {
    used.add(found);
    const first = found.numbers!.reduce((least, each) => Math.min(least, each), Infinity);
    const value = { ...pickOf(columns, found), ...(first === 0 && { counted_from: 0 }) };
    proposal.add(
      "cycle",
      value,
      first === 0 || first === 1 ? "sure" : "likely",
      `its name says so, and it starts at ${first}`,
    );
  } else if (names.cycle !== null) {
    const value = { file_name: names.cycle.pattern, ...(names.cycle.countedFrom === 0 && { counted_from: 0 }) };
    proposal.add("cycle", value, "likely", "numbers in the files' names start there and go up by one");
  } else {
    const reason = isSplit && look !== undefined && look.presses > 1 ? "the presses of the stream are counted" : "nothing numbers them, so they are counted for each key in the order of the files"; // prettier-ignore
    proposal.add("cycle", { from: "order" }, "likely", reason);
  }
}
