import type { YamlView } from "../../records/yaml-view.js";
import type { ColumnPick, FieldPlan, TableKind, ValueFrom, ValueReading } from "./columns.js";
import { tables } from "./columns.js";
import { parseFileNamePattern } from "./file-name-pattern.js";
import type { ReceiptProblems } from "./problem.js";

/** Ways in which a value can say where it comes from. */
const ways = ["is", "column", "column_number", "file_name", "from"] as const;
type Way = (typeof ways)[number];

const measures = ["displacement", "force", "start", "arrival"];
const frames = ["contact_frame", "mark_frame", "response_frame"];

/** The values that a choice can have in the table, and the list that leaves rows out. */
const choices: Readonly<Record<string, readonly string[]>> = {
  stroke: ["press", "release"],
  outcome: ["ok", "missed", "double", "unreadable"],
};

/**
 * Reads one value of a columns file that fits its schema: where it comes from and how it is read. Undefined, with
 * problems, where it does not say so in exactly one way.
 */
export function readFieldPlan(
  view: YamlView,
  name: string,
  kind: TableKind,
  problems: ReceiptProblems,
): FieldPlan | undefined {
  const value = valueFrom(view, name, kind, problems);
  const reading = readingOf(view, name, problems);
  return value === undefined ? undefined : { name, value, reading, place: view.place };
}

function valueFrom(view: YamlView, name: string, kind: TableKind, problems: ReceiptProblems): ValueFrom | undefined {
  const given = ways.filter((way) => view.has(way));
  const [way] = given;
  if (way === undefined || given.length > 1) {
    const place = given.length > 1 ? view.placeOfKey(given[1]!) : view.place;
    problems.add("E_VALUE_FROM", place, { found: name, expected: waysOf(name).join(", ") });
    return undefined;
  }
  if (way === "is") return { from: "is", text: fixedText(view, name) };
  if (way === "from") return { from: view.choice<"order" | "stream">("from") };
  if (way !== "file_name") return { from: "column", column: pickOf(view, way) };
  const pattern = parseFileNamePattern(view.text("file_name"), name, tables[kind].fields);
  if (!("wrong" in pattern)) return { from: "file_name", pattern };
  problems.add("E_NAME_PATTERN", view.placeOf("file_name"), {
    found: view.text("file_name"),
    expected: pattern.wrong,
  });
  return undefined;
}

/** Ways that the schema lets a value use. */
function waysOf(name: string): readonly Way[] {
  if (name === "contact") return ["column", "column_number"];
  if (measures.includes(name)) return ["is", "column", "column_number"];
  const from = ["stroke", "cycle", "press"].includes(name);
  return ways.filter((way) => way !== "from" || from);
}

function fixedText(view: YamlView, name: string): string {
  const isNumber = measures.includes(name) || frames.includes(name) || name === "cycle" || name === "press";
  return isNumber ? String(view.number("is")) : view.text("is");
}

function pickOf(view: YamlView, way: "column" | "column_number"): ColumnPick {
  const place = view.placeOf(way);
  return way === "column"
    ? { place, by: "name", name: view.text(way) }
    : { place, by: "number", number: view.number(way) };
}

function readingOf(view: YamlView, name: string, problems: ReceiptProblems): ValueReading {
  if (measures.includes(name)) return measureReading(view);
  if (frames.includes(name)) return { as: "whole", countedFrom: 1, mayBeEmpty: true };
  if (name === "cycle" || name === "press") {
    const countedFrom = view.has("counted_from") ? view.number("counted_from") : 1;
    return { as: "whole", countedFrom, mayBeEmpty: false };
  }
  if (name === "contact") return contactReading(view, problems);
  const values = choices[name];
  if (values === undefined) {
    const words = new Map(Object.entries(view.textMap("codes")));
    return { as: "text", words, isKey: name === "key" };
  }
  const lists = [...values.map((value) => [value, value] as const), ["leave_out", null] as const];
  const words = wordsOf(view, lists, problems);
  // Words that are the table's own need no translation, unless the file gives them another meaning.
  for (const value of values) if (!view.has(value) && !words.has(value)) words.set(value, value);
  return { as: "choice", words };
}

function measureReading(view: YamlView): ValueReading {
  const unitColumn = view.has("unit_column")
    ? ({ place: view.placeOf("unit_column"), by: "name", name: view.text("unit_column") } as const)
    : view.has("unit_column_number")
      ? ({
          place: view.placeOf("unit_column_number"),
          by: "number",
          number: view.number("unit_column_number"),
        } as const)
      : null;
  const reversed = view.has("reversed") && view.flag("reversed");
  return { as: "measure", unit: view.text("unit"), unitColumn, reversed };
}

/** 1 closed, 0 open; an empty cell is no reading unless the file says otherwise. */
function contactReading(view: YamlView, problems: ReceiptProblems): ValueReading {
  const words = wordsOf(view, [["closed", "1"], ["open", "0"], ["not_read", ""]], problems); // prettier-ignore
  if (!words.has("")) words.set("", "");
  return { as: "choice", words };
}

function wordsOf(
  view: YamlView,
  lists: readonly (readonly [list: string, value: string | null])[],
  problems: ReceiptProblems,
): Map<string, string | null> {
  const words = new Map<string, string | null>();
  const listOf = new Map<string, string>();
  for (const [list, value] of lists) {
    view.texts(list).forEach((each, i) => {
      const word = each.trim();
      const earlier = listOf.get(word);
      if (earlier !== undefined) {
        problems.add("E_WORD_TWICE", view.placeOf(list, `/${i}`), { found: word, expected: `\`${earlier}\`` });
        return;
      }
      listOf.set(word, list);
      words.set(word, value);
    });
  }
  return words;
}
