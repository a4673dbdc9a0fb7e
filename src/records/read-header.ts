import { measureNameProblem, namesOf } from "./measure-names.js";
import { nearestName } from "./nearest.js";
import type { Place } from "./problem.js";
import type { ProblemCollector } from "./problem-collector.js";
import type { TableField, TableSchema } from "./schemas/table-schema.js";
import type { SourceText } from "./source-text.js";
import { lineText } from "./source-text.js";
import { cellPlace } from "./table.js";

/** A column of a table found in its header. */
export interface HeaderColumn {
  readonly field: TableField;
  readonly header: string;
  readonly position: number;
}

/** Every name under which a field may stand in a header. */
export function acceptedNames(field: TableField): readonly string[] {
  return field.measure === undefined ? [field.name, ...(field.aliases ?? [])] : namesOf(field.measure);
}

/** Finds every field of the schema in the header, in any order; undefined, with problems, where one is missing. */
export function readHeader(
  source: SourceText,
  header: readonly string[],
  schema: TableSchema,
  problems: ProblemCollector,
): readonly HeaderColumn[] | undefined {
  const found = new Map<TableField, HeaderColumn>();
  const unknown: number[] = [];
  let usable = true;
  header.forEach((name, position) => {
    const field = schema.fields.find((each) => acceptedNames(each).includes(name));
    const first = field && found.get(field);
    if (field === undefined) {
      unknown.push(position);
    } else if (first === undefined) {
      found.set(field, { field, header: name, position });
    } else {
      usable = false;
      const code = first.header === name ? "E_COLUMN_TWICE" : "E_MEASURE_TWICE";
      problems.add(code, cellPlace(source, 1, position), { found: name, expected: first.header });
    }
  });
  if (found.size === 0) {
    reportNoHeader(source, schema, problems);
    return undefined;
  }
  const explained = new Set(unknown.flatMap((position) => reportUnknown(source, header, position, schema, problems)));
  for (const field of schema.fields) {
    if (found.has(field)) continue;
    usable = false;
    if (!explained.has(field)) problems.add("E_COLUMN_MISSING", cellPlace(source, 1, 0), { expected: field.name });
  }
  return usable && unknown.length === 0 ? schema.fields.map((field) => found.get(field)!) : undefined;
}

function reportNoHeader(source: SourceText, schema: TableSchema, problems: ProblemCollector): void {
  const first = lineText(source, 1);
  const delimiter = [";", "\t", "|"].find((each) => first.split(each).length >= schema.fields.length - 1);
  const place = { file: source.file, line: 1, column: 1, length: first.length };
  if (delimiter !== undefined && first.split(",").length <= 2) {
    const at = first.indexOf(delimiter);
    const found = delimiter === "\t" ? "a tab" : `\`${delimiter}\``;
    problems.add("E_CSV_DELIMITER", { ...place, column: at + 1, length: 1 }, { found, expected: "," });
    return;
  }
  const expected = schema.fields.map((field) => field.name).join(",");
  problems.add("E_CSV_HEADER_ABSENT", place, { found: first.slice(0, 60), expected });
}

/** Reports a column without a name; several at the end of the header, as spreadsheets write them, are one problem. */
function reportNameless(header: readonly string[], position: number, place: Place, problems: ProblemCollector): void {
  const atEnd = header.slice(position).every((name) => name.trim() === "");
  if (atEnd && position > 0 && header[position - 1]!.trim() === "") return;
  const hint = atEnd
    ? "the header ends with empty fields, as spreadsheets write them: remove the commas at the ends of all lines"
    : "name the column, or remove it from every line";
  problems.add("E_COLUMN_UNKNOWN", place, { found: header[position]!, expected: "a name", hint });
}

/** Reports one unknown column; gives the field it was meant to be, whose absence is no news then. */
function reportUnknown(
  source: SourceText,
  header: readonly string[],
  position: number,
  schema: TableSchema,
  problems: ProblemCollector,
): readonly TableField[] {
  const name = header[position]!;
  const place = cellPlace(source, 1, position);
  if (name.trim() === "") {
    reportNameless(header, position, place, problems);
    return [];
  }
  const measured = schema.fields.filter((field) => field.measure !== undefined);
  const wrong = measureNameProblem(
    name,
    measured.map((field) => field.measure!),
  );
  if (wrong !== undefined) {
    problems.add(wrong.code, place, wrong.facts);
    return measured.filter((field) => field.measure === wrong.measure);
  }
  const names = schema.fields.flatMap(acceptedNames);
  problems.add("E_COLUMN_UNKNOWN", place, { found: name, names });
  const near = nearestName(name, names);
  return schema.fields.filter((field) => near !== undefined && acceptedNames(field).includes(near));
}
