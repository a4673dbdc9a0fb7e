import { characteristics } from "../characteristics.js";
import type { DescriptionSchema, MeasureRule } from "./description-schema.js";
import {
  above0,
  anyNumber,
  jsonSchemaDialect,
  listOf,
  mapping,
  methodIdentifier,
  oneOf,
  snakeName,
  text,
  wholeNumber,
} from "./description-schema.js";

/** Keys that every kind of method has. */
const head: Readonly<Record<string, DescriptionSchema>> = {
  id: methodIdentifier,
  kind: oneOf("keystroke", "latency", "scoring"),
  title: text,
  replaces: methodIdentifier,
  since: { type: "string", format: "date" },
  notes: listOf(text),
};
const needed = ["id", "kind", "title", "since"];

/** What holds for a method of any kind: where the kind is not known, nothing else can be said about its keys. */
export const anyMethodSchema: DescriptionSchema = {
  $schema: jsonSchemaDialect,
  title: "method",
  type: "object",
  properties: head,
  required: needed,
};

const keystrokeMethodSchema: DescriptionSchema = {
  $schema: jsonSchemaDialect,
  title: "keystroke method",
  ...mapping(
    {
      ...head,
      keys: { ...listOf({ type: "string", format: "key_code" }, 1), uniqueItems: true },
      min_keys: wholeNumber(1),
      conditioning_strokes: wholeNumber(0),
      cycles: wholeNumber(1),
      cycles_used: { ...listOf(wholeNumber(1), 1), uniqueItems: true },
      touch_deviations: { type: "number", exclusiveMinimum: 0 },
    },
    [...needed, "keys", "min_keys", "conditioning_strokes", "cycles", "cycles_used", "touch_deviations"],
    {
      press_speed: above0("mm/s", true),
      smoothing_window: above0("mm", true),
      prominence: above0("cN", true),
      bottom_out_slope: above0("cN/mm", true),
      touch_force: above0("cN", true),
    },
  ),
};

const latencyMethodSchema: DescriptionSchema = {
  $schema: jsonSchemaDialect,
  title: "latency method",
  ...mapping(
    {
      ...head,
      observes: oneOf("film", "injection", "light"),
      presses: wholeNumber(1),
      kept: wholeNumber(1),
      min_presses: wholeNumber(1),
      subtract: { ...listOf(oneOf("pc", "display")), uniqueItems: true },
      subtract_travel: { enum: [true, false] },
      baseline_shots: wholeNumber(0),
      compares: oneOf("all", "kept"),
    },
    [
      ...needed,
      "observes",
      "presses",
      "kept",
      "min_presses",
      "subtract",
      "subtract_travel",
      "baseline_shots",
      "compares",
    ],
    { frame_rate: above0("Hz", true) },
  ),
};

/** A merit curve: points [value, merit]. */
const curve: DescriptionSchema = listOf({ ...listOf(anyNumber, 2), maxItems: 2 }, 1);

const curves: Readonly<Record<string, MeasureRule>> = Object.fromEntries(
  characteristics.map(({ name, symbol }) => [name, { symbol, each: curve }]),
);

const weights = mapping(
  Object.fromEntries(characteristics.map(({ name }) => [name, { type: "number", minimum: 0 }])),
  [],
);

const scoringMethodSchema: DescriptionSchema = {
  $schema: jsonSchemaDialect,
  title: "scoring method",
  ...mapping(
    {
      ...head,
      missing_connection: oneOf("renormalise", "zero", "not_scored"),
      curves: mapping({}, [], curves),
      purposes: { type: "object", propertyNames: snakeName, additionalProperties: weights },
      grades: listOf(mapping({ name: text, from: { type: "number", minimum: 0, maximum: 1 } }, ["name", "from"]), 1),
      picks: wholeNumber(0),
    },
    [...needed, "missing_connection", "curves", "purposes", "grades", "picks"],
  ),
};

/** The schema of each kind of method. */
export const methodSchemas = {
  keystroke: keystrokeMethodSchema,
  latency: latencyMethodSchema,
  scoring: scoringMethodSchema,
} as const;
