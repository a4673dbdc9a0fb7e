import type { DescriptionSchema } from "./description-schema.js";
import {
  above0,
  anySign,
  atLeast0,
  identifier,
  jsonSchemaDialect,
  listOf,
  mapping,
  methodIdentifier,
  oneOf,
  text,
  wholeNumber,
} from "./description-schema.js";

const instant: DescriptionSchema = { type: "string", format: "instant" };

const settings = mapping({ polling_set: text, debounce: text, adapter: text }, [], { polling_measured: above0("Hz") });

const exclusion = mapping({ key: { type: "string", format: "key_code" }, cycle: wholeNumber(1), reason: text }, [
  "key",
  "cycle",
  "reason",
]);

export const sessionSchema: DescriptionSchema = {
  $schema: jsonSchemaDialect,
  title: "session.yaml",
  ...mapping(
    {
      id: identifier,
      unit: identifier,
      method: methodIdentifier,
      rig: identifier,
      operator: identifier,
      start: instant,
      end: instant,
      contact_source: oneOf("electrical", "report", "none"),
      connections: { type: "object", propertyNames: identifier, additionalProperties: settings },
      firmware: text,
      driver: text,
      software: text,
      environment: mapping({}, [], { temperature: anySign("°C"), humidity: atLeast0("%") }),
      deviations: listOf(text),
      exclusions: listOf(exclusion),
    },
    ["id", "unit", "method", "rig", "operator", "start", "end"],
    {
      press_speed: above0("mm/s"),
      refresh_rate: above0("Hz"),
      press_interval: above0("ms"),
      press_interval_jitter: atLeast0("ms"),
    },
  ),
};
