import type { DescriptionSchema } from "./description-schema.js";
import {
  anySign,
  atLeast0,
  identifier,
  jsonSchemaDialect,
  listOf,
  mapping,
  oneOf,
  text,
} from "./description-schema.js";

/** The terms that a calibration may give, each with its unit of measure. */
export const calibrationTerms = {
  force_span: "1",
  force_zero: "cN",
  displacement_scale: "1",
  displacement_zero: "mm",
  compliance: "mm/cN",
  frame_clock: "1",
  plunger_speed: "mm/s",
  plunger_acceleration: "1",
  detector_offset: "ms",
  input_path: "ms",
} as const;

const date: DescriptionSchema = { type: "string", format: "date" };

const terms = mapping(
  Object.fromEntries(
    Object.entries(calibrationTerms).map(([name, symbol]) => [
      name,
      mapping({ distribution: oneOf("normal", "rectangular") }, ["distribution"], {
        value: anySign(symbol, true),
        u: atLeast0(symbol, true),
      }),
    ]),
  ),
  [],
);

export const rigSchema: DescriptionSchema = {
  $schema: jsonSchemaDialect,
  title: "rig.yaml",
  ...mapping(
    {
      id: identifier,
      kind: oneOf("force_tester", "camera_plunger", "injector", "light"),
      description: text,
      software: text,
      calibrations: listOf(
        mapping({ date, due: date, certificate: text, terms }, ["date", "due", "certificate", "terms"]),
      ),
    },
    ["id", "kind", "description", "calibrations"],
  ),
};
