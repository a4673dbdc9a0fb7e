import type { ProblemCode } from "../../records/problem.js";
import type { Facts } from "../../records/problem-wording.js";
import { isDecimal, numberProblem } from "../../records/number-text.js";
import type { Layout } from "./columns.js";
import { unitOfWord } from "./unit-words.js";

/** No reading is written with more characters, its unit of measure included. */
const longestNumber = 64;

/** Reads the text of a number into the archive's spelling. */
export type NumberReader = (text: string) => NumberCell;

export type NumberCell =
  /** A decimal number with a point, its digits as they were; and the unit of measure written behind it, if any. */
  { readonly text: string; readonly unit: string | undefined } | { readonly wrong: NumberWrong };

export interface NumberWrong {
  readonly code: "E_DECIMAL_SIGN" | ProblemCode;
  readonly facts: Facts;
}

/** Characters that stand for each mark of groups: spaces and apostrophes have typographic variants. */
const groupMarks: Readonly<Record<string, string>> = {
  ".": "[.]",
  ",": "[,]",
  " ": "[ \\u00a0\\u2009\\u202f]",
  "'": "['\\u2019]",
};

/**
 * A reader of numbers in one layout. Only signs change: the decimal sign becomes a point, marks between groups of three
 * digits go, a typographic minus becomes a hyphen. Digits stay as they are, so nothing is rounded. A group mark that does
 * not stand between groups of three is no number, nor is one with the other decimal sign: neither is ever guessed.
 */
export function numberReader(layout: Pick<Layout, "decimal" | "grouping">): NumberReader {
  const { decimal, grouping } = layout;
  const sign = decimal === "." ? "\\." : ",";
  const mark = groupMarks[grouping] ?? "(?!)";
  const whole = grouping === "" ? "\\d*" : `(?:\\d{1,3}(?:${mark}\\d{3})+|\\d*)`;
  const form = new RegExp(`^([+-]?)(${whole})(?:${sign}(\\d*))?([eE][+-]?\\d+)?$`, "u");
  const marks = new RegExp(mark, "gu");
  const plain = decimal === "." && grouping === "";
  return (written) => {
    if (written.length > longestNumber) {
      return {
        wrong: { code: "E_NUMBER", facts: { found: `${written.slice(0, 24)}…`, expected: "a decimal number" } },
      };
    }
    if (plain && isDecimal(written)) return { text: written, unit: undefined };
    const [number, unit] = splitUnit(written);
    const match = form.exec(number.replace(/^[\u2212\u2013]/u, "-"));
    if (match !== null) {
      const [, plus, digits, fraction, exponent = ""] = match;
      const ungrouped = grouping === "" ? digits! : digits!.replace(marks, "");
      const text = `${plus}${ungrouped}${fraction === undefined ? "" : `.${fraction}`}${exponent}`;
      if (isDecimal(text)) return { text, unit };
    }
    return { wrong: wrongNumber(number === "" ? written : number, decimal) };
  };
}

/** A number's text and the suffix of the unit of measure behind it; all of the text where what follows is none. */
function splitUnit(written: string): readonly [number: string, unit: string | undefined] {
  const match = /^(.*\d[.,]?)\s*([^\d\s][^\d]*)$/u.exec(written);
  const unit = match === null ? undefined : unitOfWord(match[2]!);
  return unit === undefined ? [written, undefined] : [match![1]!, unit];
}

function wrongNumber(text: string, decimal: "." | ","): NumberWrong {
  if (
    /^[+-]?[\d., '\u00a0\u2009\u202f\u2019]*\d[\d.,]*(?:[eE][+-]?\d+)?$/u.test(text) &&
    /[.,' \u00a0\u2009\u202f\u2019]/u.test(text)
  ) {
    return { code: "E_DECIMAL_SIGN", facts: { found: text, expected: decimal === "." ? "point" : "comma" } };
  }
  return numberProblem(text);
}

/** A number's text with the other sign, digit by digit; a zero has none. */
export function turnSign(text: string): string {
  const digits = text.replace(/^[+-]/, "");
  return Number(digits) === 0 || text.startsWith("-") ? digits : `-${digits}`;
}
