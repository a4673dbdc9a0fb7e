import type { TableField, TableSchema } from "./table-schema.js";
import { tableProfile } from "./table-schema.js";

/** Columns of a study's readings that may be factors. */
export const studyFactors = [
  "unit",
  "key",
  "connection",
  "operator",
  "reader",
  "rig",
  "method",
  "day",
  "mount",
  "repeat",
] as const;

export type StudyFactor = (typeof studyFactors)[number];

const titles: Readonly<Record<StudyFactor, string>> = {
  unit: "Unit",
  key: "W3C UI Events code of the key",
  connection: "Connection of the unit",
  operator: "Role that measured",
  reader: "Role that read the film",
  rig: "Rig",
  method: "Method, or candidate method",
  day: "Day of the study: its date or number",
  mount: "Number of the mounting",
  repeat: "Number of the repeat",
};

const factorFields: readonly TableField[] = studyFactors.map((name) =>
  name === "key"
    ? { name, type: "string", title: titles[name], vocabulary: "key_code" }
    : { name, type: "string", title: titles[name] },
);

export const readingsSchema: TableSchema = {
  $schema: tableProfile,
  title: "readings.csv",
  description: "Readings of a study, one row a reading; factors that the study does not vary may be empty.",
  fieldsMatch: ["equal"],
  missingValues: [""],
  fields: [
    ...factorFields,
    {
      name: "characteristic",
      type: "string",
      title: "Characteristic measured",
      constraints: { required: true },
      vocabulary: "characteristic",
    },
    { name: "value", type: "number", title: "Reading", constraints: { required: true } },
    {
      name: "symbol",
      type: "string",
      title: "Unit of measure of the reading",
      constraints: { required: true },
      vocabulary: "symbol",
    },
  ],
};
