import type { SourceText } from "../../../records/source-text.js";
import { decodeFile } from "../decode-file.js";
import type { ReceiptProblem } from "../problem.js";
import { ReceiptProblems } from "../problem.js";
import { readGivenFiles } from "../read-given-files.js";
import type { ColumnsGuess } from "./guess-columns.js";
import { guessColumns } from "./guess-columns.js";

export interface FilesGuess {
  /** Undefined where the files are no tables; the problems say why. */
  readonly guess: ColumnsGuess | undefined;
  readonly problems: readonly ReceiptProblem[];
  /** The first file as text, for showing problems in their place. */
  readonly texts: readonly SourceText[];
}

/** Reads files and proposes a columns file for them. Writes nothing. */
export function guessFiles(files: readonly string[]): FilesGuess {
  const problems = new ReceiptProblems();
  const given = readGivenFiles(files, problems);
  const [first] = given;
  if (first === undefined || problems.hasErrors) return { guess: undefined, problems: problems.list(), texts: [] };
  const guess = guessColumns(given, problems);
  const text = decodeFile(first.name, first.bytes, undefined, new ReceiptProblems());
  return { guess, problems: problems.list(), texts: text === undefined ? [] : [text] };
}
