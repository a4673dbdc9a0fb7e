import type { ArchivePlan, RigPlan, SessionPlan, UnitPlan } from "./archive-plan.js";
import { addDays } from "./calendar.js";
import { candidatesStudy } from "./candidates-study.js";
import { crossedStudy } from "./crossed-study.js";
import { cycleVariation } from "./cycle-variation.js";
import type { Raw } from "./described.js";
import { describedRig } from "./described.js";
import { effectSizes } from "./effect-sizes.js";
import type { Reader } from "./film.js";
import { hostSystem } from "./host-system.js";
import { keyCurve } from "./key-curve.js";
import type { BaseShapeName } from "./key-shape.js";
import { baseShapes } from "./key-shape.js";
import {
  flickMethodRaw,
  injectionMethodRaw,
  labRaw,
  lightMethodRaw,
  scoringOneRaw,
  scoringTwoRaw,
} from "./lab-description.js";
import {
  cameraRaw,
  injectorRaw,
  lightRaw,
  keystrokeMethodRaw,
  keystrokeOneRaw,
  latencyMethodRaw,
  testerRaw,
} from "./lab-objects.js";
import { randomFor } from "./random.js";
import { readersStudy } from "./readers-study.js";
import type { RenderedArchive } from "./render-archive.js";
import { renderArchive } from "./render-archive.js";
import { cameraSeries, clockSeries, drawChecks, testerSeries } from "./rig-checks.js";
import { drawCameraErrors, drawTesterErrors } from "./rig-errors.js";
import { filmSessionRaw, keystrokeSessionRaw } from "./session-descriptions.js";
import { chains } from "./simulate-unit.js";
import { testerSetting } from "./tester.js";
import { truthOf, usualDefinition } from "./truth.js";
import { drawUnit } from "./unit-truth.js";

/** Effects that can be planted, each alone or with others; sizes in `effectSizes`. */
export type PlantedEffect =
  | "outlier_key"
  | "moved_force"
  | "moved_pre_travel"
  | "position_effect"
  | "unit_position_effect"
  | "first_cycle"
  | "rig_drift"
  | "operator_offset"
  | "reader_offset";

/** Where each effect is, once planted. */
export const plantedPlaces = {
  outlier_key: { unit: "u02", key: "KeyP" },
  moved_force: { unit: "u03" },
  moved_pre_travel: { unit: "u04" },
  position_effect: { row: "B", units: "all" },
  unit_position_effect: { row: "B", unit: "u01" },
  first_cycle: { units: "all" },
  rig_drift: { rig: "tester-1", from: "2026-05-05", until: "2026-06-30" },
  operator_offset: { study: "crossed-1", operator: "operator-3" },
  reader_offset: { study: "readers-1", reader: "reader-b" },
} as const satisfies Readonly<Record<PlantedEffect, object>>;

export interface SimulateArchiveOptions {
  /** Default: nothing. */
  readonly planted?: readonly PlantedEffect[];
  /** Other sizes than the stated ones. */
  readonly sizes?: Partial<typeof effectSizes>;
  /** Units measured by both keystroke methods and on film; 2 to 12, default 6. One more is held back, one withdrawn. */
  readonly retested?: number;
  /** Way between two readings; default 0.02 mm, twice the demo's, for smaller files. */
  readonly stepMm?: number;
  readonly truths?: boolean;
}

const kinds: readonly (readonly [BaseShapeName, keyof typeof chains])[] = [
  ["linearFull", "usb"],
  ["tactileFull", "receiver"],
  ["linearFull", "usb"],
  ["clickyFull", "bluetooth"],
  ["tactileLow", "usb"],
  ["linearLow", "receiver"],
];

const settings: Readonly<Record<keyof typeof chains, Raw>> = {
  usb: { polling_set: "1000 Hz", polling_measured_Hz: 999.8, debounce: "not adjustable", adapter: "none" },
  receiver: { polling_set: "not adjustable", debounce: "not adjustable", adapter: "the unit's own receiver" },
  bluetooth: { polling_set: "not adjustable", debounce: "not adjustable", adapter: "built-in radio" },
};

