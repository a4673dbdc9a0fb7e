import type { DescriptionSchema } from "./description-schema.js";
import { identifier, jsonSchemaDialect, listOf, mapping, oneOf, text, wholeNumber } from "./description-schema.js";
import { limitSchema } from "./limit.js";

export const unitSchema: DescriptionSchema = {
  $schema: jsonSchemaDialect,
  title: "unit.yaml",
  ...mapping(
    {
      id: identifier,
      maker: text,
      model: text,
      sample_no: text,
      received: { type: "string", format: "date_or_not_recorded" },
      obtained: text,
      condition: text,
      status: oneOf("held", "returned", "withdrawn"),
      status_note: { type: "string" },
      layout: oneOf("ansi", "iso"),
      alphabetic_keys: wholeNumber(1),
      switch: mapping(
        {
          kind: oneOf("linear", "tactile", "clicky"),
          name: text,
          travel: oneOf("full", "low"),
          actuation_setting: text,
        },
        ["kind", "travel"],
      ),
      limits: listOf(limitSchema),
      connections: { ...listOf(identifier, 1), uniqueItems: true },
    },
    ["id", "maker", "model", "received", "status", "layout", "alphabetic_keys", "switch", "connections"],
  ),
};
