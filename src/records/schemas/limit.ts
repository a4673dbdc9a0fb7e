import type { DescriptionSchema } from "./description-schema.js";
import { above0, anySign, listOf, mapping, oneOf, text } from "./description-schema.js";

/** The parts of a limit that carry the unit of measure of its characteristic, in ascending order. */
export const limitParts = ["min", "nominal", "max"] as const;

/** One limit of a data sheet or of the lab. */
export const limitSchema: DescriptionSchema = mapping(
  {
    characteristic: { type: "string", format: "characteristic" },
    binds: oneOf("each_key", "mean"),
    force: oneOf("limit", "typical"),
    source: text,
    switch_kinds: { ...listOf(oneOf("linear", "tactile", "clicky"), 1), uniqueItems: true },
  },
  ["characteristic", "binds", "force", "source"],
  {
    press_speed: above0("mm/s"),
    min: anySign("any"),
    nominal: anySign("any"),
    max: anySign("any"),
  },
);
