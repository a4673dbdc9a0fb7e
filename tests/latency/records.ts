import type { EvidenceRows } from "../../src/metrology/evidence.js";
import { Quantity } from "../../src/metrology/quantity.js";
import { normalSource } from "../../src/metrology/source.js";
import type { CalibrationTerm, LatencyMethod, Stated } from "../../src/records/archive.js";
import type { BaselineShot, Film, LatencyReadings, PressReading, Timing } from "../../src/records/readings.js";
import type { LatencyContext } from "../../src/latency/context.js";

/** Records by hand, for the tests: invented unit, rig and session. */

export function rows(file: string, line: number, columns: readonly string[] = []): EvidenceRows {
  return { kind: "rows", file, firstLine: line, lastLine: line, columns };
}

export function stated<S extends string>(value: number, symbol: S): Stated<S> {
  return { value, symbol, evidence: rows("stated.yaml", 1) };
}

export function term(
  value: number,
  u: number,
  symbol: string,
  distribution: CalibrationTerm["distribution"] = "normal",
): CalibrationTerm {
  return { value: stated(value, symbol), u: stated(u, symbol), distribution };
}

export function filmMethod(changes: Partial<LatencyMethod> = {}): LatencyMethod {
  return {
    id: "latency@1",
    kind: "latency",
    title: "Latency from film of a driven plunger and the screen",
    since: "2026-03-02",
    notes: [],
    file: "methods/latency-1.yaml",
    evidence: rows("methods/latency-1.yaml", 1),
    observes: "film",
    presses: 14,
    kept: 11,
    minPresses: 9,
    subtract: ["pc", "display"],
    subtractTravel: true,
    baselineShots: 20,
    frameRate: stated(1000, "Hz"),
    compares: "all",
    ...changes,
  };
}

export const calibrationTerms: Readonly<Record<string, CalibrationTerm>> = {
  frameClock: term(1, 0.00005, "1"),
  plungerSpeed: term(120, 2, "mm/s"),
  plungerAcceleration: term(0, 0.02, "1", "rectangular"),
  detectorOffset: term(0, 0.6, "ms", "rectangular"),
  inputPath: term(0, 0.5, "ms", "rectangular"),
};

/** Pre-travel of 2 mm with the tester's displacement scale, shared, and the key's own scatter. */
export function preTravelOf(key: string, valueMm = 2, ownMm = 0.02): Quantity<"mm"> {
  const scale = normalSource(
    "rig/tester-1/2025-11-03/displacement-scale",
    "Displacement scale of the tester",
    0.001,
    "1",
  );
  const own = normalSource(`stroke/u07/s1/${key}/pre-travel`, `Repeats of ${key}`, ownMm, "mm");
  return new Quantity(
    valueMm,
    "mm",
    [
      { source: scale, contribution: valueMm * scale.u },
      { source: own, contribution: own.u },
    ],
    rows("units/u07/s1/force.csv", 2),
  );
}

export function contextOf(changes: Partial<LatencyContext> = {}): LatencyContext {
  return {
    unit: "u07",
    session: "s2",
    method: filmMethod(),
    rig: {
      id: "camera-1",
      calibration: { date: "2026-01-12", terms: calibrationTerms, evidence: rows("rigs/camera-1/rig.yaml", 5) },
    },
    settings: {
      usb: {
        pollingSet: "1000 Hz",
        pollingMeasured: stated(998, "Hz"),
        debounce: "not adjustable",
        adapter: "none",
      },
    },
    refreshRate: stated(240, "Hz"),
    pressInterval: stated(1370, "ms"),
    pressIntervalJitter: stated(120, "ms"),
    nominalPlungerSpeed: stated(120, "mm/s"),
    testerSpeed: stated(0.5, "mm/s"),
    preTravel: { KeyF: { preTravel: preTravelOf("KeyF"), of: "pressed_key" } },
    ...changes,
  };
}

/** A context whose rig has the given terms instead of its own. */
export function withTerms(terms: Readonly<Record<string, CalibrationTerm>>, changes: Partial<LatencyContext> = {}) {
  const base = contextOf(changes);
  return { ...base, rig: { ...base.rig, calibration: { ...base.rig.calibration!, terms } } };
}

export function film(clip = "c1", frameRateHz = 1000): Film {
  return {
    clip,
    file: `${clip}.film`,
    sha256: "0".repeat(64),
    frameRateHz,
    firstPress: 1,
    lastPress: 99,
    evidence: rows("units/u07/s2/films.csv", 2),
  };
}

export function press(number: number, changes: Partial<PressReading> = {}): PressReading {
  return {
    connection: "usb",
    key: "KeyF",
    clip: "c1",
    press: number,
    reader: "reader-a",
    contactFrame: 0,
    markFrame: null,
    responseFrame: 50,
    outcome: "ok",
    excluded: "",
    evidence: rows("units/u07/s2/presses.csv", number + 1),
    ...changes,
  };
}

/** Contact times whose intervals wander by up to 120 ms about 1370 ms, without any random number. */
export function wanderingContact(index: number): number {
  return index * 1370 + Math.round(240 * ((index * 0.618034) % 1));
}

/** One press a latency in frames, contact frames wandering. */
export function pressesOf(frames: readonly number[], changes: Partial<PressReading> = {}): readonly PressReading[] {
  return frames.map((count, i) => {
    const contactFrame = wanderingContact(i);
    return press(i + 1, { contactFrame, responseFrame: contactFrame + count, ...changes });
  });
}

export function shot(block: string, number: number, changes: Partial<BaselineShot> = {}): BaselineShot {
  return {
    block,
    shot: number,
    inputMs: 2,
    pcMs: 3,
    displayMs: 10,
    totalMs: 15,
    detector: "photodiode",
    evidence: rows("units/u07/s2/baseline.csv", number + 1),
    ...changes,
  };
}

/** Two blocks of shots whose display part scatters by ±spread about 10 ms. */
export function baselineOf(count = 20, spreadMs = 1, shiftMs = 0): readonly BaselineShot[] {
  return ["before", "after"].flatMap((block, b) =>
    Array.from({ length: count }, (_, i) => {
      const displayMs = 10 + b * shiftMs + (i % 2 === 0 ? spreadMs : -spreadMs);
      return shot(block, b * count + i + 1, { displayMs, totalMs: 5 + displayMs });
    }),
  );
}

export function timing(number: number, startUs: number, arrivalUs: number, excluded = ""): Timing {
  return {
    connection: "usb",
    press: number,
    startUs,
    arrivalUs,
    excluded,
    evidence: rows("t/timings.csv", number + 1),
  };
}

export function readings(changes: Partial<LatencyReadings> = {}): LatencyReadings {
  return { presses: [], films: [film()], baseline: baselineOf(), timings: [], ...changes };
}

/** Deeply frozen, so that a reduction which writes to its input throws. */
export function frozen<T>(value: T): T {
  if (typeof value === "object" && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value);
    Object.values(value).forEach(frozen);
  }
  return value;
}
