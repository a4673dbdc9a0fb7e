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
    if (first === undefined && rule.required === true) errors.push({ keyword: "measures", params: { missing: stem } });
    if (second !== undefined) errors.push({ keyword: "measures", params: { first, second } });
  }
  checkMeasures.errors = errors;
  return errors.length === 0;
};

/** Adds a property for every accepted name of every measured value, at every level of a schema. */
function expandMeasures(schema: DescriptionSchema): DescriptionSchema {
  const inner = (of: DescriptionSchema | undefined): DescriptionSchema | undefined => of && expandMeasures(of);
  const properties = Object.entries(schema.properties ?? {}).map(([name, of]) => [name, expandMeasures(of)] as const);
  const measured = Object.entries(schema.measures ?? {}).flatMap(([stem, rule]) =>
    namesOf({ stem, suffixes: acceptedSuffixes(rule.symbol) }).map((name) => [name, rule.each] as const),
  );
  const items = inner(schema.items);
  const additional = schema.additionalProperties;
  return {
    ...schema,
    ...(schema.type === "object" && { properties: Object.fromEntries([...properties, ...measured]) }),
    ...(items && { items }),
    ...(additional && { additionalProperties: expandMeasures(additional) }),
  };
}
