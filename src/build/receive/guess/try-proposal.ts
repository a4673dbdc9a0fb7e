import { keyCodes } from "../../../records/key-codes.js";
import { sourceText } from "../../../records/source-text.js";
import type { ReceivedBytes } from "../make-receipt.js";
import { makeReceipt } from "../make-receipt.js";
import { ReceiptProblems } from "../problem.js";
import { readColumnsText } from "../read-columns.js";
import type { Proposal } from "./proposal.js";

/**
 * Tries a proposal on the files, with stand-ins for what is still to be written, and says in one or two sentences how that
 * went: what would be taken, or the first problem.
 */
export function tryProposal(proposal: Proposal, given: readonly ReceivedBytes[]): readonly string[] {
  let [keys, others] = [0, 0];
  const standIn = (part: string): string =>
    part === "key" ? keyCodes[keys++ % keyCodes.length]! : `x${(others += 1)}`;
  const text = proposal.render([], standIn);
  const problems = new ReceiptProblems();
  const columns = readColumnsText(sourceText("columns.yaml", text), problems);
  const made = columns && makeReceipt(given, columns, { roles: {}, connections: null }, problems);
  const empty = proposal.emptyParts;
  const stand = empty.length === 0 ? "" : `, with stand-ins for what is empty (${empty.join(", ")})`;
  const list = problems.list();
  if (made?.receipt !== undefined) {
    const left = made.receipt.files.flatMap(({ leftOut }) => leftOut).length;
    const warnings = list.length === 0 ? "" : `, with ${count(list.length, "warning", "warnings")}`;
    return [
      `Tried on the files${stand}: ${count(made.receipt.rows, "row", "rows")} would be taken, ${count(left, "stretch", "stretches")} of lines left out${warnings}.`,
    ];
  }
  const errors = list.filter(({ severity }) => severity === "error");
  const first = errors[0];
  return [
    `Tried on the files${stand}: ${count(errors.length, "problem", "problems")}, so it is not right yet.`,
    ...(first === undefined
      ? []
      : [`The first: ${first.file}:${first.line}:${first.column} ${first.code} ${first.message}`]),
  ];
}

function count(n: number, noun: string, nouns: string): string {
  return `${n} ${n === 1 ? noun : nouns}`;
}
