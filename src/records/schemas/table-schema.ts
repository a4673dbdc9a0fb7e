/** A Table Schema (Data Package v2) with this project's own properties; all rows are in one file of comma-separated text. */
export interface TableSchema {
  readonly $schema: "https://datapackage.org/profiles/2.0/tableschema.json";
  readonly title: string;
  readonly description: string;
  /** Every field must be there, in any order, and no other. */
  readonly fieldsMatch: readonly ["equal"];
  readonly missingValues: readonly [""];
  readonly primaryKey?: readonly string[];
  readonly uniqueKeys?: readonly (readonly string[])[];
  readonly fields: readonly TableField[];
}

/**
 * A column. Types are `string`, `integer` and `number` only: `boolean`, whose profile admits a dozen spellings, is not
 * used, and the NaN, INF and -INF that the profile admits in numbers are refused.
 */
export interface TableField {
  readonly name: string;
  readonly type: "string" | "integer" | "number";
  readonly title: string;
  readonly constraints?: {
    readonly required?: boolean;
    readonly enum?: readonly string[];
    readonly minimum?: number;
    readonly exclusiveMinimum?: number;
    readonly pattern?: string;
  };
  /** Own: the column's unit of measure is part of its name, and these variants of the name are converted exactly. */
  readonly measure?: { readonly stem: string; readonly symbol: string; readonly suffixes: readonly string[] };
  /** Own: other names under which the column may stand. */
  readonly aliases?: readonly string[];
  /** Own: what a text must be: a W3C key code, a calendar date, a characteristic, a unit of measure. */
  readonly vocabulary?: "key_code" | "date" | "characteristic" | "symbol" | "reason";
  /** Own: what a pattern asks for, in words. */
  readonly form?: string;
  /** Own: what to do where a text does not have that form. */
  readonly remedy?: string;
}

export const tableProfile = "https://datapackage.org/profiles/2.0/tableschema.json";

/** A column of a measured value: its name ends with a unit of measure, and any suffix given here is accepted. */
export function measureField(
  stem: string,
  symbol: string,
  suffixes: readonly [string, ...string[]],
  title: string,
  constraints: NonNullable<TableField["constraints"]> = {},
): TableField {
  return {
    name: `${stem}_${suffixes[0]}`,
    type: "number",
    title,
    constraints,
    measure: { stem, symbol, suffixes },
  };
}
