import type { TableSchema } from "./table-schema.js";
import { tableProfile } from "./table-schema.js";

export const pressesSchema: TableSchema = {
  $schema: tableProfile,
  title: "presses.csv",
  description: "Frames read from film, one row a press and reader.",
  fieldsMatch: ["equal"],
  missingValues: [""],
  primaryKey: ["connection", "press", "reader"],
  fields: [
    { name: "connection", type: "string", title: "Connection of the unit", constraints: { required: true } },
    {
      name: "key",
      type: "string",
      title: "W3C UI Events code of the key pressed",
      constraints: { required: true },
      vocabulary: "key_code",
    },
    { name: "clip", type: "string", title: "Clip of films.csv", constraints: { required: true } },
    {
      name: "press",
      type: "integer",
      title: "Number of the press within its connection, from 1",
      constraints: { required: true, minimum: 1 },
    },
    { name: "reader", type: "string", title: "Role that read the film", constraints: { required: true } },
    {
      name: "contact_frame",
      type: "integer",
      title: "Frame of first visible contact on the keycap",
      constraints: { minimum: 0 },
    },
    {
      name: "mark_frame",
      type: "integer",
      title: "Frame in which the plunger's mark passes the pre-travel position",
      constraints: { minimum: 0 },
    },
    {
      name: "response_frame",
      type: "integer",
      title: "Frame of the first visible response on the screen",
      constraints: { minimum: 0 },
    },
    {
      name: "outcome",
      type: "string",
      title: "What became of the press",
      constraints: { required: true, enum: ["ok", "missed", "double", "unreadable"] },
    },
    { name: "excluded", type: "string", title: "Reason for taking it out by hand; empty: in", vocabulary: "reason" },
  ],
};