/** The plan behind `simulateArchive`. */
export function smallArchivePlan(seed: number, options: SimulateArchiveOptions = {}): ArchivePlan {
  const planted = new Set(options.planted ?? []);
  const sizes = { ...effectSizes, ...options.sizes };
  const retested = options.retested ?? 6;
  if (!(retested >= 2 && retested <= 12)) throw new RangeError(`retested is ${retested}; it must be from 2 to 12`);
  const cycles = { ...cycleVariation, firstCycleCn: planted.has("first_cycle") ? sizes.firstCycleCn : 0 };

  const unitPlan = (index: number): UnitPlan => {
    const id = `u${String(index + 1).padStart(2, "0")}`;
    const [shape, connection] = kinds[index % kinds.length]!;
    const full = index < retested;
    const day = addDays("2025-09-08", 3 * index);
    const head = { unit: id, rig: "tester-1", firmware: "1.0" } as const;
    const mount = { mountCn: 0.12, mountMm: 0.0025, cycles } as const;
    const moved = {
      ...(planted.has("moved_force") && id === plantedPlaces.moved_force.unit ? { forceCn: sizes.movedForceCn } : {}),
      ...(planted.has("moved_pre_travel") && id === plantedPlaces.moved_pre_travel.unit
        ? { makeMm: sizes.movedPreTravelMm }
        : {}),
    };
    const keystroke = (sid: string, date: string, method: "keystroke@1" | "keystroke@2"): SessionPlan => ({
      kind: "keystroke",
      raw: keystrokeSessionRaw(seed, { ...head, id: sid, date, method, contactSource: "electrical" }),
      ...mount,
      ...(method === "keystroke@2" ? { shift: moved } : {}),
    });
    const film = (): SessionPlan => ({
      kind: "film",
      raw: filmSessionRaw(seed, {
        ...head,
        rig: "camera-1",
        id: "s3",
        date: addDays("2026-04-14", 2 * index),
        settings: { [connection]: settings[connection] },
      }),
      key: "KeyF",
      host: hostSystem,
      readers: [{ name: "reader-a", contactOffset: 0, responseOffset: 0, slipShare: 0.05 }],
      shift: moved,
    });
    const bottomRowCn =
      (planted.has("position_effect") ? sizes.positionCn : 0) +
      (planted.has("unit_position_effect") && id === plantedPlaces.unit_position_effect.unit
        ? sizes.unitPositionCn
        : 0);
    const odd = planted.has("outlier_key") && id === plantedPlaces.outlier_key.unit;
    return {
      raw: {
        id,
        maker: "Quorrelby",
        model: `Trial ${shape}`,
        sample_no: String(Math.floor(index / kinds.length) + 1),
        received: "2025-09-01",
        obtained: "Generated",
        condition: "New, sealed",
        status: index === retested + 1 ? "withdrawn" : "held",
        status_note: index === retested + 1 ? "Withdrawn before the change of method." : "",
        layout: "ansi",
        alphabetic_keys: 26,
        switch: {
          kind: shape.startsWith("linear") ? "linear" : shape.startsWith("clicky") ? "clicky" : "tactile",
          name: "trial",
          travel: shape.endsWith("Low") ? "low" : "full",
          actuation_setting: "not adjustable",
        },
        limits: [],
        connections: [connection],
      },
      shapes: drawUnit(
        baseShapes[shape],
        {
          position: { rowCn: { D: 0, C: 0, B: bottomRowCn }, columnCn: 0, rightHandCn: 0 },
          ...(odd ? { odd: { [plantedPlaces.outlier_key.key]: { forceCn: sizes.outlierKeyCn } } } : {}),
        },
        randomFor(seed, "unit", id),
      ),
      chains: { [connection]: chains[connection] },
      sessions: [
        keystroke("s1", day, "keystroke@1"),
        ...(full ? [keystroke("s2", addDays("2026-03-09", 2 * index), "keystroke@2"), film()] : []),
      ],
    };
  };
  const units = Array.from({ length: retested + 2 }, (_, i) => unitPlan(i));
  const rigs = smallRigs(seed, planted.has("rig_drift") ? sizes.spanRatio : 0, options.stepMm ?? 0.02);
  return {
    seed,
    lab: labRaw,
    methods: {
      "flick-1": flickMethodRaw,
      "injection-1": injectionMethodRaw,
      "keystroke-1": keystrokeOneRaw,
      "keystroke-2": keystrokeMethodRaw,
      "latency-1": latencyMethodRaw,
      "light-1": lightMethodRaw,
      "scoring-1": scoringOneRaw,
      "scoring-2": scoringTwoRaw,
    },
    rigs,
    units,
    studies: smallStudies(seed, units, rigs, {
      operatorCn: planted.has("operator_offset") ? sizes.operatorCn : 0,
      operatorMm: planted.has("operator_offset") ? sizes.operatorMm : 0,
      readerFrames: planted.has("reader_offset") ? sizes.readerFrames : 0,
    }),
  };
}

