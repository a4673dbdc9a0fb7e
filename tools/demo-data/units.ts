import type { FilmSessionPlan, KeystrokeSessionPlan, SessionPlan, UnitPlan } from "../simulation/archive-plan.js";
import { cycleVariation } from "../simulation/cycle-variation.js";
import type { Raw } from "../simulation/described.js";
import type { Reader } from "../simulation/film.js";
import { hostSystem } from "../simulation/host-system.js";
import { randomFor } from "../simulation/random.js";
import { filmSessionRaw, keystrokeSessionRaw, timingSessionRaw } from "../simulation/session-descriptions.js";
import { drawUnit } from "../simulation/unit-truth.js";
import type { DemoUnit } from "./demo-units.js";
import { demoUnits } from "./demo-units.js";
import type { DemoModel } from "./models.js";
import { models } from "./models.js";
import { planted } from "./planted.js";

export const readerA: Reader = { name: "reader-a", contactOffset: 0.05, responseOffset: -0.05, slipShare: 0.05 };
export const readerB: Reader = {
  name: "reader-b",
  contactOffset: 0,
  responseOffset: planted.reader.responseFrames,
  slipShare: 0.07,
};

/** One mounting differs from the next by this, for all keys of the session. */
export const mounting = { forceCn: 0.12, makeMm: 0.0025 } as const;

function keystrokeSession(
  seed: number,
  unit: DemoUnit,
  model: DemoModel,
  which: {
    readonly id: string;
    readonly method: "keystroke@1" | "keystroke@2";
    readonly date: string;
    readonly rig: string;
  },
): KeystrokeSessionPlan {
  const first = which.method === "keystroke@1";
  const late = unit.id === "u11";
  const slip = planted.slip.unit === unit.id && planted.slip.session === which.id;
  const raw = keystrokeSessionRaw(seed, {
    ...which,
    unit: unit.id,
    contactSource: late ? "report" : "electrical",
    firmware: first ? (unit.oldFirmware ?? model.firmware) : model.firmware,
    deviations: first ? [] : (unit.deviations ?? []),
    exclusions: slip
      ? [{ key: planted.slip.key, cycle: planted.slip.cycle, reason: "The probe slipped off the keycap" }]
      : [],
  });
  return {
    kind: "keystroke",
    raw,
    mountCn: mounting.forceCn,
    mountMm: mounting.makeMm,
    cycles: { ...cycleVariation, firstCycleCn: planted.firstCycle.forceCn },
    ...(!first && unit.moved ? { shift: unit.moved } : {}),
    ...(late ? { reportDelayMs: [9, 27] as const } : {}),
    ...(slip ? { slip: { key: planted.slip.key, cycle: planted.slip.cycle, atMm: 1.35 } } : {}),
  };
}

function filmSession(seed: number, unit: DemoUnit, model: DemoModel, id: string, date: string): FilmSessionPlan {
  const { firmware, settings } = model;
  const raw = filmSessionRaw(seed, { unit: unit.id, id, date, rig: "camera-1", firmware, settings });
  const at = (p: { unit: string; session: string }): boolean => p.unit === unit.id && p.session === id;
  const { missed, double, excluded } = planted;
  return {
    kind: "film",
    raw,
    key: unit.filmedKey ?? "KeyF",
    host: hostSystem,
    readers: unit.id === "u01" || unit.id === "u10" ? [readerA, readerB] : [readerA],
    marks: unit.id === "u08",
    ...(unit.moved ? { shift: unit.moved } : {}),
    outcomes: {
      ...(at(missed) ? { [missed.connection]: { [missed.press]: "missed" as const } } : {}),
      ...(at(double) ? { [double.connection]: { [double.press]: "double" as const } } : {}),
    },
    excluded: at(excluded)
      ? { [excluded.connection]: { [excluded.press]: "A hand crossed the picture while the key was down" } }
      : {},
  };
}

/** Direct injection and light on the one unit that was opened for the comparison of methods. */
function candidateSessions(seed: number, model: DemoModel): readonly SessionPlan[] {
  const { firmware, settings } = model;
  const deviations = ["A candidate method, tried for the comparison of methods."];
  const raw = (id: string, method: string, rig: string, date: string): Raw =>
    timingSessionRaw(seed, { unit: "u01", id, date, rig, method, firmware, settings, deviations });
  return [
    {
      kind: "timing",
      raw: raw("s4", "light@1", "light-1", "2026-06-09"),
      key: "KeyF",
      afterMs: [0.43, 0.02],
      plungerMmPerS: 120,
    },
    { kind: "timing", raw: raw("s5", "injection@1", "injector-1", "2026-06-11"), key: "KeyF", afterMs: [0.35, 0.02] },
  ];
}

/** The eighteen units with their sessions, drawn from the seed. */
export function demoUnitPlans(seed: number): readonly UnitPlan[] {
  const position = { rowCn: { D: 0, C: 0, B: planted.position.forceCn }, columnCn: 0, rightHandCn: 0 };
  return demoUnits.map((unit): UnitPlan => {
    const model: DemoModel = models[unit.model];
    const sessions: SessionPlan[] = [];
    const next = (): string => `s${sessions.length + 1}`;
    if (unit.one) {
      const which = { id: next(), method: "keystroke@1", date: unit.one, rig: "tester-1" } as const;
      sessions.push(keystrokeSession(seed, unit, model, which));
    }
    if (unit.two) {
      const which = { id: next(), method: "keystroke@2", date: unit.two, rig: unit.twoRig ?? "tester-1" } as const;
      sessions.push(keystrokeSession(seed, unit, model, which));
    }
    if (unit.film) sessions.push(filmSession(seed, unit, model, next(), unit.film));
    if (unit.id === "u01") sessions.push(...candidateSessions(seed, model));
    const raw: Raw = {
      id: unit.id,
      maker: model.maker,
      model: model.model,
      sample_no: unit.sample,
      received: unit.received,
      obtained: unit.obtained,
      condition: unit.condition,
      status: unit.status ?? "held",
      status_note: unit.note ?? "",
      layout: model.layout,
      alphabetic_keys: 26,
      switch: model.switch,
      limits: model.limits,
      connections: Object.keys(model.settings),
    };
    const options = { position, ...(unit.oddKeys ? { odd: unit.oddKeys } : {}) };
    return {
      raw,
      shapes: drawUnit(model.shape, options, randomFor(seed, "unit", unit.id)),
      chains: model.chains,
      sessions,
    };
  });
}
