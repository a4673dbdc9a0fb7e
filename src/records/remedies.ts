import type { DescriptionSchema } from "./schemas/description-schema.js";
import { baselineSchema } from "./schemas/baseline.js";
import { identifier, methodIdentifier, snakeName } from "./schemas/description-schema.js";
import { filmsSchema } from "./schemas/films.js";
import { forceSchema } from "./schemas/force.js";
import { pressesSchema } from "./schemas/presses.js";
import type { TableSchema } from "./schemas/table-schema.js";
import { timingsSchema } from "./schemas/timings.js";

const formats: Readonly<Record<NonNullable<DescriptionSchema["format"]>, string>> = {
  date: "a day, such as 2026-03-09",
  date_or_not_recorded: "a day, such as 2026-03-09, or `not recorded`",
  instant: "date, time and offset, such as 2026-03-09T09:10:00Z",
  key_code: "a key code, such as KeyF",
  characteristic: "a characteristic, such as actuation_force",
};

/** What to write where a value is missing, by the schema of its key: "one of held, returned, withdrawn". */
export function whatToWrite(schema: DescriptionSchema): string {
  if (schema.enum !== undefined) return `one of ${schema.enum.join(", ")}`;
  if (schema.format !== undefined) return formats[schema.format];
  if (schema.form !== undefined) return schema.form;
  switch (schema.type) {
    case "array":
      return `a list in brackets, [ ... ]${schema.items === undefined ? "" : `: each ${whatToWrite(schema.items)}`}`;
    case "object": {
      const needed = schema.required ?? [];
      return needed.length === 0 ? "keys of its own under it" : `a mapping with the keys ${needed.join(", ")}`;
    }
    case "integer":
      return "a whole number";
    case "number":
      return "a number";
    default:
      return "a text; `not recorded` where nobody knows it";
  }
}

/**
 * The text of a schema's form that a text was most likely meant to be: `keystroke-2` for `keystroke@2`, `USB-C` for
 * `usb-c`. Undefined where none follows.
 */
export function inForm(text: string, schema: DescriptionSchema): string | undefined {
  const joined = (mark: string): string =>
    text
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, mark)
      .replace(new RegExp(`^${mark}+|${mark}+$`, "g"), "");
  const meant =
    schema.pattern === identifier.pattern
      ? joined("-")
      : schema.pattern === snakeName.pattern
        ? joined("_")
        : schema.pattern === methodIdentifier.pattern
          ? text
              .toLowerCase()
              .replace(/(?:\.ya?ml)?$/, "")
              .replace(/[-_ @]*v?(\d+)$/, "@$1")
          : "";
  const isOfForm = schema.pattern !== undefined && new RegExp(schema.pattern, "u").test(meant);
  return isOfForm && meant !== text ? meant : undefined;
}

const tables: readonly TableSchema[] = [forceSchema, pressesSchema, filmsSchema, baselineSchema, timingsSchema];

/** What to do where a file of an archive is missing, by its path. */
export function missingFileRemedy(path: string): string {
  const name = path.slice(path.lastIndexOf("/") + 1);
  const table = tables.find(({ title }) => title === name);
  if (table !== undefined) {
    return `add it, with the header ${table.fields.map((field) => field.name).join(",")}, or correct the session's method`;
  }
  if (name === "lab.yaml") return "give the folder that holds lab.yaml; a new archive begins with a copy of the demo's";
  return `write it (docs/formats.md lists the keys of ${name}), or remove the folder`;
}
