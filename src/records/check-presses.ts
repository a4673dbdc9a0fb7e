import type { Archive } from "./archive.js";
import type { ProblemCollector } from "./problem-collector.js";
import { reportDuplicateRows } from "./row-duplicates.js";
import type { Table } from "./table.js";

/** Checks the rows of presses.csv by themselves and against each other; rows with an error are marked as broken. */
export function checkPresses(archive: Pick<Archive, "lab">, table: Table, problems: ProblemCollector): void {
  const name = (row: number): string =>
    `press ${table.texts("press")[row]} over ${table.texts("connection")[row]}, read by ${table.texts("reader")[row]},`;
  checkReaders(archive, table, problems);
  reportDuplicateRows(table, ["connection", "reader", "press"], "E_PRESS_DUPLICATE", name, problems);
  for (let row = 0; row < table.rows; row += 1) {
    if (table.broken[row] === 0 && !checkFrames(table, row, problems)) table.broken[row] = 1;
  }
  checkAgreement(table, problems);
}

function checkReaders(archive: Pick<Archive, "lab">, table: Table, problems: ProblemCollector): void {
  const roles = Object.keys(archive.lab.roles);
  if (roles.length === 0) return; // lab.yaml could not be read, and says so itself
  const seen = new Set<string>();
  table.texts("reader").forEach((reader, row) => {
    if (reader === "" || roles.includes(reader) || seen.has(reader)) return;
    seen.add(reader);
    problems.add("E_ROLE_UNKNOWN", table.place(row, "reader"), { found: reader, names: roles });
  });
}

/** The frames of one press against its outcome and each other; false where they cannot be used. */
function checkFrames(table: Table, row: number, problems: ProblemCollector): boolean {
  const frame = (name: string): number => table.numbers(name)[row]!;
  const [contact, mark, response] = [frame("contact_frame"), frame("mark_frame"), frame("response_frame")];
  const outcome = table.texts("outcome")[row]!;
  if (outcome === "ok") {
    const absent = ["contact_frame", "response_frame"].filter((name) => Number.isNaN(frame(name)));
    for (const name of absent) problems.add("E_FRAME_ABSENT", table.place(row, name), { expected: name });
    if (absent.length > 0) return false;
  }
  if (outcome === "missed" && !Number.isNaN(response)) {
    const facts = { found: String(response), expected: outcome };
    problems.add("W_OUTCOME_FRAMES", table.place(row, "response_frame"), facts);
  }
  if (response < contact) {
    const facts = { found: `frame ${response}`, expected: `frame ${contact}` };
    problems.add("E_RESPONSE_BEFORE_CONTACT", table.place(row, "response_frame"), facts);
    return false;
  }
  if (mark < contact) {
    const facts = { found: String(mark), expected: String(contact) };
    problems.add("E_MARK_BEFORE_CONTACT", table.place(row, "mark_frame"), facts);
    return false;
  }
  return true;
}

/** Readers of one press name the same key and clip. */
function checkAgreement(table: Table, problems: ProblemCollector): void {
  const firstRows = new Map<string, number>();
  for (let row = 0; row < table.rows; row += 1) {
    if (table.broken[row] === 1) continue;
    const id = JSON.stringify([table.texts("connection")[row], table.texts("press")[row]]);
    const first = firstRows.get(id);
    if (first === undefined) firstRows.set(id, row);
    for (const name of first === undefined ? [] : ["key", "clip"]) {
      const [found, expected] = [table.texts(name)[row]!, table.texts(name)[first!]!];
      if (found !== expected) problems.add("W_PRESS_READERS_DIFFER", table.place(row, name), { found, expected });
    }
  }
}
