import type { KnownNames } from "../../../src/build/receive/check-taken.js";
import type { ColumnsFile } from "../../../src/build/receive/columns.js";
import type { Receipt } from "../../../src/build/receive/make-receipt.js";
import { makeReceipt } from "../../../src/build/receive/make-receipt.js";
import type { ReceiptProblem } from "../../../src/build/receive/problem.js";
import { ReceiptProblems } from "../../../src/build/receive/problem.js";
import { readColumnsText } from "../../../src/build/receive/read-columns.js";
import { sourceText } from "../../../src/records/source-text.js";

export interface Tried {
  readonly columns: ColumnsFile | undefined;
  readonly receipt: Receipt | undefined;
  readonly problems: readonly ReceiptProblem[];
}

const nothingKnown: KnownNames = { roles: {}, connections: null };

/** Makes a receipt of files, by name, as a columns file in YAML says. */
export function tryReceipt(
  files: Readonly<Record<string, string | Uint8Array>>,
  yaml: string,
  known: KnownNames = nothingKnown,
): Tried {
  const problems = new ReceiptProblems();
  const columns = readColumnsText(sourceText("columns.yaml", yaml), problems);
  if (columns === undefined) return { columns, receipt: undefined, problems: problems.list() };
  const given = Object.entries(files).map(([name, content]) => ({
    name,
    bytes: typeof content === "string" ? new TextEncoder().encode(content) : content,
  }));
  const { receipt } = makeReceipt(given, columns, known, problems);
  return { columns, receipt, problems: problems.list() };
}

/** "file:line:column CODE" of each problem. */
export function placesOf(problems: readonly ReceiptProblem[]): readonly string[] {
  return problems.map(({ file, line, column, code }) => `${file}:${line}:${column} ${code}`);
}

/** What was left out of each file: "lines reason". */
export function leftOutOf(receipt: Receipt | undefined): Readonly<Record<string, readonly string[]>> {
  return Object.fromEntries(
    (receipt?.files ?? []).map(({ name, leftOut }) => [
      name,
      leftOut.map(({ firstLine, lastLine, reason }) => `${firstLine}-${lastLine} ${reason}`),
    ]),
  );
}

/** Windows-1252 bytes of a text whose characters are all in Latin-1. */
export function latin1(text: string): Uint8Array {
  return new Uint8Array(Buffer.from(text, "latin1"));
}

/** Every line of a file is the header, taken, or left out, and none is two of these. */
export function linesAccountedFor(receipt: Receipt, headerLines: Readonly<Record<string, number>> = {}): boolean {
  return receipt.files.every(({ name, lines, taken, leftOut }) => {
    const times = new Array<number>(lines + 1).fill(0);
    const count = (first: number, last: number): void => {
      for (let line = first; line <= last; line += 1) times[line] = (times[line] ?? 0) + 1;
    };
    for (const { firstLine, lastLine } of [...taken, ...leftOut]) count(firstLine, lastLine);
    const header = headerLines[name];
    if (header !== undefined) count(header, header);
    return times.length === lines + 1 && times.every((each, line) => line === 0 || each === 1);
  });
}
