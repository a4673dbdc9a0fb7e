import type { ErrorObject, ValidateFunction } from "ajv/dist/2020.js";
import { Ajv2020 } from "ajv/dist/2020.js";
import { characteristicOf } from "./characteristics.js";
import { isDate, isInstant } from "./dates.js";
import { isKeyCode } from "./key-codes.js";
import { acceptedSuffixes, namesOf } from "./measure-names.js";
import type { DescriptionFormat, DescriptionSchema, MeasureRule } from "./schemas/description-schema.js";

/** Checks plain data against a schema; null where it fits, else every way in which it does not. */
export type Validator = (data: unknown) => readonly ErrorObject[] | null;

/**
 * A maker of validators over JSON Schema 2020-12, by Ajv with all errors collected; each schema is compiled once, on
 * first use. Knows the project's keyword `measures` and its formats.
 */
export function createValidators(): (schema: DescriptionSchema) => Validator {
  const ajv = new Ajv2020({
    allErrors: true,
    verbose: true,
    strict: true,
    strictRequired: false,
    ownProperties: true,
    validateFormats: true,
    // Each schema judges a few files: checking and optimising it costs more than judging; a test checks them all.
    code: { optimize: false },
    meta: false,
    validateSchema: false,
  });
  ajv.addVocabulary(["form"]);
  for (const [name, accepts] of Object.entries(formats)) ajv.addFormat(name, accepts);
  ajv.addKeyword({ keyword: "measures", type: "object", schemaType: "object", errors: true, validate: checkMeasures });
  const compiled = new Map<DescriptionSchema, ValidateFunction>();
  return (schema) => (data) => {
    let validate = compiled.get(schema);
    if (validate === undefined) {
      validate = ajv.compile(expandMeasures(schema));
      compiled.set(schema, validate);
    }
    return validate(data) === true ? null : (validate.errors ?? []);
  };
}

const formats: Readonly<Record<DescriptionFormat, (text: string) => boolean>> = {
  date: isDate,
  date_or_not_recorded: (text) => text === "not recorded" || isDate(text),
  instant: isInstant,
  key_code: isKeyCode,
  characteristic: (text) => characteristicOf(text) !== undefined,
};

/** Names, in this mapping's order, that give one measured value. */
function given(data: object, stem: string, rule: MeasureRule): readonly string[] {
  const names = namesOf({ stem, suffixes: acceptedSuffixes(rule.symbol) });
  return Object.keys(data).filter((key) => names.includes(key));
}

/** The keyword `measures`: each required value is there, and none in two units of measure. */
const checkMeasures: {
  (measures: Readonly<Record<string, MeasureRule>>, data: object): boolean;
  errors?: Partial<ErrorObject>[];
} = (measures, data) => {
  const errors: Partial<ErrorObject>[] = [];
  for (const [stem, rule] of Object.entries(measures)) {
    const [first, second] = given(data, stem, rule);
    if (first === undefined && rule.required === true) {
      errors.push({ keyword: "measures", params: { missing: stem, symbol: rule.symbol } });
    }
    if (second !== undefined) errors.push({ keyword: "measures", params: { first, second } });
  }
  checkMeasures.errors = errors;
  return errors.length === 0;
};

/**
 * Lets the accepted names of measured values into every mapping of a schema: one `patternProperties` for all that are of
 * one form, since a property for each name takes Ajv a second to compile.
 */
function expandMeasures(schema: DescriptionSchema): object {
  const properties = Object.entries(schema.properties ?? {}).map(([name, of]) => [name, expandMeasures(of)] as const);
  const ofForm = new Map<string, string[]>();
  for (const [stem, rule] of Object.entries(schema.measures ?? {})) {
    const form = JSON.stringify(rule.each);
    const names = namesOf({ stem, suffixes: acceptedSuffixes(rule.symbol) });
    ofForm.set(form, [...(ofForm.get(form) ?? []), ...names]);
  }
  const patterns = [...ofForm].map(
    ([form, names]) => [`^(?:${names.join("|")})$`, JSON.parse(form) as object] as const,
  );
  const { items, additionalProperties: additional } = schema;
  return {
    ...schema,
    ...(schema.type === "object" && {
      properties: Object.fromEntries(properties),
      patternProperties: Object.fromEntries(patterns),
    }),
    ...(items && { items: expandMeasures(items) }),
    ...(additional && { additionalProperties: expandMeasures(additional) }),
  };
}
