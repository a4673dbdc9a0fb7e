import type { KeyCharacteristic } from "../../src/keystroke/model.js";
import type { KeystrokeMethod, LatencyMethod, Rig, Session, Unit } from "../../src/records/archive.js";
import type { LatencyReadings, Stroke } from "../../src/records/readings.js";
import type { ChainName } from "./chains.js";
import { chains } from "./chains.js";
import type { CycleVariation } from "./cycle-variation.js";
import { cycleVariation, drawCycle } from "./cycle-variation.js";
import type { Raw } from "./described.js";
import { describedLatencyMethod, describedMethod, describedRig, describedSession, describedUnit } from "./described.js";
import { filmUnit } from "./film-unit.js";
import { keyCurve } from "./key-curve.js";
import { keyPositions } from "./key-positions.js";
import type { BaseShapeName } from "./key-shape.js";
import { baseShapes } from "./key-shape.js";
import { keyTruth } from "./key-truth.js";
import { cameraRaw, keystrokeMethodRaw, latencyMethodRaw, testerRaw } from "./lab-objects.js";
import type { LatencyTruth } from "./latency-truth.js";
import { randomFor } from "./random.js";
import { drawTesterErrors } from "./rig-errors.js";
import type { TesterSetting } from "./tester.js";
import { drawGapMm, recordCycle, testerSetting } from "./tester.js";
import type { CurveTruth } from "./truth.js";
import { meanTruth } from "./truth.js";
import type { UnitOptions } from "./unit-truth.js";
import { atSpeed, drawUnit, shifted } from "./unit-truth.js";

export type BrokenAssumption = "skew" | "correlated_keys" | "speed_off";

export interface SimulateUnitOptions {
  /** Shape to start from; default: one of all, by the seed. */
  readonly shape?: BaseShapeName;
  /** Connections to film; default: one of all, by the seed. An empty list: no latency session. */
  readonly connections?: readonly ChainName[];
  readonly keystrokeMethod?: Raw;
  readonly latencyMethod?: Raw;
  readonly tester?: Raw;
  readonly camera?: Raw;
  readonly setting?: TesterSetting;
  readonly cycles?: CycleVariation;
  readonly unit?: UnitOptions;
  /** Standard deviations of one mounting: force and contact position, the same for all keys. Default 0. */
  readonly mountCn?: number;
  readonly mountMm?: number;
  /** `true`: the mounting belongs to the truth (this unit as mounted); `false`: it is an error. Default `true`. */
  readonly mountInTruth?: boolean;
  /** Half-width of the rectangle that the offset between touch and contact on film is drawn from; default: the way of one frame. */
  readonly touchOffsetMm?: number;
  /** Half-width of the share by which the way to the contact differs, per factor of ten in speed; default 0.01. */
  readonly speedSharePerDecade?: number;
  /** Half-width in frames of the reader's own offset at each end; default 0.5. */
  readonly readerOffset?: number;
  readonly broken?: BrokenAssumption;
  /** Strokes to spoil, all of them: no release, or a contact that flickers over this way. */
  readonly withoutRelease?: boolean;
  readonly chatterMm?: number;
  /** Draws for the truth of L_k; default 20 000. */
  readonly truthDraws?: number;
  /** Only these keys get a truth; default all 26. */
  readonly truthOfAllKeys?: boolean;
}

export interface UnitTruth {
  /** Every alphabetic key (or the measured ones alone, see `truthOfAllKeys`). */
  readonly keys: ReadonlyMap<string, CurveTruth>;
  /** Mean over those keys; null where the definition gives nothing on some key. */
  readonly mean: CurveTruth;
  /** Standard deviation between them. */
  readonly betweenKeys: Readonly<Record<KeyCharacteristic, number | null>>;
  readonly latency: Readonly<Record<string, LatencyTruth>>;
}

export interface SimulatedUnit {
  readonly unit: Unit;
  readonly keystroke: {
    readonly session: Session;
    readonly method: KeystrokeMethod;
    readonly rig: Rig;
    readonly strokes: readonly Stroke[];
  };
  /** Null where no connection was asked for. */
  readonly latency: {
    readonly session: Session;
    readonly method: LatencyMethod;
    readonly rig: Rig;
    readonly readings: LatencyReadings;
  } | null;
  readonly truth: UnitTruth;
}

function spreadOf(keys: ReadonlyMap<string, CurveTruth>, mean: CurveTruth): UnitTruth["betweenKeys"] {
  return Object.fromEntries(
    Object.entries(mean.values).map(([name, centre]) => {
      if (centre === null) return [name, null];
      const off = [...keys.values()].map((t) => t.values[name as KeyCharacteristic]! - centre);
      return [name, Math.sqrt(off.reduce((a, b) => a + b * b, 0) / (off.length - 1))];
    }),
  ) as UnitTruth["betweenKeys"];
}

