import type { DescriptionSchema } from "./description-schema.js";
import { jsonSchemaDialect, listOf, mapping, oneOf, text, wholeNumber } from "./description-schema.js";

const fileName: DescriptionSchema = {
  type: "string",
  pattern: "^(?!\\.{1,2}$)[^/\\\\]+$",
  form: "the name of a file, without its folder",
};

const sha256: DescriptionSchema = {
  type: "string",
  pattern: "^[0-9a-f]{64}$",
  form: "a sha256 of 64 hexadecimal digits",
};

const digest = { file: fileName, sha256, bytes: wholeNumber(0) };

const lineRange: DescriptionSchema = {
  type: "string",
  pattern: "^[1-9]\\d*(-[1-9]\\d*)?$",
  form: "lines, such as 2-25",
};

const taken = mapping(
  {
    key: { type: "string", format: "key_code" },
    cycle: wholeNumber(1),
    stroke: oneOf("press", "release"),
    lines: lineRange,
    table_lines: lineRange,
  },
  ["lines", "table_lines"],
);

const received = mapping(
  {
    ...digest,
    given_as: text,
    lines: wholeNumber(0),
    delimiter: text,
    rows_taken: wholeNumber(0),
    taken: listOf(taken),
    left_out: listOf(mapping({ lines: lineRange, reason: text }, ["lines", "reason"])),
  },
  ["file", "sha256", "bytes"],
);

/** `received/received.yaml` of a session: what was received, as which bytes, and what became of its lines. */
export const receivedSchema: DescriptionSchema = {
  $schema: jsonSchemaDialect,
  title: "received.yaml",
  ...mapping(
    {
      table: mapping({ ...digest, rows: wholeNumber(0) }, ["file", "sha256", "bytes"]),
      columns: mapping(digest, ["file", "sha256", "bytes"]),
      received_by: text,
      files: listOf(received, 1),
    },
    ["table", "files"],
  ),
};
