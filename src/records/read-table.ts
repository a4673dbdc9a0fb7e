import { converter, symbolOfSuffix } from "../metrology/units.js";
import { checkQuotes } from "./csv-quotes.js";
import { parseRecords } from "./csv-records.js";
import { cellProblem, isAcceptedText } from "./cell-problem.js";
import { isDecimal, isWholeNumber, largestNumber } from "./number-text.js";
import type { ProblemCollector } from "./problem-collector.js";
import type { HeaderColumn } from "./read-header.js";
import { readHeader } from "./read-header.js";
import type { TableField, TableSchema } from "./schemas/table-schema.js";
import type { SourceText } from "./source-text.js";
import { lineText } from "./source-text.js";
import type { TableColumn } from "./table.js";
import { Table, cellPlace, endOfLine } from "./table.js";

/**
 * Reads every row of a table. Undefined, with problems, where the header cannot be understood. Rows of a wrong length and
 * cells that do not fit stay in their place, are reported and mark their row as broken; no row is ever left out, save
 * rows without any value, which are reported.
 */
export function parseTable(source: SourceText, schema: TableSchema, problems: ProblemCollector): Table | undefined {
  const end = checkQuotes(source, problems);
  const parsed = parseRecords(source, end);
  const header = parsed.records[0];
  if (header === undefined) return undefined;
  const columns = readHeader(source, header, schema, problems);
  if (columns === undefined) return undefined;
  const kept = withoutBlanks(source, parsed, problems);
  if (kept.records.length === 1 && end === source.text.length) {
    problems.add("E_CSV_HEADER_ONLY", endOfLine(source, kept.lastLine[0]!));
  }
  const rows = kept.records.slice(1);
  const broken = new Uint8Array(rows.length);
  rows.forEach((record, row) => {
    if (record.length === header.length) return;
    broken[row] = 1;
    reportLength(source, kept.firstLine[row + 1]!, kept.lastLine[row + 1]!, record, header.length, problems);
  });
  const read = columns.map((column) => {
    const texts = rows.map((record) => record[column.position] ?? "");
    const report = (row: number): void => {
      if (rows[row]!.length !== header.length) return; // reported as a whole
      broken[row] = 1;
      const { code, facts } = cellProblem(texts[row]!, column.field);
      problems.add(code, cellPlace(source, kept.firstLine[row + 1]!, column.position), facts);
    };
    return [column.field.name, readColumn(column, texts, report)] as const;
  });
  const isComplete = end === source.text.length && !broken.includes(1);
  return new Table(source, kept, new Map(read), broken, isComplete);
}

type Records = ReturnType<typeof parseRecords>;

/** Takes rows without a value out, reporting each run of them, save blank lines at the end of the file. */
function withoutBlanks(source: SourceText, parsed: Records, problems: ProblemCollector): Records {
  const isBlank = (record: readonly string[]): boolean => record.every((field) => field.trim() === "");
  if (!parsed.records.some(isBlank)) return parsed;
  const kept: number[] = [];
  const last = parsed.records.findLastIndex((record) => !isBlank(record));
  parsed.records.forEach((record, i) => {
    if (!isBlank(record)) kept.push(i);
    else if ((i < last || record.length > 1) && (i === 0 || !isBlank(parsed.records[i - 1]!))) {
      problems.add("W_ROW_BLANK", { file: source.file, line: parsed.firstLine[i]!, column: 1, length: 1 });
    }
  });
  return {
    records: kept.map((i) => parsed.records[i]!),
    firstLine: Int32Array.from(kept, (i) => parsed.firstLine[i]!),
    lastLine: Int32Array.from(kept, (i) => parsed.lastLine[i]!),
  };
}

function reportLength(
  source: SourceText,
  firstLine: number,
  lastLine: number,
  record: readonly string[],
  fields: number,
  problems: ProblemCollector,
): void {
  const facts = { found: record.length === 1 ? "1 field" : `${record.length} fields`, expected: String(fields) };
  if (record.length < fields) {
    problems.add("E_ROW_SHORT", endOfLine(source, lastLine), facts);
    return;
  }
  const first = cellPlace(source, firstLine, fields);
  const length = first.line === lastLine ? lineText(source, lastLine).length - first.column + 1 : first.length;
  const blank = record.slice(fields).every((field) => field.trim() === "");
  const hint =
    "the fields beyond the header are empty, as spreadsheets write them: remove the commas at the ends of lines";
  problems.add("E_ROW_LONG", { ...first, length }, blank ? { ...facts, hint } : facts);
}

/** Checks every cell of one column and turns it into numbers where the field is one. */
function readColumn(column: HeaderColumn, texts: readonly string[], report: (row: number) => void): TableColumn {
  const { field, header, position } = column;
  const required = field.constraints?.required === true;
  const isNumber = field.type !== "string";
  const numbers = new Float64Array(isNumber ? texts.length : 0);
  const accepts = isNumber ? numberTest(field) : (text: string): boolean => isAcceptedText(text, field);
  const toNumber = isNumber ? numberReader(header, field) : Number;
  for (let row = 0; row < texts.length; row += 1) {
    const text = texts[row]!;
    if (isNumber) numbers[row] = NaN;
    if (text === "") {
      if (required) report(row);
    } else if (!accepts(text)) {
      report(row);
    } else if (isNumber) {
      const number = Math.abs(Number(text)) <= largestNumber ? toNumber(text) : NaN;
      if (isInRange(number, field)) numbers[row] = number;
      else report(row);
    }
  }
  return { header, position, texts, numbers };
}

function numberTest(field: TableField): (text: string) => boolean {
  return field.type === "integer" ? isWholeNumber : isDecimal;
}

/** Reads numbers of a column into the schema's unit of measure, exactly, given the unit of measure in the header. */
function numberReader(header: string, field: TableField): (text: string) => number {
  if (field.measure === undefined) return Number;
  const { stem, symbol } = field.measure;
  const from = symbolOfSuffix.get(header.slice(stem.length + 1));
  if (from === undefined) throw new TypeError(`${header} is accepted by a schema but names no unit of measure`);
  return from === symbol ? Number : converter(from, symbol);
}

/** Whether a number lies within the field's limits, which are in the schema's unit of measure. */
function isInRange(number: number, field: TableField): boolean {
  const { minimum = -Infinity, exclusiveMinimum = -Infinity } = field.constraints ?? {};
  return number >= minimum && number > exclusiveMinimum;
}
