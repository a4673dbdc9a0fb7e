import type { KeyCharacteristic } from "../../src/keystroke/model.js";
import type { KeystrokeMethod, LatencyMethod, Rig, Session, Unit } from "../../src/records/archive.js";
import type { LatencyReadings, Stroke } from "../../src/records/readings.js";
import type { CycleVariation } from "./cycle-variation.js";
import { cycleVariation, drawCycle, systematicCycle } from "./cycle-variation.js";
import type { Raw } from "./described.js";
import { describedLatencyMethod, describedMethod, describedRig, describedSession, describedUnit } from "./described.js";
import type { FilmSetup, Reader } from "./film.js";
import { drawFilm } from "./film.js";
import { drawBaseline, hostSystem } from "./host-system.js";
import { keyCurve } from "./key-curve.js";
import { keyPositions } from "./key-positions.js";
import type { BaseShapeName, KeyShape } from "./key-shape.js";
import { baseShapes } from "./key-shape.js";
import type { KeyboardChain } from "./keyboard-chain.js";
import { cameraRaw, keystrokeMethodRaw, latencyMethodRaw, testerRaw } from "./lab-objects.js";
import type { LatencyTruth } from "./latency-truth.js";
import { latencyTruth } from "./latency-truth.js";
import { randomFor } from "./random.js";
import { drawCameraErrors, drawTesterErrors } from "./rig-errors.js";
import type { TesterSetting } from "./tester.js";
import { drawGapMm, recordCycle, testerSetting } from "./tester.js";
import type { CurveTruth } from "./truth.js";
import { definitionOf, meanTruth, truthOf } from "./truth.js";
import type { UnitOptions } from "./unit-truth.js";
import { atSpeed, drawUnit, shifted } from "./unit-truth.js";

/** Connections to choose from, each with a plausible chain. */
export const chains = {
  usb: {
    bounceMs: 0.5,
    bounceMostMs: 3,
    debounce: { kind: "deferred", ms: 5 },
    scanMs: 1,
    firmwareMs: 0.25,
    link: { kind: "usb", pollMs: 1 },
  },
  receiver: {
    bounceMs: 0.5,
    bounceMostMs: 3,
    debounce: { kind: "deferred", ms: 5 },
    scanMs: 1,
    firmwareMs: 0.35,
    link: { kind: "receiver", slotMs: 2, airMs: 0.6, lossShare: 0.02, pollMs: 1 },
  },
  bluetooth: {
    bounceMs: 0.5,
    bounceMostMs: 3,
    debounce: { kind: "deferred", ms: 5 },
    scanMs: 1,
    firmwareMs: 0.6,
    link: { kind: "bluetooth", intervalMs: 7.5, lossShare: 0.04, hostMs: 1.8 },
  },
} as const satisfies Readonly<Record<string, KeyboardChain>>;

export type BrokenAssumption = "skew" | "correlated_keys" | "speed_off";

export interface SimulateUnitOptions {
  /** Shape to start from; default: one of all, by the seed. */
  readonly shape?: BaseShapeName;
  /** Connections to film; default: one of all, by the seed. An empty list: no latency session. */
  readonly connections?: readonly (keyof typeof chains)[];
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

/** Truth of one key under a method: the mean of its used cycles without their scatter. */
export function keyTruth(shape: KeyShape, method: KeystrokeMethod, variation: CycleVariation): CurveTruth {
  const cycles = variation.firstCycleCn === 0 ? [1] : method.cyclesUsed;
  const definition = definitionOf(method);
  return meanTruth(cycles.map((cycle) => truthOf(keyCurve(systematicCycle(shape, cycle, variation)), definition)));
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
  const connections = options.connections ?? [pick(Object.keys(chains) as (keyof typeof chains)[], world.uniform())];
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

interface Filmed {
  readonly session: Session;
  readonly readings: LatencyReadings;
  readonly truth: Readonly<Record<string, LatencyTruth>>;
}

function filmUnit(
  seed: number,
  options: SimulateUnitOptions,
  connections: readonly (keyof typeof chains)[],
  method: LatencyMethod,
  camera: Rig,
  pressed: KeyShape,
  keystroke: KeystrokeMethod,
): Filmed | null {
  if (connections.length === 0) return null;
  const nominal = camera.calibrations.at(-1)!.terms["plungerSpeed"]!.value.value;
  const random = randomFor(seed, "camera");
  const halfWidths = {
    touchOffsetMm: options.touchOffsetMm ?? nominal / method.frameRate.value,
    speedShare: (options.speedSharePerDecade ?? 0.01) * Math.log10(nominal / keystroke.pressSpeed.value),
  };
  const drawn = drawCameraErrors(camera, halfWidths, random);
  const errors = options.broken === "speed_off" ? { ...drawn, plungerMmPerS: drawn.plungerMmPerS * 0.9 } : drawn;
  const habit = (): number => (options.readerOffset ?? 0.5) * (2 * random.uniform() - 1);
  const reader: Reader = { name: "reader-a", contactOffset: habit(), responseOffset: habit(), slipShare: 0.04 };
  const preTravelMm = truthOf(keyCurve(pressed), definitionOf(keystroke)).values.preTravel!;
  const setups = connections.map((connection): FilmSetup => ({
    connection,
    key: "KeyF",
    preTravelMm,
    chain: chains[connection],
    host: hostSystem,
    errors,
    frameRateHz: method.frameRate.value,
    presses: method.presses,
    readers: [reader],
    intervalMs: 1370,
    intervalJitterMs: 120,
    ...(options.broken === "skew" ? { tailMs: 4 } : {}),
  }));
  const films = setups.map((s) => drawFilm(s, `sim-${s.connection}`, randomFor(seed, "film", s.connection)));
  const truths = setups.map((s): [string, LatencyTruth] => [
    s.connection,
    latencyTruth(s, method.kept, randomFor(seed, "truth", s.connection), options.truthDraws ?? 20_000),
  ]);
  const session = describedSession(
    {
      id: "s2",
      unit: "sim",
      method: method.id,
      rig: camera.id,
      operator: "operator-1",
      start: "2026-04-20T09:00:00Z",
      end: "2026-04-20T10:00:00Z",
      press_speed_mm_per_s: nominal,
      contact_source: "none",
      connections: Object.fromEntries(
        connections.map((c) => [c, { polling_set: "not recorded", debounce: "not recorded", adapter: "none" }]),
      ),
      firmware: "1.0",
      driver: "not recorded",
      software: "not recorded",
      refresh_rate_Hz: hostSystem.refreshHz,
      press_interval_ms: 1370,
      press_interval_jitter_ms: 120,
      environment: { temperature_degC: 22, humidity_percent: 45 },
    },
    "units/sim/s2",
    ["presses.csv", "films.csv", "baseline.csv"],
  );
  return {
    session,
    readings: {
      presses: films.flatMap((f) => f.presses),
      films: films.map((f) => f.film),
      baseline: drawBaseline(hostSystem, method.baselineShots, randomFor(seed, "baseline")),
      timings: [],
    },
    truth: Object.fromEntries(truths),
  };
}
