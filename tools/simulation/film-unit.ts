import type { KeystrokeMethod, LatencyMethod, Rig, Session } from "../../src/records/archive.js";
import type { LatencyReadings } from "../../src/records/readings.js";
import type { ChainName } from "./chains.js";
import { chains } from "./chains.js";
import { describedSession } from "./described.js";
import type { FilmSetup, Reader } from "./film.js";
import { drawFilm } from "./film.js";
import { drawBaseline, hostSystem } from "./host-system.js";
import { keyCurve } from "./key-curve.js";
import type { KeyShape } from "./key-shape.js";
import type { LatencyTruth } from "./latency-truth.js";
import { latencyTruth } from "./latency-truth.js";
import { randomFor } from "./random.js";
import { drawCameraErrors } from "./rig-errors.js";
import type { SimulateUnitOptions } from "./simulate-unit.js";
import { definitionOf, truthOf } from "./truth.js";

/** A film session of a simulated unit. */
export interface Filmed {
  readonly session: Session;
  readonly readings: LatencyReadings;
  readonly truth: Readonly<Record<string, LatencyTruth>>;
}

/** Films the key F of a simulated unit over its connections; null where there are none. */
export function filmUnit(
  seed: number,
  options: SimulateUnitOptions,
  connections: readonly ChainName[],
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
