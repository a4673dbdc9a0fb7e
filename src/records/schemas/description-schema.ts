import { largestNumber } from "../number-text.js";

/** A JSON Schema (2020-12) of a YAML description, with this project's own keyword `measures`. */
export interface DescriptionSchema {
  readonly $schema?: "https://json-schema.org/draft/2020-12/schema";
  readonly title?: string;
  readonly type?: "object" | "array" | "string" | "number" | "integer";
  readonly properties?: Readonly<Record<string, DescriptionSchema>>;
  readonly required?: readonly string[];
  /** Keys that are not listed: refused (`false`), or all of this form. */
  readonly additionalProperties?: DescriptionSchema | false;
  readonly propertyNames?: DescriptionSchema;
  readonly items?: DescriptionSchema;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly uniqueItems?: boolean;
  readonly enum?: readonly (string | number | boolean)[];
  readonly pattern?: string;
  /** What a pattern asks for, in words (own keyword). */
  readonly form?: string;
  readonly minLength?: number;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly format?: DescriptionFormat;
  /**
   * Own keyword: keys whose name ends with a unit of measure. Each stem is accepted with any suffix that converts into
   * the symbol, with one of them only, and must be there if required.
   */
  readonly measures?: Readonly<Record<string, MeasureRule>>;
}

/** What a text must be, beyond a pattern. */
export type DescriptionFormat = "date" | "date_or_not_recorded" | "instant" | "key_code" | "characteristic";

export interface MeasureRule {
  /** Any suffix that converts into this symbol is accepted; `any`: every suffix, where another key decides. */
  readonly symbol: string;
  readonly required?: boolean;
  /** What the value is. */
  readonly each: DescriptionSchema;
}

export const jsonSchemaDialect = "https://json-schema.org/draft/2020-12/schema";

/** A text of at least one character. */
export const text: DescriptionSchema = { type: "string", minLength: 1 };

/** An id: lower-case letters, digits and hyphens. */
export const identifier: DescriptionSchema = {
  type: "string",
  pattern: "^[a-z0-9][a-z0-9-]*$",
  form: "an id of lower-case letters, digits and hyphens",
};

/** An id of a version of a method: `keystroke@2`. */
export const methodIdentifier: DescriptionSchema = {
  type: "string",
  pattern: "^[a-z][a-z0-9-]*@[1-9][0-9]*$",
  form: "a name and a version, such as keystroke@2",
};

/** A name in snake_case. */
export const snakeName: DescriptionSchema = {
  type: "string",
  pattern: "^[a-z][a-z0-9]*(_[a-z0-9]+)*$",
  form: "a name of lower-case words joined by underscores",
};

/** A closed mapping. */
export function mapping(
  properties: Readonly<Record<string, DescriptionSchema>>,
  required: readonly string[],
  measures?: Readonly<Record<string, MeasureRule>>,
): DescriptionSchema {
  const closed = { type: "object", properties, required, additionalProperties: false } as const;
  return measures === undefined ? closed : { ...closed, measures };
}

/** A list of items of one form. */
export function listOf(items: DescriptionSchema, minItems = 0): DescriptionSchema {
  return { type: "array", items, minItems };
}

/** A text among a few. */
export function oneOf(...values: readonly string[]): DescriptionSchema {
  return { type: "string", enum: values };
}

/** A whole number of at least `minimum`. */
export function wholeNumber(minimum: number): DescriptionSchema {
  return { type: "integer", minimum };
}

/** A number of any sign. */
export const anyNumber: DescriptionSchema = { type: "number", minimum: -largestNumber, maximum: largestNumber };

/** A measured value of any sign. */
export function anySign(symbol: string, required = false): MeasureRule {
  return { symbol, required, each: anyNumber };
}

/** A measured value above 0. */
export function above0(symbol: string, required = false): MeasureRule {
  return { symbol, required, each: { type: "number", exclusiveMinimum: 0, maximum: largestNumber } };
}

/** A measured value of at least 0. */
export function atLeast0(symbol: string, required = false): MeasureRule {
  return { symbol, required, each: { type: "number", minimum: 0, maximum: largestNumber } };
}
