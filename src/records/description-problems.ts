import type { ErrorObject } from "ajv/dist/2020.js";
import { suffixOfSymbol } from "../metrology/units.js";
import { characteristicNames } from "./characteristics.js";
import { keyCodeFacts } from "./key-codes.js";
import { acceptedSuffixes, measureNameProblem, namesOf } from "./measure-names.js";
import { nearestName } from "./nearest.js";
import { numberProblem } from "./number-text.js";
import type { ProblemCode } from "./problem.js";
import type { ProblemCollector } from "./problem-collector.js";
import type { Facts } from "./problem-wording.js";
import { inForm, whatToWrite } from "./remedies.js";
import type { DescriptionSchema, MeasureRule } from "./schemas/description-schema.js";
import type { YamlDocument } from "./yaml-document.js";
import { escapePointer } from "./yaml-document.js";

/** Turns the ways in which a description does not fit its schema into problems at their places in the file. */
export function reportSchemaErrors(
  document: YamlDocument,
  errors: readonly ErrorObject[],
  problems: ProblemCollector,
): void {
  const news = errors.filter(({ instancePath }) => !isUnreadable(document, instancePath));
  // A value of the wrong type fails its enum, pattern and range as well: one problem is enough.
  const mistyped = new Set(news.filter(({ keyword }) => keyword === "type").map(({ instancePath }) => instancePath));
  const unknown = news.filter(({ keyword }) => keyword === "additionalProperties").map(unknownKey);
  for (const key of unknown) reportUnknownKey(document, key, problems);
  for (const error of news) {
    if (error.keyword === "additionalProperties" || error.keyword === "propertyNames") continue;
    if (error.keyword === "required" || error.keyword === "measures") {
      reportMissing(document, error, unknown, problems);
    } else if (error.keyword === "type" || !mistyped.has(error.instancePath) || error.propertyName !== undefined) {
      reportValue(document, error, problems);
    }
  }
}

/** A key that its mapping does not have. */
interface UnknownKey {
  readonly name: string;
  readonly parent: string;
  readonly schema: DescriptionSchema;
}

function unknownKey(error: ErrorObject): UnknownKey {
  return {
    name: String((error.params as { additionalProperty: unknown }).additionalProperty),
    parent: error.instancePath,
    schema: error.parentSchema as DescriptionSchema,
  };
}

function isUnreadable(document: YamlDocument, pointer: string): boolean {
  return document.unreadable.some((each) => pointer === each || pointer.startsWith(`${each}/`));
}

/** Valid names of a mapping: its plain keys, and its measured values by their own unit of measure. */
function validNames(schema: DescriptionSchema): readonly string[] {
  const measured = Object.entries(schema.measures ?? {}).filter(([, rule]) => rule.symbol !== "any");
  return [
    ...Object.keys(schema.properties ?? {}),
    ...measured.map(([stem, rule]) => `${stem}_${suffixOfSymbol.get(rule.symbol)}`),
  ];
}

const family = (stem: string, rule: MeasureRule): { stem: string; suffixes: readonly string[] } => ({
  stem,
  suffixes: acceptedSuffixes(rule.symbol),
});

function reportUnknownKey(document: YamlDocument, key: UnknownKey, problems: ProblemCollector): void {
  const place = document.placeOfKey(`${key.parent}/${escapePointer(key.name)}`);
  const measured = measureNameProblem(
    key.name,
    Object.entries(key.schema.measures ?? {}).map(([stem, rule]) => family(stem, rule)),
  );
  if (measured === undefined) {
    problems.add("E_KEY_UNKNOWN", place, { found: key.name, names: validNames(key.schema) });
  } else {
    const isAny = key.schema.measures?.[measured.measure.stem]?.symbol === "any";
    const { stem } = measured.measure;
    const hint = `end it with the unit of measure of the characteristic: \`${stem}_cN\` of a force, \`${stem}_mm\` of a travel`;
    problems.add(measured.code, place, isAny ? { ...measured.facts, hint } : measured.facts);
  }
}

type MissingParameter = "missingProperty" | "missing" | "symbol" | "first" | "second";

/** A missing key is no news where an unknown one beside it is that key misspelt. */
function reportMissing(
  document: YamlDocument,
  error: ErrorObject,
  unknown: readonly UnknownKey[],
  problems: ProblemCollector,
): void {
  const params = error.params as Readonly<Partial<Record<MissingParameter, string>>>;
  const at = error.instancePath;
  if (params.second !== undefined) {
    const place = document.placeOfKey(`${at}/${escapePointer(params.second)}`);
    problems.add("E_MEASURE_TWICE", place, { found: params.second, expected: params.first ?? "" });
    return;
  }
  const beside = unknown.filter(({ parent }) => parent === at);
  if (params.missing !== undefined) {
    const symbol = params.symbol ?? "any";
    const names = namesOf({ stem: params.missing, suffixes: acceptedSuffixes(symbol) });
    const meant = (name: string): boolean =>
      measureNameProblem(name, [{ stem: params.missing!, suffixes: [] }]) !== undefined ||
      nearestName(name, names) !== undefined;
    if (beside.some(({ name }) => meant(name))) return;
    const suffix = suffixOfSymbol.get(symbol);
    problems.add("E_KEY_MISSING", document.placeOfValue(at), {
      expected: suffix === undefined ? params.missing : `${params.missing}_${suffix}`,
      hint: `add it: a number${suffix === undefined ? "" : ` in ${symbol}`}`,
    });
    return;
  }
  const name = params.missingProperty ?? "";
  if (beside.some((key) => nearestName(key.name, validNames(key.schema)) === name)) return;
  const schema = (error.parentSchema as DescriptionSchema).properties?.[name];
  problems.add("E_KEY_MISSING", document.placeOfValue(at), {
    expected: name,
    ...(schema && { hint: `add it: ${whatToWrite(schema)}` }),
  });
}

