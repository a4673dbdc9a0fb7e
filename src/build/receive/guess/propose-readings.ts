import { isKeyCode } from "../../../records/key-codes.js";
import type { TableKind } from "../columns.js";
import { tables } from "../columns.js";
import { kindOfUnit, unitInHeader } from "../unit-words.js";
import type { ColumnLook } from "./column-shape.js";
import type { GuessInput } from "./guess-input.js";
import { describe } from "./guess-force.js";
import { codeOf, differingPart } from "./guess-file-names.js";
import type { ColumnRole } from "./name-words.js";
import { outcomeOfWord, rolesOfName, wordsOfName } from "./name-words.js";
import { pickOf, proposeIgnored } from "./propose-ignored.js";
import type { Proposal } from "./proposal.js";

const frames: readonly string[] = ["contact_frame", "mark_frame", "response_frame"];
const moments: readonly string[] = ["start", "arrival"];

/** Proposes the parts of a columns file of kind `presses` or `timings`, by the names of the columns. */
export function proposeReadings(input: GuessInput, kind: Exclude<TableKind, "force">, proposal: Proposal): void {
  const { fields, optional } = tables[kind];
  const used = new Set<ColumnLook>();
  const found = assignColumns(input.columns, fields as readonly ColumnRole[]);
  for (const name of fields) {
    const column = found.get(name as ColumnRole);
    if (column !== undefined) {
      used.add(column);
      addColumn(input, proposal, name, column);
    } else if (name === "press" && addNumbered(input, proposal, used, found)) {
      continue;
    } else if (name === "reader" && addReaders(input, proposal)) {
      continue;
    } else if (!optional.includes(name)) {
      addAbsent(proposal, name);
    }
  }
  proposeIgnored(input.columns, used, proposal);
}

/** Gives every field the column whose name says it most, each column once; numbers only where numbers are asked for. */
function assignColumns(
  columns: readonly ColumnLook[],
  fields: readonly ColumnRole[],
): ReadonlyMap<ColumnRole, ColumnLook> {
  const assigned = new Map<ColumnRole, ColumnLook>();
  const fits = (role: ColumnRole, { isWhole, numbers }: ColumnLook): boolean =>
    frames.includes(role) || role === "press" ? isWhole : moments.includes(role) ? numbers !== null : true;
  // A name that fits one field only is settled before one that fits several.
  const claims = columns.flatMap((column) => {
    const roles = rolesOfName(column.name, fields).filter((role) => fits(role, column));
    const frame = wordsOfName(column.name).some((word) => /^(frame|bild|image)/u.test(word));
    const ranked = frame ? [...roles.filter((role) => frames.includes(role)), ...roles.filter((role) => !frames.includes(role))] : roles; // prettier-ignore
    return ranked.map((role, rank) => ({ role, column, rank, choices: roles.length }));
  });
  claims.sort((a, b) => a.rank - b.rank || a.choices - b.choices || a.column.position - b.column.position);
  for (const { role, column } of claims) {
    if (!assigned.has(role) && ![...assigned.values()].includes(column)) assigned.set(role, column);
  }
  return assigned;
}

function addColumn({ columns, unitOf }: GuessInput, proposal: Proposal, name: string, column: ColumnLook): void {
  const pick = pickOf(columns, column);
  const says = `the name ${describe(column)} says so`;
  if (frames.includes(name)) return proposal.add(name, { ...pick, unit: "frames" }, "likely", `${says}, and it holds whole numbers`); // prettier-ignore
  if (moments.includes(name)) {
    const unit = unitInHeader(column.name) ?? unitOf(column);
    const isStated = unit !== undefined && kindOfUnit(unit) === "time";
    return proposal.add(name, { ...pick, unit: isStated ? unit : "us" }, isStated ? "sure" : "unsure", isStated ? `${says}, with its unit of measure` : `${says}, but nothing states its unit of measure`); // prettier-ignore
  }
  if (name === "press") {
    const first = column.numbers!.reduce((least, each) => Math.min(least, each), Infinity);
    return proposal.add(
      name,
      { ...pick, ...(first === 0 && { counted_from: 0 }) },
      "likely",
      `${says}, and it starts at ${first}`,
    );
  }
  if (name === "key") {
    const isLegend = (word: string): boolean => /^[A-Za-z0-9]$/u.test(word) || isKeyCode(word);
    const areCodes = column.words.every(isKeyCode);
    const codes = Object.fromEntries(column.words.map((word) => [word, isLegend(word) ? codeOf(word) : null]));
    const sureness = areCodes ? "sure" : column.words.every(isLegend) ? "likely" : "unsure";
    return proposal.add(name, { ...pick, ...(!areCodes && { codes }) }, sureness, areCodes ? "it holds key codes" : `${says}; key codes name places, not legends`); // prettier-ignore
  }
  if (name === "connection" && column.words.length <= 8 && !column.words.every(isId)) {
    const codes = Object.fromEntries(column.words.map((word) => [word, isId(word) ? word : null]));
    return proposal.add(name, { ...pick, codes }, "unsure", `${says}; write the id that unit.yaml has for each word`);
  }
  if (name === "outcome") return addOutcome(proposal, pick, says, column);
  proposal.add(name, pick, "likely", says);
}

