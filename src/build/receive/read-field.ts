import { isKeyCode, keyCodeFacts } from "../../records/key-codes.js";
import { isWholeNumber } from "../../records/number-text.js";
import type { Place } from "../../records/problem.js";
import { startOf } from "../../records/source-text.js";
import type { FieldPlan, Layout } from "./columns.js";
import type { ColumnFinder } from "./find-columns.js";
import type { NumberWrong } from "./number-cell.js";
import { numberReader, turnSign } from "./number-cell.js";
import type { ReceiptProblems } from "./problem.js";
import type { SourceTable } from "./source-table.js";
import { unitOfWord } from "./unit-words.js";

/** One value of every row of a file, in the archive's spelling; null: the row is left out because of it. */
export interface FieldColumn {
  readonly texts: readonly (string | null)[];
  /** Where the value stands in the file; null where it does not stand there. */
  readonly position: number | null;
}

/** What is wrong with a text, for the place that it stands at. */
type Report = (text: string, place: () => Place) => string | null;

/**
 * Reads one value of every row. Undefined, with problems, where the file does not have it; a text that cannot be read is a
 * problem and reads as an empty one.
 *
 * @param plan a value that stands in the file, its name, or the columns file: neither counted nor split from a stream
 */
export function readField(
  table: SourceTable,
  plan: FieldPlan,
  layout: Layout,
  finder: ColumnFinder,
  problems: ReceiptProblems,
): FieldColumn | undefined {
  const { value } = plan;
  const read = readerOf(plan, layout, problems);
  const rows = table.length;
  if (value.from === "is") {
    // A fixed value is written in the columns file, so in its own spelling and never with a decimal comma.
    const text = plan.reading.as === "measure" && plan.reading.reversed ? turnSign(value.text) : value.text;
    return { texts: new Array<string | null>(rows).fill(text), position: null };
  }
  if (value.from === "file_name") {
    const found = value.pattern.valueIn(table.name);
    if (found === undefined) {
      problems.add("E_FILE_NAME", startOf(table.name), { expected: value.pattern.written });
      return undefined;
    }
    return { texts: new Array<string | null>(rows).fill(read(found, () => startOf(table.name))), position: null };
  }
  if (value.from !== "column") throw new TypeError(`${plan.name} comes from ${value.from} and stands in no file`);
  const position = finder.positionOf(value.column);
  if (position === undefined) return undefined;
  const texts = table.rows.cells.map((cells, row) => read(cells[position] ?? "", () => table.place(row, position)));
  const { reading } = plan;
  if (reading.as === "measure" && reading.unitColumn !== null) {
    const unitPosition = finder.positionOf(reading.unitColumn);
    if (unitPosition !== undefined) checkUnitColumn(table, unitPosition, reading.unit, problems);
  }
  return { texts, position };
}

function readerOf(plan: FieldPlan, layout: Layout, problems: ReceiptProblems): Report {
  const { name, reading } = plan;
  if (reading.as === "measure") return measureReader(name, reading.unit, reading.reversed, layout, problems);
  if (reading.as === "whole") return wholeReader(name, reading.countedFrom, reading.mayBeEmpty, layout, problems);
  if (reading.as === "choice") {
    return (text, place) => {
      const word = reading.words.get(text);
      if (word !== undefined) return word;
      const names = [...reading.words.keys()].filter((each) => each !== "");
      if (text === "") problems.addRecords("E_CELL_EMPTY", place(), { expected: name });
      else problems.add("E_WORD_UNMAPPED", place(), { found: text, names });
      return "";
    };
  }
  return (text, place) => {
    const word = reading.words.get(text) ?? text;
    if (text === "" && name !== "excluded" && word === "") problems.addRecords("E_CELL_EMPTY", place(), { expected: name });
    else if (reading.isKey && !isKeyCode(word)) problems.add("E_KEY_UNMAPPED", place(), { found: text, expected: keyCodeFacts(word).near ?? "KeyF" }); // prettier-ignore
    return word;
  };
}

function measureReader(
  name: string,
  unit: string,
  reversed: boolean,
  layout: Layout,
  problems: ReceiptProblems,
): Report {
  const readNumber = numberReader(layout);
  return (text, place) => {
    if (text === "") {
      problems.addRecords("E_CELL_EMPTY", place(), { expected: name });
      return "";
    }
    const number = readNumber(text);
    if ("wrong" in number) {
      addWrong(problems, number.wrong, place());
      return "";
    }
    if (number.unit !== undefined && number.unit !== unit) {
      problems.add("E_UNIT_DIFFERS", place(), { found: number.unit, expected: unit });
    }
    return reversed ? turnSign(number.text) : number.text;
  };
}

function wholeReader(
  name: string,
  countedFrom: number,
  mayBeEmpty: boolean,
  layout: Layout,
  problems: ReceiptProblems,
): Report {
  const readNumber = numberReader(layout);
  return (text, place) => {
    if (text === "") {
      if (!mayBeEmpty) problems.addRecords("E_CELL_EMPTY", place(), { expected: name });
      return "";
    }
    const number = readNumber(text);
    if ("wrong" in number) {
      addWrong(problems, number.wrong, place());
      return "";
    }
    const digits = number.text.replace(/\.0*$/, ""); // a spreadsheet writes the frame 120 as 120.00
    if (!isWholeNumber(digits)) {
      problems.addRecords("E_WHOLE_NUMBER", place(), { found: text, expected: "a whole number" });
      return "";
    }
    return String(Number(digits) + 1 - countedFrom);
  };
}

/** A unit of measure in every row that differs from the columns file is reported once for each word. */
function checkUnitColumn(table: SourceTable, position: number, unit: string, problems: ReceiptProblems): void {
  const seen = new Set<string>();
  table.rows.cells.forEach((cells, row) => {
    const word = cells[position] ?? "";
    if (seen.has(word)) return;
    seen.add(word);
    if (unitOfWord(word) === unit) return;
    const found = word === "" ? "no unit of measure" : (unitOfWord(word) ?? `\`${word}\``);
    problems.add("E_UNIT_DIFFERS", table.place(row, position), { found, expected: unit });
  });
}

function addWrong(problems: ReceiptProblems, { code, facts }: NumberWrong, place: Place): void {
  if (code === "E_DECIMAL_SIGN") problems.add(code, place, facts);
  else problems.addRecords(code, place, facts);
}
