import type { Stroke } from "../../src/records/readings.js";
import type { EvidenceRows } from "../../src/metrology/evidence.js";
import type { KeyCurve } from "./key-curve.js";
import { turnForceCn } from "./key-curve.js";
import type { Random } from "./random.js";

/** What is really wrong with a tester on the day; a reading is corrected exactly by these. */
export interface TesterErrors {
  /** True force = reading x span + zero. */
  readonly forceSpan: number;
  readonly forceZeroCn: number;
  /** True displacement = reading x scale - compliance x force. */
  readonly displacementScale: number;
  readonly complianceMmPerCn: number;
}

export const perfectTester: TesterErrors = {
  forceSpan: 1,
  forceZeroCn: 0,
  displacementScale: 1,
  complianceMmPerCn: 0,
};

/** How a tester moves and reads. */
export interface TesterSetting {
  readonly speedMmPerS: number;
  /** Way between two readings at full speed. */
  readonly stepMm: number;
  readonly displacementResolutionMm: number;
  /** In cN; a gram-force channel of 0.1 gf has 0.0980665 cN. */
  readonly forceResolutionCn: number;
  /** Standard deviation of a force reading. */
  readonly forceNoiseCn: number;
  /** Roughness of the key, new in each stroke: standard deviation, and the way over which it holds. */
  readonly roughnessCn: number;
  readonly roughnessMm: number;
  /** Way before the probe meets the key: least and most. */
  readonly gapMm: readonly [number, number];
  /** Readings at rest: before the press, and at the turn. */
  readonly dwellRows: number;
  /** Share of readings without motion since the last. */
  readonly stallShare: number;
}

export const testerSetting: TesterSetting = {
  speedMmPerS: 0.5,
  stepMm: 0.01,
  displacementResolutionMm: 0.005,
  forceResolutionCn: 0.1,
  forceNoiseCn: 0.08,
  roughnessCn: 0.12,
  roughnessMm: 0.06,
  gapMm: [0.15, 0.32],
  dwellRows: 8,
  stallShare: 0.015,
};

/** How the contact is known: at once from the wire, or late from the keyboard's report; or not at all. */
export type ContactWatch =
  | { readonly source: "electrical" }
  | { readonly source: "report"; readonly delayMs: () => number }
  | { readonly source: "none" };

export interface RecordOptions {
  /** Way before the probe meets the key, the same in all cycles of a key but for the scatter; default: drawn. */
  readonly gapMm?: number;
  readonly errors?: TesterErrors;
  readonly setting?: TesterSetting;
  readonly watch?: ContactWatch;
  /** The probe slips off at this position, until the turn. */
  readonly slipAtMm?: number;
  readonly withoutRelease?: boolean;
  /** The contact flickers over this way after every change. */
  readonly chatterMm?: number;
}

/** The way before the probe meets a key, which depends on the keycap's height. */
export function drawGapMm(setting: TesterSetting, random: Random): number {
  return random.between(setting.gapMm[0], setting.gapMm[1]);
}

/** Where an invented reading stands: nowhere. Files of an archive give their own lines. */
export const simulatedRows: EvidenceRows = { kind: "rows", file: "simulated", firstLine: 1, lastLine: 1, columns: [] };

class Channel {
  readonly displacement: number[] = [];
  readonly force: number[] = [];
  readonly contact: number[] = [];
}

/**
 * Records one cycle of a key as a force tester does: the probe starts above the key, moves down in nearly equal steps,
 * meets it, goes on into the stop until the force to turn at, rests, and comes back to where it started. The frame gives
 * way under the force; readings are rounded to the tester's steps.
 */
