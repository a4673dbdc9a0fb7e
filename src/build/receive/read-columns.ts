import { ProblemCollector } from "../../records/problem-collector.js";
import type { ReadingContext } from "../../records/read-description.js";
import { fitDescription, openDescription, readingContext } from "../../records/read-description.js";
import { sizeLimits } from "../../records/read-source.js";
import type { SourceText } from "../../records/source-text.js";
import type { YamlDocument } from "../../records/yaml-document.js";
import { parseYaml } from "../../records/yaml-document.js";
import type { YamlView } from "../../records/yaml-view.js";
import type { ColumnsFile, Encoding, FieldPlan, Layout, LinesLeftOut, TableKind } from "./columns.js";
import { tables } from "./columns.js";
import { anyColumnsSchema, columnsSchemas } from "./columns-schema.js";
import type { ReceiptProblems } from "./problem.js";
import { readFieldPlan } from "./read-field-plan.js";

/**
 * Reads a columns file. Undefined, with every misfit as a problem, where it cannot be used. Never throws on what the file
 * holds.
 *
 * @param file path as the user gave it, which problems show
 */
export function readColumns(file: string, problems: ReceiptProblems): ColumnsFile | undefined {
  return reading(problems, (context) => openDescription(context, file));
}

/** Reads the text of a columns file, as `readColumns` does. */
export function readColumnsText(source: SourceText, problems: ReceiptProblems): ColumnsFile | undefined {
  return reading(problems, (context) => parseYaml(source, context.problems));
}

function reading(
  problems: ReceiptProblems,
  open: (context: ReadingContext) => YamlDocument | undefined,
): ColumnsFile | undefined {
  const found = new ProblemCollector();
  const context = readingContext("", sizeLimits, found);
  const document = open(context);
  const columns = document && columnsOf(context, document, problems);
  for (const problem of found.list()) if (problem.code !== "W_BOM") problems.addProblem(problem);
  return found.hasErrors || problems.hasErrors ? undefined : columns;
}

function columnsOf(
  context: ReadingContext,
  document: YamlDocument,
  problems: ReceiptProblems,
): ColumnsFile | undefined {
  const kind = kindOf(document);
  const view = fitDescription(context, document, kind === undefined ? anyColumnsSchema : columnsSchemas[kind]);
  if (view === undefined || kind === undefined) return undefined;
  const fields = tables[kind].fields.flatMap((name): readonly FieldPlan[] => {
    const child = view.child(name);
    const plan = child && readFieldPlan(child, name, kind, problems);
    return plan === undefined ? [] : [plan];
  });
  return {
    source: document.source,
    kind,
    layout: layoutOf(view.child("layout")),
    fields,
    ignore: view.texts("ignore"),
    ignoreNumbers: view.numbers("ignore_numbers"),
    leaveOut: view.children("leave_out").map((lines) => linesOf(lines, problems)),
  };
}

function kindOf({ data }: YamlDocument): TableKind | undefined {
  const kind = typeof data === "object" && data !== null && "kind" in data ? data.kind : undefined;
  return kind === "force" || kind === "presses" || kind === "timings" ? kind : undefined;
}

function layoutOf(view: YamlView | undefined): Layout {
  const number = (name: string): number => (view?.has(name) === true ? view.number(name) : 0);
  const delimiter = view?.has("delimiter") === true ? view.text("delimiter") : undefined;
  return {
    ...(view?.has("encoding") === true && { encoding: view.choice<Encoding>("encoding") }),
    ...(delimiter !== undefined && { delimiter: delimiter === "tab" ? "\t" : delimiter }),
    decimal: view?.choice<Layout["decimal"]>("decimal", ".") ?? ".",
    grouping: view?.text("grouping", "") ?? "",
    linesBefore: number("lines_before"),
    hasHeader: view?.has("header") === true ? view.flag("header") : true,
    linesAfterHeader: number("lines_after_header"),
    ...(view?.has("comment") === true && { comment: view.text("comment") }),
    ...(view?.has("stops_at") === true && { stopsAt: view.text("stops_at") }),
  };
}

function linesOf(view: YamlView, problems: ReceiptProblems): LinesLeftOut {
  const [fromLine, toLine] = [view.number("from_line"), view.number("to_line")];
  if (toLine < fromLine) {
    problems.add("E_LEAVE_OUT", view.placeOf("to_line"), {
      found: `the last line, ${toLine}, comes before the first, ${fromLine}`,
    });
  }
  const file = view.has("file") ? view.text("file") : null;
  return { file, fromLine, toLine, reason: view.text("reason"), place: view.place };
}
