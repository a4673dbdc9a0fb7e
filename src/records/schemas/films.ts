import type { TableSchema } from "./table-schema.js";
import { tableProfile } from "./table-schema.js";

export const filmsSchema: TableSchema = {
  $schema: tableProfile,
  title: "films.csv",
  description: "Clips of film, one row each; the films themselves are kept outside the archive.",
  fieldsMatch: ["equal"],
  missingValues: [""],
  primaryKey: ["clip"],
  fields: [
    { name: "clip", type: "string", title: "Name of the clip", constraints: { required: true } },
    { name: "file", type: "string", title: "File name of the film" },
    {
      name: "sha256",
      type: "string",
      title: "sha256 of the film, lower-case hexadecimal",
      constraints: { pattern: "^[0-9a-f]{64}$" },
      form: "a sha256 of 64 lower-case hexadecimal digits",
      remedy: "`sha256sum FILM` prints it; leave the cell empty where the film was not kept",
    },
    {
      name: "frame_rate_hz",
      aliases: ["frame_rate_Hz"],
      type: "number",
      title: "Frames a second, in Hz",
      constraints: { required: true, exclusiveMinimum: 0 },
    },
    {
      name: "first_press",
      type: "integer",
      title: "First press on the clip",
      constraints: { required: true, minimum: 1 },
    },
    {
      name: "last_press",
      type: "integer",
      title: "Last press on the clip",
      constraints: { required: true, minimum: 1 },
    },
  ],
};
