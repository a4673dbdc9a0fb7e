import { characteristics } from "../characteristics.js";
import type { DescriptionSchema, MeasureRule } from "./description-schema.js";
import {
  above0,
  atLeast0,
  identifier,
  jsonSchemaDialect,
  listOf,
  mapping,
  snakeName,
  text,
} from "./description-schema.js";
import { limitSchema } from "./limit.js";

const changes: Readonly<Record<string, MeasureRule>> = Object.fromEntries(
  characteristics.map(({ name, symbol }) => [name, above0(symbol)]),
);

/** What the lab counts the effort of, in minutes. */
const efforts: Readonly<Record<string, MeasureRule>> = Object.fromEntries(
  ["mount", "key", "cycle", "connection", "press", "film_reading", "calibration", "baseline"].map((name) => [
    name,
    atLeast0("min"),
  ]),
);

export const labSchema: DescriptionSchema = {
  $schema: jsonSchemaDialect,
  title: "lab.yaml",
  ...mapping(
    {
      name: text,
      address: text,
      contact: text,
      customer: text,
      roles: { type: "object", propertyNames: identifier, additionalProperties: text },
      statements: { type: "object", propertyNames: snakeName, additionalProperties: text },
      smallest_change: mapping({}, [], changes),
      effort: mapping({}, [], efforts),
      limits: listOf(limitSchema),
      numbering: { type: "object", propertyNames: snakeName, additionalProperties: text },
    },
    ["name", "roles"],
  ),
};
