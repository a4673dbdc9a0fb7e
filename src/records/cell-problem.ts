import { parseSymbol, unitSymbols } from "../metrology/units.js";
import { characteristicNames, characteristicOf } from "./characteristics.js";
import { isDate } from "./dates.js";
import { isKeyCode, keyCodeFacts } from "./key-codes.js";
import { isDecimal, isWholeNumber, largestNumber, numberProblem } from "./number-text.js";
import type { ProblemCode } from "./problem.js";
import type { Facts } from "./problem-wording.js";
import type { TableField } from "./schemas/table-schema.js";

const accepts: Readonly<Record<NonNullable<TableField["vocabulary"]>, (text: string) => boolean>> = {
  key_code: isKeyCode,
  date: isDate,
  characteristic: (text) => characteristicOf(text) !== undefined,
  symbol: (text) => parseSymbol(text) !== undefined,
  reason: (text) => !/^(0|1|-|no|yes|n|y|x|true|false|t|f|none|ok)$/i.test(text.trim()),
};

/** Whether a cell that is not empty holds what its text field allows. */
export function isAcceptedText(text: string, field: TableField): boolean {
  const { constraints, vocabulary } = field;
  if (vocabulary !== undefined && !accepts[vocabulary](text)) return false;
  if (constraints?.enum !== undefined && !constraints.enum.includes(text)) return false;
  if (constraints?.pattern !== undefined && !new RegExp(constraints.pattern, "u").test(text)) return false;
  return text.trim() === text;
}

interface CellProblem {
  readonly code: ProblemCode;
  readonly facts: Facts;
}

/** What is wrong with a cell that its field does not accept. */
export function cellProblem(text: string, field: TableField): CellProblem {
  if (text === "") return { code: "E_CELL_EMPTY", facts: { expected: field.name } };
  return field.type === "string" ? textProblem(text, field) : numberCellProblem(text, field);
}

function textProblem(text: string, field: TableField): CellProblem {
  const { constraints, vocabulary } = field;
  if (vocabulary === "key_code" && !isKeyCode(text)) return { code: "E_KEY_CODE", facts: keyCodeFacts(text) };
  if (vocabulary === "characteristic" && !accepts.characteristic(text)) {
    return named("E_CHARACTERISTIC_UNKNOWN", text, characteristicNames);
  }
  if (vocabulary === "symbol" && !accepts.symbol(text)) return named("E_SYMBOL_UNKNOWN", text, unitSymbols);
  if (vocabulary === "date" && !isDate(text)) {
    return { code: "E_DATE_INVALID", facts: { found: text, expected: "YYYY-MM-DD" } };
  }
  if (vocabulary === "reason" && !accepts.reason(text)) return { code: "E_EXCLUDED_NO_REASON", facts: { found: text } };
  if (constraints?.enum !== undefined && !constraints.enum.includes(text)) {
    if (field.name === "contact") return { code: "E_CONTACT_VALUE", facts: { found: text, expected: "0, 1 or empty" } };
    return named("E_VALUE_UNKNOWN", text, constraints.enum);
  }
  if (text.trim() !== text) {
    const facts = { found: text, expected: "a text without spaces around it", near: text.trim() };
    return { code: "E_TEXT_FORM", facts };
  }
  const facts = { found: text, expected: field.form ?? "of the form expected" };
  return { code: "E_TEXT_FORM", facts: field.remedy === undefined ? facts : { ...facts, hint: field.remedy } };
}

function named(code: ProblemCode, found: string, names: readonly string[]): CellProblem {
  return { code, facts: { found, names } };
}

function numberCellProblem(text: string, field: TableField): CellProblem {
  if (!isDecimal(text)) return numberProblem(text);
  if (field.type === "integer" && !isWholeNumber(text)) {
    return { code: "E_WHOLE_NUMBER", facts: { found: text, expected: "a whole number" } };
  }
  const facts = { found: text, expected: rangeOf(text, field) };
  const countsFrom1 = field.type === "integer" && field.constraints?.minimum === 1 && Number(text) === 0;
  return { code: "E_NUMBER_RANGE", facts: countsFrom1 ? { ...facts, hint: `\`${field.name}\` counts from 1` } : facts };
}

function rangeOf(text: string, field: TableField): string {
  const { minimum, exclusiveMinimum } = field.constraints ?? {};
  if (!(Math.abs(Number(text)) <= largestNumber)) return `a number within ±${largestNumber}`;
  return minimum !== undefined ? `at least ${minimum}` : `more than ${exclusiveMinimum}`;
}
