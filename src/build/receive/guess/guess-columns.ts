import type { ReceiptProblems } from "../problem.js";
import type { ReceivedBytes } from "../make-receipt.js";
import { decodeFile } from "../decode-file.js";
import { readSourceTable } from "../read-source-table.js";
import type { Encoding } from "../columns.js";
import { unitOfWord } from "../unit-words.js";
import { lookAtColumns } from "./column-shape.js";
import type { ColumnLook } from "./column-shape.js";
import type { Decision } from "./decision.js";
import type { GuessInput } from "./guess-input.js";
import { guessLayout } from "./guess-layout.js";
import type { LayoutGuess } from "./guess-layout.js";
import { proposeForce } from "./propose-force.js";
import { proposeReadings } from "./propose-readings.js";
import { Proposal } from "./proposal.js";
import { kindOfColumns } from "./guess-kind.js";
import { tryProposal } from "./try-proposal.js";

/** A proposed columns file. */
export interface ColumnsGuess {
  /** YAML, with what has to be written left empty. */
  readonly text: string;
  readonly decisions: readonly Decision[];
}

/**
 * Proposes a columns file for some files by the look of the first one, and says of each part how sure it is: by names and
 * units of measure in several languages, and by the shapes of the columns. The proposal is tried on all files, and says how
 * that went. Undefined, with a problem, where the first file is no table.
 *
 * @param given at least one file
 */
export function guessColumns(given: readonly ReceivedBytes[], problems: ReceiptProblems): ColumnsGuess | undefined {
  const first = given[0]!;
  const encoding = encodingOf(first);
  const source = decodeFile(first.name, first.bytes, encoding, problems);
  if (source === undefined) return undefined;
  const guess = guessLayout(source.text.replace(/\n$/u, "").split("\n"), encoding);
  if (guess === undefined) {
    problems.add("E_DELIMITER_UNSEEN", { file: first.name, line: 1, column: 1, length: 1 });
    return undefined;
  }
  const table = readSourceTable(source, guess.layout, problems);
  if (table === undefined) return undefined;
  const columns = lookAtColumns(table, guess.layout);
  const input = { table, columns, unitOf: unitsApart(guess, columns), names: given.map(({ name }) => name) };
  const kind = kindOfColumns(columns);
  const proposal = new Proposal();
  proposal.add("kind", kind.kind, kind.sureness, kind.reason);
  addLayout(proposal, guess);
  if (kind.kind === "force") proposeForce(input, proposal);
  else proposeReadings(input, kind.kind, proposal);
  const tried = tryProposal(proposal, given);
  const opening = [
    `A proposal for ${given.length === 1 ? first.name : `${given.length} files such as ${first.name}`}, by the look of the first.`,
    "Each part says how sure it is: look at what is unsure, write what is empty, and correct what is wrong.",
    ...tried,
  ];
  return { text: proposal.render(opening), decisions: proposal.decisions };
}

function encodingOf({ bytes }: ReceivedBytes): Encoding | undefined {
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) return "utf-16";
  if (bytes.includes(0)) return undefined;
  try {
    new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    return undefined;
  } catch {
    return "windows-1252";
  }
}

/** Parts of the layout that have a decision, in the order of the columns file. */
function addLayout(proposal: Proposal, { layout, decisions }: LayoutGuess): void {
  const values: Readonly<Record<string, unknown>> = {
    encoding: layout.encoding,
    delimiter: layout.delimiter === "\t" ? "tab" : layout.delimiter,
    decimal: layout.decimal,
    grouping: layout.grouping,
    lines_before: layout.linesBefore,
    header: layout.hasHeader,
    lines_after_header: layout.linesAfterHeader,
    comment: layout.comment,
    stops_at: layout.stopsAt,
  };
  for (const [name, value] of Object.entries(values)) {
    const decision = decisions.find(({ part }) => part === `layout.${name}`);
    if (decision !== undefined) proposal.add(decision.part, value, decision.sureness, decision.reason);
  }
}

function unitsApart(guess: LayoutGuess, columns: readonly ColumnLook[]): GuessInput["unitOf"] {
  return ({ position }) => {
    const below = guess.unitRow[position];
    const stated = below === undefined ? undefined : unitOfWord(below);
    return stated ?? columns[position + 1]?.unitWord;
  };
}