const isId = (word: string): boolean => /^[a-z0-9][a-z0-9-]*$/.test(word);

function addOutcome(
  proposal: Proposal,
  pick: Readonly<Record<string, unknown>>,
  says: string,
  column: ColumnLook,
): void {
  const lists: Record<string, string[]> = {};
  const unknown = column.words.filter((word) => outcomeOfWord(word) === undefined);
  for (const word of column.words) {
    const outcome = outcomeOfWord(word);
    if (outcome !== undefined && outcome !== word) (lists[outcome] ??= []).push(word);
  }
  for (const [outcome, words] of Object.entries(lists)) if (column.words.includes(outcome)) words.push(outcome);
  const reason = unknown.length === 0 ? says : `${says}, but ${unknown.map((word) => `"${word}"`).join(", ")} must be added to one of ok, missed, double, unreadable`; // prettier-ignore
  proposal.add("outcome", { ...pick, ...lists }, unknown.length === 0 ? "likely" : "unsure", reason);
}

/** Takes a column such as `Nr` for the number of the press, where it counts on by one or starts anew. */
function addNumbered(
  { columns }: GuessInput,
  proposal: Proposal,
  used: Set<ColumnLook>,
  assigned: ReadonlyMap<ColumnRole, ColumnLook>,
): boolean {
  const isTaken = (column: ColumnLook): boolean => used.has(column) || [...assigned.values()].includes(column);
  const found = columns.find(
    (column) => !isTaken(column) && isCount(column) && rolesOfName(column.name, ["index"]).length > 0,
  );
  if (found === undefined) return false;
  used.add(found);
  const first = found.numbers![0]!;
  proposal.add(
    "press",
    { ...pickOf(columns, found), ...(first === 0 && { counted_from: 0 }) },
    "likely",
    `${describe(found)} counts the rows from ${first}; is it the number of the press within its connection?`,
  );
  return true;
}

function isCount({ isWhole, numbers }: ColumnLook): boolean {
  const first = numbers?.[0];
  if (!isWhole || numbers === null || (first !== 0 && first !== 1)) return false;
  return numbers.every((each, i) => i === 0 || each === first || each === numbers[i - 1]! + 1);
}

/** Takes the reader from the part in which the files' names differ, as when each reader keeps a sheet. */
function addReaders({ names }: GuessInput, proposal: Proposal): boolean {
  const part = differingPart(names, "reader");
  if (part === null) return false;
  const codes = Object.fromEntries(part.texts.map((text) => [text, null]));
  proposal.add(
    "reader",
    { file_name: part.pattern, codes },
    "unsure",
    "the files' names differ here; is it the reader? Write the role of each",
  );
  return true;
}

function addAbsent(proposal: Proposal, name: string): void {
  if (name === "press")
    proposal.add(name, { from: "order" }, "likely", "nothing numbers the presses, so they are counted");
  else if (name === "outcome") proposal.add(name, { is: "ok" }, "unsure", "no column says what became of a press");
  else if (frames.includes(name) || moments.includes(name))
    proposal.add(name, { column: null, ...(moments.includes(name) && { unit: null }) }, "unsure", "no column is named after it"); // prettier-ignore
  else
    proposal.add(name, { is: null }, "unsure", "no column says it; write what holds for all rows, or where it stands");
}
