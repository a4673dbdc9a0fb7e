import type { DescriptionSchema } from "../../records/schemas/description-schema.js";
import {
  anyNumber,
  jsonSchemaDialect,
  listOf,
  mapping,
  oneOf,
  text,
  wholeNumber,
} from "../../records/schemas/description-schema.js";
import type { TableKind } from "./columns.js";
import { tables } from "./columns.js";

/** A text that is a text of the source, for which no wording such as `not recorded` can stand. */
const given: DescriptionSchema = { ...text, form: "a text" };
const keyCode: DescriptionSchema = { type: "string", format: "key_code" };
const flag: DescriptionSchema = { enum: [true, false] };
const origin: DescriptionSchema = { enum: [0, 1] };
/** Words of the source that stand for one value; an empty text stands for an empty cell. */
const words = listOf({ type: "string" }, 1);

const delimiter: DescriptionSchema = {
  type: "string",
  pattern: '^(tab|spaces|\\t|[^A-Za-z0-9"+\\r\\n-]{1,3})$',
  form: "one to three characters that stand between fields, `tab`, or `spaces`",
};

const layout = mapping(
  {
    encoding: oneOf("utf-8", "utf-16", "windows-1252"),
    delimiter,
    decimal: oneOf(".", ","),
    grouping: oneOf(".", ",", " ", "'"),
    lines_before: wholeNumber(0),
    header: flag,
    lines_after_header: wholeNumber(0),
    comment: text,
    stops_at: text,
  },
  [],
);

const leaveOut = listOf(
  mapping({ file: text, from_line: wholeNumber(1), to_line: wholeNumber(1), reason: text }, [
    "from_line",
    "to_line",
    "reason",
  ]),
);

/** A value: exactly one of `is`, `column`, `column_number`, `file_name` and `from`, which its reader makes sure of. */
function valueOf(
  is: DescriptionSchema,
  extra: Readonly<Record<string, DescriptionSchema>> = {},
  from?: string,
): DescriptionSchema {
  const own = from === undefined ? {} : { from: oneOf(from) };
  return mapping({ is, column: text, column_number: wholeNumber(1), file_name: text, ...own, ...extra }, []);
}

/** A number that is measured or read: from a column, or fixed. */
function measureOf(...units: readonly string[]): DescriptionSchema {
  return mapping(
    {
      is: anyNumber,
      column: text,
      column_number: wholeNumber(1),
      unit: oneOf(...units),
      unit_column: text,
      unit_column_number: wholeNumber(1),
      reversed: flag,
    },
    ["unit"],
  );
}

const codes = (of: DescriptionSchema): DescriptionSchema => ({ type: "object", additionalProperties: of });
const named = valueOf(given, { codes: codes(text) });
const frame = valueOf(wholeNumber(0), { unit: oneOf("frames") });
const counted = valueOf(wholeNumber(1), { counted_from: origin }, "order");

const fields: Readonly<Record<string, DescriptionSchema>> = {
  key: valueOf(keyCode, { codes: codes(keyCode) }),
  cycle: counted,
  stroke: valueOf(oneOf("press", "release"), { press: words, release: words, leave_out: words }, "stream"),
  displacement: measureOf("mm", "um", "in"),
  force: measureOf("cN", "gf", "N", "mN"),
  contact: mapping({ column: text, column_number: wholeNumber(1), closed: words, open: words, not_read: words }, [
    "closed",
    "open",
  ]),
  connection: named,
  clip: named,
  press: counted,
  reader: named,
  contact_frame: frame,
  mark_frame: frame,
  response_frame: frame,
  outcome: valueOf(oneOf("ok", "missed", "double", "unreadable"), {
    ok: words,
    missed: words,
    double: words,
    unreadable: words,
    leave_out: words,
  }),
  excluded: valueOf(given, { codes: codes({ type: "string" }) }),
  start: measureOf("us", "ms", "s"),
  arrival: measureOf("us", "ms", "s"),
};

function schemaOf(kind: TableKind): DescriptionSchema {
  const { fields: names, optional } = tables[kind];
  const own = Object.fromEntries(names.map((name) => [name, fields[name]!]));
  const properties = {
    kind: oneOf("force", "presses", "timings"),
    layout,
    ...own,
    ignore: listOf(text),
    ignore_numbers: listOf(wholeNumber(1)),
    leave_out: leaveOut,
  };
  const required = ["kind", ...names.filter((name) => !optional.includes(name))];
  return { $schema: jsonSchemaDialect, title: `columns of ${kind}`, ...mapping(properties, required) };
}

/** The schema of a columns file, by its kind. */
export const columnsSchemas: Readonly<Record<TableKind, DescriptionSchema>> = {
  force: schemaOf("force"),
  presses: schemaOf("presses"),
  timings: schemaOf("timings"),
};

/** What holds for a columns file of any kind: where the kind is not known, nothing else can be said about its keys. */
export const anyColumnsSchema: DescriptionSchema = {
  $schema: jsonSchemaDialect,
  title: "columns",
  type: "object",
  properties: { kind: oneOf("force", "presses", "timings") },
  required: ["kind"],
};