const pick = <T>(list: readonly T[], at: number): T => list[Math.min(list.length - 1, Math.floor(at * list.length))]!;

/**
 * One unit of a model, measured once: strokes of the method's keys and film of its connections, in memory, with the
 * truths. Each run draws the rigs' errors anew from their certificates, the keys from the tolerances, the cycles from
 * their scatter, so that over many seeds stated uncertainties can be held against what really happened.
 */
export function simulateUnit(seed: number, options: SimulateUnitOptions = {}): SimulatedUnit {
  const world = randomFor(seed, "world");
  const shapeName = options.shape ?? pick(Object.keys(baseShapes) as BaseShapeName[], world.uniform());
  const connections = options.connections ?? [pick(Object.keys(chains) as ChainName[], world.uniform())];
  const method = describedMethod(options.keystrokeMethod ?? keystrokeMethodRaw);
  const filmMethod = describedLatencyMethod(options.latencyMethod ?? latencyMethodRaw);
  const tester = describedRig(options.tester ?? testerRaw);
  const camera = describedRig(options.camera ?? cameraRaw);
  const variation = options.cycles ?? cycleVariation;
  const setting = options.setting ?? testerSetting;

  const scatter = options.broken === "skew" ? "skewed" : options.broken === "correlated_keys" ? "correlated" : "normal";
  const atTester = atSpeed(baseShapes[shapeName], setting.speedMmPerS);
  const intrinsic = drawUnit(atTester, { scatter, ...options.unit }, randomFor(seed, "unit"));
  const mountRandom = randomFor(seed, "mount");
  const mount = {
    forceCn: (options.mountCn ?? 0) * mountRandom.normal(),
    makeMm: (options.mountMm ?? 0) * mountRandom.normal(),
  };
  const mounted = new Map([...intrinsic].map(([key, shape]) => [key, shifted(shape, mount)]));

  const errors = drawTesterErrors(tester, randomFor(seed, "tester"));
  const spoilt = {
    ...(options.withoutRelease === undefined ? {} : { withoutRelease: options.withoutRelease }),
    ...(options.chatterMm === undefined ? {} : { chatterMm: options.chatterMm }),
  };
  const strokes = method.keys.flatMap((key) => {
    const random = randomFor(seed, "strokes", key);
    const gapMm = drawGapMm(setting, random);
    return Array.from({ length: method.cycles }, (_, i) => {
      const shape = drawCycle(mounted.get(key)!, i + 1, variation, random);
      return recordCycle(keyCurve(shape), key, i + 1, random, { errors, setting, gapMm, ...spoilt });
    }).flat();
  });

  const shapes = options.mountInTruth === false ? intrinsic : mounted;
  const truthKeys = options.truthOfAllKeys === false ? method.keys : keyPositions.map((p) => p.key);
  const keys = new Map(truthKeys.map((key) => [key, keyTruth(shapes.get(key)!, method, variation)]));
  const mean = meanTruth([...keys.values()]);

  const filmed = filmUnit(seed, options, connections, filmMethod, camera, intrinsic.get("KeyF")!, method);
  const kind = shapeName.startsWith("linear") ? "linear" : shapeName.startsWith("clicky") ? "clicky" : "tactile";
  const sessions = [
    describedSession(
      {
        id: "s1",
        unit: "sim",
        method: method.id,
        rig: tester.id,
        operator: "operator-1",
        start: "2026-03-09T09:00:00Z",
        end: "2026-03-09T10:00:00Z",
        press_speed_mm_per_s: setting.speedMmPerS,
        contact_source: "electrical",
        firmware: "1.0",
        driver: "not recorded",
        software: "not recorded",
        environment: { temperature_degC: 22, humidity_percent: 45 },
      },
      "units/sim/s1",
      ["force.csv"],
    ),
    ...(filmed === null ? [] : [filmed.session]),
  ];
  const unit = describedUnit(
    {
      id: "sim",
      maker: "not recorded",
      model: "not recorded",
      sample_no: String(seed),
      received: "2026-03-02",
      obtained: "simulated",
      status: "held",
      status_note: "",
      condition: "simulated",
      layout: "ansi",
      alphabetic_keys: keyPositions.length,
      switch: {
        kind,
        name: shapeName,
        travel: shapeName.endsWith("Low") ? "low" : "full",
        actuation_setting: "not adjustable",
      },
      limits: [],
      connections,
    },
    sessions,
  );
  return {
    unit,
    keystroke: { session: sessions[0]!, method, rig: tester, strokes },
    latency: filmed && {
      session: filmed.session,
      method: filmMethod,
      rig: camera,
      readings: filmed.readings,
    },
    truth: { keys, mean, betweenKeys: spreadOf(keys, mean), latency: filmed?.truth ?? {} },
  };
}
