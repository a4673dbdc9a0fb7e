import { convert, isConvertible, parseSymbol } from "../metrology/units.js";
import type { Calibration, CalibrationTerm, Rig, RigCheck } from "./archive.js";
import { camelCase, characteristicOf } from "./characteristics.js";
import type { KnownNames } from "./known-names.js";
import type { ProblemCollector } from "./problem-collector.js";
import type { Described, ReadingContext } from "./read-description.js";
import { checkId, readDescription } from "./read-description.js";
import { readSource } from "./read-source.js";
import { parseTable } from "./read-table.js";
import { checksSchema } from "./schemas/checks.js";
import { calibrationTerms, rigSchema } from "./schemas/rig.js";
import type { Table } from "./table.js";
import type { YamlView } from "./yaml-view.js";
import { notRecorded } from "./yaml-view.js";

/** Reads `rigs/<folder>/rig.yaml` and checks.csv; undefined, with problems, where the description does not fit. */
export function readRig(
  context: ReadingContext,
  folder: string,
  hasChecks: boolean,
  known: KnownNames,
): Described<Rig> | undefined {
  const checks = hasChecks ? readChecks(context, `rigs/${folder}/checks.csv`, known) : [];
  const view = readDescription(context, `rigs/${folder}/rig.yaml`, rigSchema);
  if (view === undefined) return undefined;
  checkId(context, view, folder);
  const value: Rig = {
    id: view.text("id"),
    kind: view.choice<Rig["kind"]>("kind"),
    description: view.text("description"),
    software: view.text("software", notRecorded),
    calibrations: view.children("calibrations").map((each) => readCalibration(each, context.problems)),
    checks,
    file: view.file,
    evidence: view.evidence,
  };
  return { value, view };
}

function readCalibration(view: YamlView, problems: ProblemCollector): Calibration {
  const [date, due] = [view.text("date"), view.text("due")];
  if (due < date) {
    problems.add("E_DATE_ORDER", view.placeOf("due"), { found: `due ${due}`, expected: `the date ${date}` });
  }
  const terms = view.child("terms")!;
  const read = Object.entries(calibrationTerms).flatMap(([name, symbol]) => {
    const term = terms.child(name);
    if (term === undefined) return [];
    const value: CalibrationTerm = {
      value: term.required("value", symbol),
      u: term.required("u", symbol),
      distribution: term.choice<CalibrationTerm["distribution"]>("distribution"),
    };
    return [[camelCase(name), value] as const];
  });
  return { date, due, certificate: view.text("certificate"), terms: Object.fromEntries(read), evidence: view.evidence };
}

/** Checks in canonical units of measure: those of the characteristic, else those of the term that was checked. */
function readChecks(context: ReadingContext, file: string, known: KnownNames): readonly RigCheck[] {
  const { problems } = context;
  const source = readSource(context.root, file, context.limits.csvBytes, problems);
  const table = source && parseTable(source, checksSchema, problems);
  if (table === undefined) return [];
  return Array.from({ length: table.rows }, (_, row) => row).flatMap((row) => {
    if (table.broken[row] === 1) return [];
    const check = readCheck(table, row, known, problems);
    return check === undefined ? [] : [check];
  });
}

function readCheck(table: Table, row: number, known: KnownNames, problems: ProblemCollector): RigCheck | undefined {
  const text = (name: string): string => table.texts(name)[row]!;
  const [kind, unit] = [text("kind"), text("unit")];
  if (unit !== "" && !known.units.includes(unit)) {
    problems.add("E_UNIT_UNKNOWN", table.place(row, "unit"), { found: unit, names: known.units });
    return undefined;
  }
  for (const name of kind === "check_standard" ? ["unit", "characteristic"] : []) {
    if (text(name) !== "") continue;
    problems.add("E_CELL_EMPTY", table.place(row, name), { expected: name });
    return undefined;
  }
  const characteristic = characteristicOf(text("characteristic"));
  const symbol = parseSymbol(text("symbol"))!;
  const ofKind = (calibrationTerms as Readonly<Record<string, string>>)[kind];
  const canonical = characteristic?.symbol ?? ofKind ?? symbol;
  if (!isConvertible(symbol, canonical)) {
    problems.add("E_SYMBOL_WRONG", table.place(row, "symbol"), { found: symbol, expected: canonical });
    return undefined;
  }
  const number = (name: string): number => convert(table.numbers(name)[row]!, symbol, canonical);
  return {
    date: text("date"),
    kind,
    unit,
    characteristic: characteristic?.property ?? "",
    value: number("value"),
    u: number("u"),
    reference: number("reference"),
    symbol: canonical,
    evidence: table.evidence(row, row, ["value", "u", "reference", "symbol"]),
  };
}
