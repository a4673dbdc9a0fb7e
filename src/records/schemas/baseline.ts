import type { TableSchema } from "./table-schema.js";
import { measureField, tableProfile } from "./table-schema.js";

export const baselineSchema: TableSchema = {
  $schema: tableProfile,
  title: "baseline.csv",
  description: "System latency without the unit, in parts; a part that was not separated is empty.",
  fieldsMatch: ["equal"],
  missingValues: [""],
  primaryKey: ["block", "shot"],
  fields: [
    {
      name: "block",
      type: "string",
      title: "Before or after the presses",
      constraints: { required: true, enum: ["before", "after"] },
    },
    {
      name: "shot",
      type: "integer",
      title: "Number of the shot within its block, from 1",
      constraints: { required: true, minimum: 1 },
    },
    measureField("input", "ms", ["ms", "us", "s"], "The baseline device's own input part", { minimum: 0 }),
    measureField("pc", "ms", ["ms", "us", "s"], "Computer: from input to the end of the application's frame", {
      minimum: 0,
    }),
    measureField("display", "ms", ["ms", "us", "s"], "Display: from the frame to light", { minimum: 0 }),
    measureField("total", "ms", ["ms", "us", "s"], "All parts together", { minimum: 0 }),
    {
      name: "detector",
      type: "string",
      title: "What detected the light, such as photodiode or film",
      constraints: { required: true },
    },
  ],
};
