import { convert, isConvertible, parseSymbol } from "../metrology/units.js";
import type { Study, StudyReading } from "./archive.js";
import { characteristicOf } from "./characteristics.js";
import type { KnownNames } from "./known-names.js";
import type { ProblemCode } from "./problem.js";
import type { ProblemCollector } from "./problem-collector.js";
import type { Described, ReadingContext } from "./read-description.js";
import { checkId, readDescription } from "./read-description.js";
import { readSource } from "./read-source.js";
import { parseTable } from "./read-table.js";
import { reportDuplicateRows } from "./row-duplicates.js";
import type { StudyFactor } from "./schemas/readings.js";
import { readingsSchema, studyFactors } from "./schemas/readings.js";
import { studySchema } from "./schemas/study.js";
import type { Table } from "./table.js";

/** Reads `studies/<folder>/study.yaml` with readings.csv; undefined, with problems, where the description does not fit. */
export function readStudy(
  context: ReadingContext,
  folder: string,
  hasReadings: boolean,
  known: KnownNames,
): Described<Study> | undefined {
  const view = readDescription(context, `studies/${folder}/study.yaml`, studySchema);
  const source = hasReadings
    ? readSource(context.root, `studies/${folder}/readings.csv`, context.limits.csvBytes, context.problems)
    : undefined;
  const table = source && parseTable(source, readingsSchema, context.problems);
  if (view === undefined) return undefined;
  checkId(context, view, folder);
  const [kind, factors] = [view.choice<Study["kind"]>("kind"), view.texts("factors")];
  const value: Study = {
    id: view.text("id"),
    title: view.text("title"),
    kind,
    question: view.text("question"),
    factors,
    readings: table === undefined ? [] : readReadings(table, kind, factors, known, context.problems),
    file: view.file,
    evidence: view.evidence,
  };
  return { value, view };
}

function readReadings(
  table: Table,
  kind: Study["kind"],
  factors: readonly string[],
  known: KnownNames,
  problems: ProblemCollector,
): readonly StudyReading[] {
  const name = (): string => "this reading";
  reportDuplicateRows(table, [...studyFactors, "characteristic"], "W_READING_DUPLICATE", name, problems, "keep");
  const rows = Array.from({ length: table.rows }, (_, row) => row).filter((row) => table.broken[row] === 0);
  const readings = rows.flatMap((row) => {
    const sound = checkFactors(table, row, factors, problems) && checkReferences(table, row, kind, known, problems);
    const reading = sound ? readingOf(table, row, problems) : undefined;
    return reading === undefined ? [] : [reading];
  });
  for (const factor of factors) {
    const levels = new Set(table.texts(factor).filter((level) => level !== ""));
    if (levels.size !== 1) continue;
    const facts = { found: factor, expected: [...levels].join(", ") };
    problems.add("W_FACTOR_CONSTANT", table.headerPlace(factor), facts);
  }
  return readings;
}

function checkFactors(table: Table, row: number, factors: readonly string[], problems: ProblemCollector): boolean {
  const empty = factors.filter((factor) => table.texts(factor)[row] === "");
  for (const factor of empty) problems.add("E_FACTOR_EMPTY", table.place(row, factor), { expected: factor });
  return empty.length === 0;
}

/** Names in a reading that the archive must know; the candidates of a study of methods are not methods yet. */
function checkReferences(
  table: Table,
  row: number,
  kind: Study["kind"],
  known: KnownNames,
  problems: ProblemCollector,
): boolean {
  const text = (name: StudyFactor): string => table.texts(name)[row]!;
  const references: readonly (readonly [StudyFactor, readonly string[] | undefined, ProblemCode])[] = [
    ["unit", known.units, "E_UNIT_UNKNOWN"],
    ["connection", known.connectionsOf(text("unit")), "E_CONNECTION_UNKNOWN"],
    ["operator", known.roles, "E_ROLE_UNKNOWN"],
    ["reader", known.roles, "E_ROLE_UNKNOWN"],
    ["rig", known.rigs, "E_RIG_UNKNOWN"],
    ["method", kind === "candidate_methods" ? undefined : known.methods, "E_METHOD_UNKNOWN"],
  ];
  const wrong = references.filter(([name, names]) => text(name) !== "" && names?.includes(text(name)) === false);
  for (const [name, names, code] of wrong) {
    problems.add(code, table.place(row, name), { found: text(name), names: names ?? [] });
  }
  return wrong.length === 0;
}

function readingOf(table: Table, row: number, problems: ProblemCollector): StudyReading | undefined {
  const characteristic = characteristicOf(table.texts("characteristic")[row]!)!;
  const symbol = parseSymbol(table.texts("symbol")[row]!)!;
  if (!isConvertible(symbol, characteristic.symbol)) {
    const facts = { found: symbol, expected: characteristic.symbol };
    problems.add("E_SYMBOL_WRONG", table.place(row, "symbol"), facts);
    return undefined;
  }
  const factors = Object.fromEntries(studyFactors.map((name) => [name, table.texts(name)[row]!]));
  return {
    ...(factors as Record<StudyFactor, string>),
    characteristic: characteristic.property,
    value: convert(table.numbers("value")[row]!, symbol, characteristic.symbol),
    symbol: characteristic.symbol,
    evidence: table.evidence(row, row, ["value", "symbol"]),
  };
}
