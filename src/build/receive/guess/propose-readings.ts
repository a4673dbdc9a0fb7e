import { isKeyCode } from "../../../records/key-codes.js";
import type { TableKind } from "../columns.js";
import { tables } from "../columns.js";
import { kindOfUnit, unitInHeader } from "../unit-words.js";
import type { ColumnLook } from "./column-shape.js";
import type { GuessInput } from "./guess-input.js";
import { describe } from "./guess-force.js";
import { codeOf } from "./guess-file-names.js";
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
  if (name === "outcome") return addOutcome(proposal, pick, says, column);
  proposal.add(name, pick, "likely", says);
}

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

function addAbsent(proposal: Proposal, name: string): void {
  if (name === "press")
    proposal.add(name, { from: "order" }, "likely", "nothing numbers the presses, so they are counted");
  else if (name === "outcome") proposal.add(name, { is: "ok" }, "unsure", "no column says what became of a press");
  else if (frames.includes(name) || moments.includes(name))
    proposal.add(name, { column: null, ...(moments.includes(name) && { unit: null }) }, "unsure", "no column is named after it"); // prettier-ignore
  else
    proposal.add(name, { is: null }, "unsure", "no column says it; write what holds for all rows, or where it stands");
}
