import { suffixesFor, symbolOfSuffix, unitSymbols } from "../metrology/units.js";
import type { ProblemCode } from "./problem.js";
import type { Facts } from "./problem-wording.js";

/** A family of names: one stem with any of the suffixes. */
export interface MeasureNames {
  readonly stem: string;
  readonly suffixes: readonly string[];
}

/** The suffixes accepted for a symbol, its own first; `any` stands for every known one. */
export function acceptedSuffixes(symbol: string): readonly string[] {
  return symbol === "any" ? unitSymbols.flatMap((each) => suffixesFor(each).slice(0, 1)) : suffixesFor(symbol);
}

/** All names of a family: `force_cN`, `force_mN`, ... */
export function namesOf(measure: MeasureNames): readonly string[] {
  return measure.suffixes.map((suffix) => `${measure.stem}_${suffix}`);
}

/**
 * What is wrong with an unknown name that starts with the stem of a measured value: it says no unit of measure, one that
 * is not known, or one that measures something else. Undefined where it starts with no stem; the longest stem counts.
 */
export function measureNameProblem(
  name: string,
  measures: readonly MeasureNames[],
): { readonly code: ProblemCode; readonly facts: Facts; readonly measure: MeasureNames } | undefined {
  const fitting = measures.filter(({ stem }) => name === stem || name.startsWith(`${stem}_`));
  const measure = fitting.reduce<MeasureNames | undefined>(
    (longest, each) => (longest === undefined || each.stem.length > longest.stem.length ? each : longest),
    undefined,
  );
  if (measure === undefined) return undefined;
  const suffix = name.slice(measure.stem.length + 1);
  const names = namesOf(measure);
  if (suffix !== "" && !symbolOfSuffix.has(suffix)) {
    // Symbols are so short that one other letter is another unit: only one written in the wrong case is a misspelling.
    const meant = names.filter((each) => each.toLowerCase() === name.toLowerCase());
    const facts = meant.length > 0 ? { found: name, names: meant } : { found: name, expected: names.join(", ") };
    return { code: "E_SUFFIX_UNKNOWN", facts, measure };
  }
  const code = suffix === "" ? "E_SUFFIX_ABSENT" : "E_SUFFIX_WRONG";
  return { code, facts: { found: name, expected: names.join(", ") }, measure };
}