function smallRigs(seed: number, spanRatio: number, stepMm: number): readonly RigPlan[] {
  const { from, until } = plantedPlaces.rig_drift;
  const bias = (date: string): number => (date >= from && date < until ? spanRatio : 0);
  const standard = { unit: "u01", forceCn: 44, preTravelMm: 1.95 };
  const errors = drawTesterErrors(describedRig(testerRaw), randomFor(seed, "rig", "tester-1"));
  const halfWidths = { touchOffsetMm: 0.03, speedShare: 0.004 };
  const random = randomFor(seed, "rig", "camera-1");
  return [
    {
      raw: testerRaw,
      checks: drawChecks(
        testerSeries(standard, bias),
        "2025-09-01",
        "2026-06-29",
        randomFor(seed, "checks", "tester-1"),
      ),
      tester: {
        errors: (date) => ({ ...errors, forceSpan: errors.forceSpan / (1 + bias(date)) }),
        setting: { ...testerSetting, stepMm },
        forceColumn: "cN",
      },
    },
    {
      raw: cameraRaw,
      checks: drawChecks(cameraSeries(120), "2025-12-01", "2026-06-29", randomFor(seed, "checks", "camera-1")),
      camera: { errors: drawCameraErrors(describedRig(cameraRaw), halfWidths, random) },
    },
    ...[injectorRaw, lightRaw].map((raw) => {
      const id = String(raw["id"]);
      return { raw, checks: drawChecks(clockSeries, "2026-01-12", "2026-06-29", randomFor(seed, "checks", id)) };
    }),
  ];
}

function smallStudies(
  seed: number,
  units: readonly UnitPlan[],
  rigs: readonly RigPlan[],
  offsets: { readonly operatorCn: number; readonly operatorMm: number; readonly readerFrames: number },
): ArchivePlan["studies"] {
  const five = units.slice(0, 5);
  const keyF = five.map((unit) => truthOf(keyCurve(unit.shapes.get("KeyF")!), usualDefinition).values);
  const byUnit = (pick: (i: number) => number): Readonly<Record<string, number>> =>
    Object.fromEntries(five.map((unit, i) => [String(unit.raw["id"]), pick(i)]));
  const operators = (third: number): Readonly<Record<string, number>> => ({
    "operator-1": 0,
    "operator-2": 0,
    "operator-3": third,
  });
  const reader = (name: string, responseOffset: number): Reader => ({
    name,
    contactOffset: 0,
    responseOffset,
    slipShare: 0.06,
  });
  const shared = { rig: "tester-1", method: "keystroke@2" } as const;
  return [
    candidatesStudy(
      seed,
      [
        { method: "latency@1", rig: "camera-1", operator: "operator-1", addsMs: 0, gain: 1, sdMs: 0.45 },
        { method: "injection@1", rig: "injector-1", operator: "operator-1", addsMs: 0.35, gain: 1, sdMs: 0.06 },
        { method: "light@1", rig: "light-1", operator: "operator-1", addsMs: 0.43, gain: 1, sdMs: 0.25 },
        { method: "flick@1", rig: "camera-1", operator: "operator-1", addsMs: 6.5, gain: 1, sdMs: 1.6 },
      ],
      [5, 10, 20, 40],
      [{ unit: "u01", connection: "usb", chain: chains.usb }],
      6,
    ),
    crossedStudy(seed, { ...shared, key: "KeyF", days: 2, mounts: 3, repeats: 2 }, [
      {
        characteristic: "actuation_force",
        symbol: "cN",
        decimals: 2,
        units: byUnit((i) => keyF[i]!.actuationForce!),
        operators: operators(offsets.operatorCn),
        daySd: 0,
        mountSd: 0.12,
        repeatSd: 0.15,
      },
      {
        characteristic: "pre_travel",
        symbol: "mm",
        decimals: 4,
        units: byUnit((i) => keyF[i]!.preTravel!),
        operators: operators(offsets.operatorMm),
        daySd: 0,
        mountSd: 0.0025,
        repeatSd: 0.003,
      },
    ]),
    readersStudy(
      seed,
      {
        connection: "usb",
        key: "KeyF",
        preTravelMm: keyF[0]!.preTravel!,
        chain: chains.usb,
        host: hostSystem,
        errors: rigs[1]!.camera!.errors,
        frameRateHz: 960,
        presses: 28,
        intervalMs: 1370,
        intervalJitterMs: 120,
      },
      [reader("reader-a", 0), reader("reader-b", offsets.readerFrames)],
      { unit: "u01", rig: "camera-1", method: "latency@1" },
    ),
  ];
}

/**
 * A small archive with everything that the reports ask for: units measured by both keystroke methods and on film, one held
 * back, one withdrawn, rigs with checks, three studies. Without planted effects nothing in it differs but by the stated
 * scatter, so that any claim about it is a false one; with one, that effect has its stated size.
 */
export function simulateArchive(seed: number, options: SimulateArchiveOptions = {}): RenderedArchive {
  return renderArchive(smallArchivePlan(seed, options), { truths: options.truths ?? false, truthDraws: 20_000 });
}
