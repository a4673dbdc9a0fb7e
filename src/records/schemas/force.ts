import type { TableSchema } from "./table-schema.js";
import { measureField, tableProfile } from "./table-schema.js";

export const forceSchema: TableSchema = {
  $schema: tableProfile,
  title: "force.csv",
  description: "Force-displacement readings of a keystroke session, one row a reading, in the order recorded.",
  fieldsMatch: ["equal"],
  missingValues: [""],
  fields: [
    {
      name: "key",
      type: "string",
      title: "W3C UI Events code of the key",
      constraints: { required: true },
      vocabulary: "key_code",
    },
    {
      name: "cycle",
      type: "integer",
      title: "Number of the cycle, from 1",
      constraints: { required: true, minimum: 1 },
    },
    {
      name: "stroke",
      type: "string",
      title: "Down or up",
      constraints: { required: true, enum: ["press", "release"] },
    },
    measureField("displacement", "mm", ["mm", "um", "in"], "Displacement of the probe, growing downwards", {
      required: true,
    }),
    measureField("force", "cN", ["cN", "gf", "N", "mN"], "Force on the probe, positive when pressing", {
      required: true,
    }),
    {
      name: "contact",
      type: "string",
      title: "Contact: 0 open, 1 closed, empty where not recorded",
      constraints: { enum: ["0", "1"] },
    },
  ],
};
