import type { ProblemCode } from "./problem.js";
import type { Facts } from "./problem-wording.js";

/** A decimal number in plain or exponent form: sign, digits with a point, exponent; nothing around it. */
const decimal = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?$/;
const notFinite = /^[+-]?(nan|inf|infinity|1\.#(inf|ind|qnan))$/i;
const withComma = /^[+-]?(\d+|\d{1,3}([. ]\d{3})+),\d+([eE][+-]?\d+)?$/;

/** No reading and no stated value is larger; what is larger is a mistake, and could leave doubles when converted. */
export const largestNumber = 1e15;

/** Whether a text is a decimal number that a double can hold. */
export function isDecimal(text: string): boolean {
  return decimal.test(text) && Number.isFinite(Number(text));
}

/** Why a text is no number, as a problem's code and facts. Meaningful only where `isDecimal` is false. */
export function numberProblem(text: string): { readonly code: ProblemCode; readonly facts: Facts } {
  if (withComma.test(text)) {
    return {
      code: "E_DECIMAL_COMMA",
      facts: { found: text, expected: text.replace(/[. ]/g, "").replace(",", ".") },
    };
  }
  if (notFinite.test(text.replace(/^([+-]?)\./, "$1")) || decimal.test(text)) {
    return { code: "E_NUMBER_NOT_FINITE", facts: { found: text, expected: "a finite number" } };
  }
  return { code: "E_NUMBER", facts: { found: text, expected: "a decimal number" } };
}

/** Whether a text is a whole number that a double holds exactly. */
export function isWholeNumber(text: string): boolean {
  return /^[+-]?\d+$/.test(text) && Number.isSafeInteger(Number(text));
}
