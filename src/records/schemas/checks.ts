import type { TableSchema } from "./table-schema.js";
import { tableProfile } from "./table-schema.js";

export const checksSchema: TableSchema = {
  $schema: tableProfile,
  title: "checks.csv",
  description: "Checks of a rig over time: check standards, zeros, spans, clocks and speeds, one row a check.",
  fieldsMatch: ["equal"],
  missingValues: [""],
  fields: [
    {
      name: "date",
      type: "string",
      title: "Day of the check, YYYY-MM-DD",
      constraints: { required: true },
      vocabulary: "date",
    },
    {
      name: "kind",
      type: "string",
      title: "What was checked",
      constraints: {
        required: true,
        enum: [
          "check_standard",
          "force_zero",
          "force_span",
          "displacement_zero",
          "displacement_scale",
          "compliance",
          "frame_clock",
          "plunger_speed",
          "plunger_acceleration",
          "detector_offset",
          "input_path",
          "baseline",
        ],
      },
    },
    { name: "unit", type: "string", title: "Check standard; empty where no unit was measured" },
    {
      name: "characteristic",
      type: "string",
      title: "Characteristic of the check standard; empty for others",
      vocabulary: "characteristic",
    },
    { name: "value", type: "number", title: "Result", constraints: { required: true } },
    {
      name: "u",
      type: "number",
      title: "Standard uncertainty of the result",
      constraints: { required: true, minimum: 0 },
    },
    { name: "reference", type: "number", title: "Value expected", constraints: { required: true } },
    {
      name: "symbol",
      type: "string",
      title: "Unit of measure of the three numbers",
      constraints: { required: true },
      vocabulary: "symbol",
    },
  ],
};
