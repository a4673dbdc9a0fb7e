import type { FilmSessionPlan, KeystrokeSessionPlan, SessionPlan, UnitPlan } from "../simulation/archive-plan.js";
import { cycleVariation } from "../simulation/cycle-variation.js";
import type { Raw } from "../simulation/described.js";
import type { Reader } from "../simulation/film.js";
import { hostSystem } from "../simulation/host-system.js";
import { randomFor } from "../simulation/random.js";
import { filmSessionRaw, keystrokeSessionRaw, timingSessionRaw } from "../simulation/session-descriptions.js";
import type { ShapeShift } from "../simulation/unit-truth.js";
import { drawUnit } from "../simulation/unit-truth.js";
import type { DemoModel, ModelName } from "./models.js";
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

interface DemoUnit {
  readonly id: string;
  readonly model: ModelName;
  readonly sample: string;
  readonly received: string;
  readonly obtained: string;
  readonly condition: string;
  readonly status?: "held" | "returned" | "withdrawn";
  readonly note?: string;
  /** Dates of the sessions; testers other than the first are named. */
  readonly one?: string;
  readonly two?: string;
  readonly twoRig?: "tester-2";
  readonly film?: string;
  readonly oddKeys?: Readonly<Record<string, ShapeShift>>;
  /** What happened between the two keystroke sessions. */
  readonly moved?: ShapeShift;
  readonly oldFirmware?: string;
  readonly filmedKey?: string;
  readonly deviations?: readonly string[];
}

const shop = "Bought from a shop without the maker's knowledge";
const lent = "Lent by the maker for the trial";
const tender = "Delivered as a sample for a tender";
const sealed = "New, sealed";

/** The units, in the order of their receipt. */
const demoUnits: readonly DemoUnit[] = [
  {
    id: "u01",
    model: "hall31",
    sample: "1",
    received: "2025-08-18",
    obtained: tender,
    condition: sealed,
    one: "2025-09-08",
    two: "2026-03-09",
    film: "2026-04-27",
  },
  {
    id: "u02",
    model: "hall31",
    sample: "2",
    received: "2025-08-18",
    obtained: tender,
    condition: sealed,
    note: "Kept back as the check standard of both force testers.",
    one: "2025-09-09",
    two: "2026-03-10",
    film: "2026-04-28",
  },
  {
    id: "u03",
    model: "hall31",
    sample: "3",
    received: "2025-08-18",
    obtained: tender,
    condition: sealed,
    one: "2025-09-11",
    two: "2026-03-12",
    film: "2026-04-29",
  },
  {
    id: "u04",
    model: "hall31",
    sample: "4",
    received: "2026-03-30",
    obtained: shop,
    condition: sealed,
    two: "2026-04-22",
    twoRig: "tester-2",
    film: "2026-05-04",
  },
  {
    id: "u05",
    model: "row8",
    sample: "1",
    received: "2025-08-25",
    obtained: shop,
    condition: sealed,
    one: "2025-09-15",
    two: "2026-03-17",
    film: "2026-05-06",
  },
  {
    id: "u06",
    model: "sprint2",
    sample: "1",
    received: "2025-08-25",
    obtained: shop,
    condition: sealed,
    one: "2025-09-17",
    two: "2026-03-19",
    film: "2026-05-11",
  },
  {
    id: "u07",
    model: "slate14",
    sample: "1",
    received: "2025-09-01",
    obtained: lent,
    condition: "Used for two weeks by the lender",
    one: "2025-09-22",
  },
  {
    id: "u08",
    model: "benchT",
    sample: "1",
    received: "2025-09-01",
    obtained: tender,
    condition: sealed,
    one: "2025-09-24",
    two: "2026-03-24",
    film: "2026-05-13",
  },
  {
    id: "u09",
    model: "benchT",
    sample: "2",
    received: "2025-09-01",
    obtained: tender,
    condition: sealed,
    note: "In use in hall 1 from October 2025 to February 2026.",
    one: "2025-09-25",
    two: "2026-03-26",
    film: "2026-05-14",
    moved: { forceCn: planted.springWorn.forceCn },
  },
  {
    id: "u10",
    model: "row8T",
    sample: "1",
    received: "2025-09-08",
    obtained: shop,
    condition: sealed,
    one: "2025-09-29",
    two: "2026-03-31",
    film: "2026-05-18",
    oddKeys: { [planted.outlierKey.key]: { forceCn: planted.outlierKey.forceCn } },
  },
  {
    id: "u11",
    model: "form102",
    sample: "1",
    received: "2025-09-08",
    obtained: tender,
    condition: "New, box opened at the gate",
    one: "2025-10-01",
    two: "2026-04-08",
    film: "2026-05-20",
  },
  {
    id: "u12",
    model: "form110",
    sample: "1",
    received: "2025-09-08",
    obtained: lent,
    condition: sealed,
    status: "returned",
    note: "Returned to the lender on 2026-01-30.",
    one: "2025-10-06",
  },
  {
    id: "u13",
    model: "slate9",
    sample: "1",
    received: "2025-09-15",
    obtained: shop,
    condition: sealed,
    note: "Membrane replaced by the maker's service in January 2026.",
    one: "2025-10-08",
    two: "2026-04-14",
    film: "2026-05-26",
    moved: { makeMm: planted.contactMoved.preTravelMm },
    deviations: ["Room at 25.9 °C while KeyA was measured; the method asks for at most 25 °C."],
  },
  {
    id: "u14",
    model: "fold3",
    sample: "1",
    received: "2025-09-15",
    obtained: shop,
    condition: sealed,
    one: "2025-10-13",
  },
  {
    id: "u15",
    model: "tallyC",
    sample: "1",
    received: "2025-09-22",
    obtained: tender,
    condition: sealed,
    one: "2025-10-15",
    two: "2026-04-02",
    twoRig: "tester-2",
    film: "2026-05-28",
  },
  {
    id: "u16",
    model: "tallyC2",
    sample: "1",
    received: "2025-09-22",
    obtained: tender,
    condition: sealed,
    one: "2025-10-20",
    two: "2026-05-19",
    twoRig: "tester-2",
    film: "2026-06-02",
    oldFirmware: "1.2",
    filmedKey: "KeyJ",
  },
  {
    id: "u17",
    model: "fold5",
    sample: "1",
    received: "2025-09-22",
    obtained: shop,
    condition: sealed,
    status: "withdrawn",
    note: "Withdrawn on 2026-02-20: water damage in hall 2.",
    one: "2025-10-22",
  },
  {
    id: "u18",
    model: "benchL",
    sample: "1",
    received: "2026-04-01",
    obtained: tender,
    condition: sealed,
    two: "2026-04-24",
    twoRig: "tester-2",
  },
];

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
