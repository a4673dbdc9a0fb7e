import type { Lab, Method, Rig, Session, Unit } from "./archive.js";
import { dayOf, instantMs } from "./dates.js";
import type { KnownNames } from "./known-names.js";
import type { ProblemCollector } from "./problem-collector.js";
import { missingFileRemedy } from "./remedies.js";
import type { Described } from "./read-description.js";

/** The descriptions that a session is checked against; those that could not be read are not there. */
export interface SessionSurroundings {
  readonly known: KnownNames;
  readonly lab: Lab | undefined;
  readonly unitFolder: string;
  readonly unit: Unit | undefined;
  readonly methods: ReadonlyMap<string, Method>;
  readonly rigs: ReadonlyMap<string, Rig>;
}

/** Relative difference of press speeds that is no difference of setting. */
const sameSpeed = 0.01;

/** Checks a session's description against the unit, method, rig and roles that it names. */
export function checkSession(
  session: Described<Session>,
  around: SessionSurroundings,
  problems: ProblemCollector,
): void {
  const method = around.methods.get(session.value.method);
  const rig = around.rigs.get(session.value.rig);
  checkNames(session, around, problems);
  checkDates(session, around.unit, method, problems);
  if (method !== undefined) checkMethod(session, method, rig, problems);
  if (rig !== undefined) checkCalibration(session, rig, problems);
}

function checkNames(
  { value, view }: Described<Session>,
  around: SessionSurroundings,
  problems: ProblemCollector,
): void {
  const { known, unit } = around;
  if (!known.units.includes(value.unit)) {
    problems.add("E_UNIT_UNKNOWN", view.placeOf("unit"), { found: value.unit, names: known.units });
  } else if (value.unit !== around.unitFolder) {
    problems.add("E_ID_PATH", view.placeOf("unit"), { found: value.unit, expected: around.unitFolder });
  }
  if (!known.methods.includes(value.method)) {
    problems.add("E_METHOD_UNKNOWN", view.placeOf("method"), { found: value.method, names: known.methods });
  }
  if (!known.rigs.includes(value.rig)) {
    problems.add("E_RIG_UNKNOWN", view.placeOf("rig"), { found: value.rig, names: known.rigs });
  }
  if (known.roles?.includes(value.operator) === false) {
    problems.add("E_ROLE_UNKNOWN", view.placeOf("operator"), { found: value.operator, names: known.roles });
  }
  for (const connection of Object.keys(value.connections)) {
    if (unit === undefined || unit.connections.includes(connection)) continue;
    const place = view.child("connections")!.placeOfKey(connection);
    problems.add("E_CONNECTION_UNKNOWN", place, { found: connection, names: unit.connections });
  }
}

function checkDates(
  { value, view }: Described<Session>,
  unit: Unit | undefined,
  method: Method | undefined,
  problems: ProblemCollector,
): void {
  if (instantMs(value.end) < instantMs(value.start)) {
    const facts = { found: `the end ${value.end}`, expected: `the start ${value.start}` };
    problems.add("E_DATE_ORDER", view.placeOf("end"), facts);
  }
  const day = dayOf(value.start);
  const received = unit?.received ?? "";
  if (/^\d/.test(received) && day < received) {
    problems.add("E_SESSION_BEFORE_RECEIVED", view.placeOf("start"), { found: day, expected: received });
  }
  if (method !== undefined && day < method.since) {
    problems.add("W_METHOD_BEFORE_SINCE", view.placeOf("start"), { found: day, expected: method.since });
  }
}

/** What a method needs: the kind of rig, the raw files, and those that it can use besides. */
export function needsOf(method: Method): {
  readonly rig: Rig["kind"];
  readonly files: readonly string[];
  readonly alsoUses: readonly string[];
} {
  if (method.kind !== "latency") return { rig: "force_tester", files: ["force.csv"], alsoUses: [] };
  const baseline = method.subtract.length > 0 ? ["baseline.csv"] : [];
  if (method.observes === "film") {
    return { rig: "camera_plunger", files: ["presses.csv", "films.csv", ...baseline], alsoUses: ["baseline.csv"] };
  }
  const rig = method.observes === "injection" ? "injector" : "light";
  return { rig, files: ["timings.csv", ...baseline], alsoUses: ["baseline.csv"] };
}

function checkMethod(
  { value, view }: Described<Session>,
  method: Method,
  rig: Rig | undefined,
  problems: ProblemCollector,
): void {
  if (method.kind === "scoring") {
    problems.add("E_METHOD_KIND", view.placeOf("method"), { found: method.id, expected: "keystroke or latency" });
    return;
  }
  const needs = needsOf(method);
  if (rig !== undefined && rig.kind !== needs.rig) {
    problems.add("E_RIG_KIND", view.placeOf("rig"), { found: rig.kind, expected: needs.rig });
  }
  for (const name of needs.files.filter((each) => !value.files.includes(each))) {
    problems.add("E_FILE_MISSING", view.placeOf("method"), {
      expected: `${value.folder}/${name}`,
      hint: missingFileRemedy(name),
    });
  }
  const used = [...needs.files, ...needs.alsoUses];
  for (const name of value.files.filter((each) => !used.includes(each))) {
    const place = { file: `${value.folder}/${name}`, line: 1, column: 1, length: 1 };
    problems.add("W_FILE_UNEXPECTED", place, { found: name, expected: method.id });
  }
  const usesSpeed = method.kind === "keystroke" || method.observes === "film";
  if (usesSpeed) checkSpeed({ value, view }, method, problems);
}

function checkSpeed({ value, view }: Described<Session>, method: Method, problems: ProblemCollector): void {
  const asked = method.kind === "keystroke" ? method.pressSpeed.value : undefined;
  const stated = value.pressSpeed?.value;
  const expected = asked === undefined ? "a stated speed" : `${asked} mm/s`;
  if (stated === undefined) {
    problems.add("W_PRESS_SPEED_UNSTATED", view.placeOf("method"), { expected });
  } else if (asked !== undefined && !(Math.abs(stated / asked - 1) <= sameSpeed)) {
    const place = view.placeOf(view.measureName("press_speed", "mm/s")!);
    problems.add("W_PRESS_SPEED_DIFFERS", place, { found: `${stated} mm/s`, expected });
  }
}

/** A calibration is in force from its date to its due date, both included. */
function checkCalibration({ value, view }: Described<Session>, rig: Rig, problems: ProblemCollector): void {
  const day = dayOf(value.start);
  const begun = rig.calibrations.filter((calibration) => calibration.date <= day);
  if (begun.some((calibration) => day <= calibration.due)) return;
  const notes = rig.calibrations.map((each) => `${each.certificate}: from ${each.date}, due ${each.due}`);
  const code = begun.length > 0 ? "W_CALIBRATION_EXPIRED" : "W_CALIBRATION_NOT_YET";
  problems.add(code, view.placeOf("rig"), { found: day, expected: rig.id, notes });
}