function reportValue(document: YamlDocument, error: ErrorObject, problems: ProblemCollector): void {
  const at = error.instancePath;
  if (error.propertyName !== undefined) {
    const form = (error.parentSchema as DescriptionSchema).form ?? "a name of this form";
    const place = document.placeOfKey(`${at}/${escapePointer(error.propertyName)}`);
    problems.add("E_TEXT_FORM", place, {
      found: error.propertyName,
      expected: form,
      ...nearForm(error.propertyName, error),
    });
    return;
  }
  const { code, facts, pointer } = valueProblem(document, error);
  problems.add(code, document.placeOfValue(pointer ?? at), facts);
}

interface ValueProblem {
  readonly code: ProblemCode;
  readonly facts: Facts;
  /** Where the value's own place is not the one to show. */
  readonly pointer?: string;
}

function valueProblem(document: YamlDocument, error: ErrorObject): ValueProblem {
  const { keyword, data } = error;
  const schema = error.parentSchema as DescriptionSchema;
  const found = document.written(error.instancePath) ?? String(data);
  if (keyword === "type") return typeProblem(data, found, schema);
  if (keyword === "enum") {
    if (data === null) {
      return { code: "E_VALUE_EMPTY", facts: { expected: "a value", hint: `write ${whatToWrite(schema)}` } };
    }
    return { code: "E_VALUE_UNKNOWN", facts: { found, names: (schema.enum ?? []).map(String) } };
  }
  if (keyword === "minLength") return { code: "E_VALUE_EMPTY", facts: { found: '""', expected: "a text" } };
  if (keyword === "format") return formatProblem(found, schema.format ?? "date");
  if (keyword === "minItems" || keyword === "maxItems") {
    const { limit } = error.params as { limit: number };
    const items = Array.isArray(data) ? data.length : 0;
    const expected = keyword === "minItems" ? `at least ${limit}` : `at most ${limit}`;
    return { code: "E_LIST_LENGTH", facts: { found: `${items} items`, expected: `${expected} items are` } };
  }
  if (keyword === "uniqueItems") {
    const { i, j } = error.params as { i: number; j: number };
    const pointer = `${error.instancePath}/${Math.max(i, j)}`;
    return { code: "E_LIST_REPEATS", facts: { found: document.written(pointer) ?? "an item" }, pointer };
  }
  if (keyword === "minimum") return rangeProblem(found, `at least ${schema.minimum}`);
  if (keyword === "maximum") return rangeProblem(found, `at most ${schema.maximum}`);
  if (keyword === "exclusiveMinimum") return rangeProblem(found, `more than ${schema.exclusiveMinimum}`);
  return {
    code: "E_TEXT_FORM",
    facts: { found, expected: schema.form ?? "of the form expected", ...nearForm(found, error) },
  };
}

function nearForm(found: string, error: ErrorObject): Pick<Facts, "near"> {
  const near = inForm(found, error.parentSchema as DescriptionSchema);
  return near === undefined ? {} : { near };
}

function rangeProblem(found: string, expected: string): ValueProblem {
  return { code: "E_NUMBER_RANGE", facts: { found, expected } };
}

const kindNames = {
  object: "a mapping of keys",
  array: "a list",
  string: "a text",
  number: "a number",
  integer: "a whole number",
} as const;

function typeProblem(data: unknown, found: string, schema: DescriptionSchema): ValueProblem {
  const type = schema.type ?? "string";
  const expected = kindNames[type];
  if (data === null) return { code: "E_VALUE_EMPTY", facts: { expected, hint: `write ${whatToWrite(schema)}` } };
  const isPlain = typeof data === "number" || typeof data === "boolean";
  if (type === "string" && isPlain) return { code: "E_TEXT_UNQUOTED", facts: { found, expected } };
  if (type === "number" || type === "integer") {
    if (typeof data === "number") {
      const code = Number.isFinite(data) ? "E_WHOLE_NUMBER" : "E_NUMBER_NOT_FINITE";
      return { code, facts: { found, expected } };
    }
    if (typeof data === "string") return textForNumber(data, expected);
  }
  const actual = Array.isArray(data) ? "a list" : typeof data === "object" ? "a mapping of keys" : `\`${found}\``;
  const hint =
    type === "array" && (isPlain || typeof data === "string")
      ? `write it in brackets: [ ${found} ]`
      : type === "object"
        ? `write ${whatToWrite(schema)}`
        : undefined;
  return { code: "E_VALUE_TYPE", facts: { found: actual, expected, ...(hint !== undefined && { hint }) } };
}

function textForNumber(text: string, expected: string): ValueProblem {
  if (text.trim() !== "" && Number.isFinite(Number(text)) && !/^[-+]?0[xob]/i.test(text)) {
    return { code: "E_VALUE_TYPE", facts: { found: `the text "${text}"`, expected: `${expected} without quotes` } };
  }
  return numberProblem(text);
}

function formatProblem(found: string, format: NonNullable<DescriptionSchema["format"]>): ValueProblem {
  if (format === "key_code") return { code: "E_KEY_CODE", facts: keyCodeFacts(found) };
  if (format === "characteristic") {
    return { code: "E_CHARACTERISTIC_UNKNOWN", facts: { found, names: characteristicNames } };
  }
  if (format === "instant") {
    return { code: "E_TIME_INVALID", facts: { found, expected: "YYYY-MM-DDThh:mm:ssZ" } };
  }
  return { code: "E_DATE_INVALID", facts: { found, expected: "YYYY-MM-DD" } };
}
