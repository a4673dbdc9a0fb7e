import type { TableSchema } from "./table-schema.js";
import { measureField, tableProfile } from "./table-schema.js";

export const timingsSchema: TableSchema = {
  $schema: tableProfile,
  title: "timings.csv",
  description: "Presses timed without film: direct electrical injection, or a light that reports the arrival.",
  fieldsMatch: ["equal"],
  missingValues: [""],
  primaryKey: ["connection", "press"],
  fields: [
    { name: "connection", type: "string", title: "Connection of the unit", constraints: { required: true } },
    {
      name: "press",
      type: "integer",
      title: "Number of the press within its connection, from 1",
      constraints: { required: true, minimum: 1 },
    },
    measureField("start", "µs", ["us", "ms", "s"], "Time of the contact", { required: true }),
    measureField("arrival", "µs", ["us", "ms", "s"], "Time of the arrival", { required: true }),
    { name: "excluded", type: "string", title: "Reason for taking it out by hand; empty: in", vocabulary: "reason" },
  ],
};
