import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import type { CycleReduction, KeyCharacteristics, KeyReduction } from "../../src/keystroke/model.js";
import { evidenceStep } from "../../src/metrology/evidence.js";
import { Absent, Quantity, type Measured } from "../../src/metrology/quantity.js";
import { normalSource, observedSource } from "../../src/metrology/source.js";

/** Invented keys for the sheet of figures and for golden files; no record stands behind them. */

/** Seeded scatter: uniform on (0, 1), and near-normal as a sum of twelve. */
export function scatter(seed: number): { uniform: () => number; normal: () => number } {
  const generator = xoroshiro128plus(seed);
  const uniform = (): number => (generator.next() >>> 0) / 2 ** 32;
  return { uniform, normal: () => Array.from({ length: 12 }, uniform).reduce((total, value) => total + value, -6) };
}

/** A quantity with one component of scatter and one that all of its symbol share. */
export function measured<S extends string>(value: number, symbol: S, u: number, id: string, dof = 8): Quantity<S> {
  return new Quantity(
    value,
    symbol,
    [
      { source: observedSource(`scatter/${id}`, "Scatter of the cycles", u * 0.8, symbol, dof), contribution: u * 0.8 },
      { source: normalSource(`rig/${symbol}`, "Calibration of the rig", 1, symbol), contribution: u * 0.6 },
    ],
    evidenceStep("invented for the sheet of figures", []),
  );
}

export const eightKeys = ["KeyA", "KeyE", "KeyF", "KeyI", "KeyN", "KeyP", "KeyT", "KeyZ"] as const;

interface Shape {
  readonly springCn: number;
  readonly stiffness: number;
  readonly bump: number;
  readonly travel: number;
  readonly actuation: number;
}

function force(shape: Shape, mm: number): number {
  const spring = shape.springCn * (1 - Math.exp(-mm / 0.08)) + shape.stiffness * mm;
  const peak = shape.bump * Math.exp(-(((mm - 0.72) / 0.36) ** 2));
  const wall = mm > shape.travel ? (mm - shape.travel) * 900 : 0;
  return mm <= 0 ? 0 : spring + peak + wall;
}

/** Eight keys of one invented unit; KeyP is heavier than the others. `tactile` gives them a bump. */
export function sampleKeys(kind: "tactile" | "linear" = "tactile"): readonly KeyReduction[] {
  const { normal } = scatter(kind === "tactile" ? 11 : 12);
  return eightKeys.map((key) => {
    const shape: Shape = {
      springCn: 30 + 0.8 * normal() + (key === "KeyP" ? 7 : 0),
      stiffness: 7 + 0.15 * normal(),
      bump: kind === "tactile" ? 16 + 0.7 * normal() : 0,
      travel: 3.6 + 0.03 * normal(),
      actuation: 1.92 + 0.03 * normal(),
    };
    const cycles = [1, 2, 3].map((cycle) => sampleCycle(key, cycle, shape, kind));
    return {
      key,
      ...cycles[1]!.characteristics,
      curveKind: kind,
      cycles,
      medianCycle: 2,
      evidence: evidenceStep("invented key", []),
    };
  });
}

function sampleCycle(key: string, cycle: number, shape: Shape, kind: "tactile" | "linear"): CycleReduction {
  const steps = Array.from({ length: 381 }, (_, step) => step / 100);
  const bottom = steps.filter((mm) => mm <= shape.travel + 0.02);
  const loss = (mm: number): number =>
    mm <= 0 ? 0 : 7 * Math.min(1, mm / 0.2) * Math.min(1, (shape.travel + 0.03 - mm) / 0.25);
  return {
    key,
    cycle,
    used: true,
    reason: "",
    characteristics: characteristics(key, shape, kind),
    curve: {
      press: bottom.map((mm): [number, number] => [mm, force(shape, mm)]),
      release: [...bottom]
        .reverse()
        .map((mm): [number, number] => [mm, Math.max(0, force(shape, mm - 0.05) - loss(mm))]),
    },
    flags: [],
    evidence: evidenceStep("invented cycle", []),
  };
}

function characteristics(key: string, shape: Shape, kind: "tactile" | "linear"): KeyCharacteristics {
  const at = shape.actuation;
  const reset = at - 0.34;
  const tactile = <S extends string>(value: number, symbol: S, u: number, name: string): Measured<S> =>
    kind === "tactile"
      ? measured(value, symbol, u, `${key}/${name}`)
      : new Absent(symbol, "no local peak of at least 3 cN before actuation");
  return {
    preTravel: measured(at, "mm", 0.012, `${key}/pre`),
    actuationForce: measured(force(shape, at), "cN", 0.5, `${key}/force`),
    operatingForce: tactile(force(shape, 0.7), "cN", 0.55, "operating"),
    peakPosition: tactile(0.7, "mm", 0.02, "peak-at"),
    peakForce: tactile(force(shape, 0.7), "cN", 0.55, "peak"),
    valleyPosition: tactile(1.42, "mm", 0.03, "valley-at"),
    valleyForce: tactile(force(shape, 1.42), "cN", 0.5, "valley"),
    tactileRatio: tactile(1 - force(shape, 1.42) / force(shape, 0.7), "1", 0.01, "ratio"),
    resetPoint: measured(reset, "mm", 0.015, `${key}/reset`),
    resetForce: measured(force(shape, reset - 0.05) - 7, "cN", 0.6, `${key}/reset-force`),
    differentialTravel: measured(0.34, "mm", 0.012, `${key}/differential`),
    totalTravel: measured(shape.travel, "mm", 0.015, `${key}/total`),
    bottomOutForce: measured(force(shape, shape.travel), "cN", 0.8, `${key}/bottom`),
    stiffness: measured(shape.stiffness, "cN/mm", 0.1, `${key}/stiffness`),
    workToActuate: measured(0.85, "mJ", 0.02, `${key}/work`),
    workToBottom: measured(1.8, "mJ", 0.03, `${key}/work-bottom`),
    hysteresisLoss: measured(0.21, "mJ", 0.02, `${key}/loss`),
  };
}