export function recordCycle(
  curve: KeyCurve,
  key: string,
  cycle: number,
  random: Random,
  options: RecordOptions = {},
): readonly Stroke[] {
  const setting = options.setting ?? testerSetting;
  const errors = options.errors ?? perfectTester;
  const watch = options.watch ?? { source: "electrical" };
  const gap = (options.gapMm ?? drawGapMm(setting, random)) + 0.004 * random.normal();
  const keep = Math.exp(-setting.stepMm / setting.roughnessMm);
  const fresh = Math.sqrt(1 - keep * keep);
  let roughness = random.normal();
  let driven = 0;
  let position = -gap;
  let force = 0;
  let closed = false;
  let changedAtMm = -Infinity;
  const lateMm = watch.source === "report" ? (watch.delayMs() / 1000) * setting.speedMmPerS : 0;
  const slip = options.slipAtMm ?? Infinity;
  /** Where the key is when the probe is at x: behind, after the probe slipped off. */
  const followed = (x: number): number => (x > slip ? slip + (x - slip) * 0.35 : x);
  const share = (x: number): number => (x > slip ? 0.6 : 1);

  const settle = (f: (x: number) => number): void => {
    for (let i = 0; i < 3; i++) {
      position = driven - gap - errors.complianceMmPerCn * force;
      force = f(position);
    }
  };
  const read = (channel: Channel, closes: (x: number) => boolean): void => {
    const rough = force > 0 ? roughness * setting.roughnessCn * Math.min(1, force / 10) : 0;
    const noisy = force + rough + setting.forceNoiseCn * random.normal();
    const reading = (noisy - errors.forceZeroCn) / errors.forceSpan;
    const fine = setting.displacementResolutionMm;
    channel.displacement.push(Math.round(driven / errors.displacementScale / fine) * fine);
    channel.force.push(Math.round(reading / setting.forceResolutionCn) * setting.forceResolutionCn);
    const now = closes(followed(position));
    if (now !== closed) {
      closed = now;
      changedAtMm = driven;
    }
    const flickers = Math.abs(driven - changedAtMm) < (options.chatterMm ?? 0) && random.chance(0.4);
    channel.contact.push(now !== flickers ? 1 : 0);
  };
  const move = (step: number, f: (x: number) => number): void => {
    driven += step;
    roughness = keep * roughness + fresh * random.normal();
    settle(f);
  };
  const step = (i: number): number => {
    if (random.chance(setting.stallShare)) return 0;
    const speeding = Math.min(1, (i + 1) / 5);
    return setting.stepMm * speeding * (1 + 0.08 * random.normal());
  };

  const press = new Channel();
  const pressCn = (x: number): number => share(x) * curve.pressCn(followed(x));
  const releaseCn = (x: number): number => share(x) * curve.releaseCn(followed(x));
  const closesOnPress = (x: number): boolean => curve.closedOnPress(x - lateMm);
  const closesOnRelease = (x: number): boolean => curve.closedOnRelease(x + lateMm);
  for (let i = 0; i < setting.dwellRows; i++) read(press, closesOnPress);
  for (let i = 0; force < turnForceCn && position < curve.deepestMm + 0.02; i++) {
    move(step(i), pressCn);
    read(press, closesOnPress);
  }
  for (let i = 0; i < setting.dwellRows / 2; i++) {
    force *= 0.9985;
    read(press, closesOnPress);
  }
  const release = new Channel();
  for (let i = 0; i < setting.dwellRows / 2; i++) {
    force *= 0.9985;
    read(release, closesOnRelease);
  }
  for (let i = 0; driven > 0; i++) {
    move(-step(i), releaseCn);
    read(release, closesOnRelease);
  }
  const stroke = (name: Stroke["stroke"], channel: Channel): Stroke => ({
    key,
    cycle,
    stroke: name,
    displacementMm: Float64Array.from(channel.displacement),
    forceCn: Float64Array.from(channel.force),
    contact: watch.source === "none" ? null : Uint8Array.from(channel.contact),
    displacementStepMm: setting.displacementResolutionMm,
    forceStepCn: setting.forceResolutionCn,
    evidence: simulatedRows,
  });
  return options.withoutRelease ? [stroke("press", press)] : [stroke("press", press), stroke("release", release)];
}
