import type { KeyShape } from "./key-shape.js";
import type { PositionEffect } from "./key-positions.js";
import { keyPositions, noPositionEffect, positionForceCn } from "./key-positions.js";
import type { Random } from "./random.js";

/** Standard deviations of what differs between keys of a unit (or, scaled, between units of a model). */
export interface Tolerances {
  readonly preloadCn: number;
  readonly rateRatio: number;
  readonly frictionRatio: number;
  readonly bumpRatio: number;
  readonly makeMm: number;
  readonly differentialMm: number;
  readonly bottomMm: number;
}

export const keyTolerances: Tolerances = {
  preloadCn: 1.1,
  rateRatio: 0.015,
  frictionRatio: 0.08,
  bumpRatio: 0.03,
  makeMm: 0.028,
  differentialMm: 0.014,
  bottomMm: 0.018,
};

export const unitTolerances: Tolerances = {
  preloadCn: 0.9,
  rateRatio: 0.012,
  frictionRatio: 0.05,
  bumpRatio: 0.02,
  makeMm: 0.02,
  differentialMm: 0.01,
  bottomMm: 0.015,
};

/** How the keys of a unit scatter about its own shape. The last two break the model's assumptions on purpose. */
export type KeyScatter = "normal" | "skewed" | "correlated";

/** Moves a shape by one draw of its tolerances. */
export function varied(shape: KeyShape, tolerances: Tolerances, draw: () => number): KeyShape {
  const t = tolerances;
  const make = t.makeMm * draw();
  const rate = 1 + t.rateRatio * draw();
  const bump = 1 + t.bumpRatio * draw();
  return {
    ...shape,
    preloadCn: shape.preloadCn + t.preloadCn * draw(),
    rateCnPerMm: shape.rateCnPerMm * rate,
    frictionCn: shape.frictionCn * (1 + t.frictionRatio * draw()),
    makeMm: shape.makeMm + make,
    breakMm: shape.breakMm + make + t.differentialMm * draw(),
    bottomMm: shape.bottomMm + t.bottomMm * draw(),
    bump: shape.bump && { ...shape.bump, heightCn: shape.bump.heightCn * bump, dipCn: shape.bump.dipCn * bump },
    click: shape.click && { ...shape.click, dropCn: shape.click.dropCn * bump },
  };
}

/** A change of some numbers of a shape, added to what it has. */
export interface ShapeShift {
  readonly forceCn?: number;
  readonly makeMm?: number;
}

/** Adds force to the whole stroke, or moves the contact; a moved contact takes its break point along. */
export function shifted(shape: KeyShape, shift: ShapeShift): KeyShape {
  return {
    ...shape,
    preloadCn: shape.preloadCn + (shift.forceCn ?? 0),
    makeMm: shape.makeMm + (shift.makeMm ?? 0),
    breakMm: shape.breakMm + (shift.makeMm ?? 0),
  };
}

export interface UnitOptions {
  readonly keyTolerances?: Tolerances;
  readonly unitTolerances?: Tolerances;
  readonly position?: PositionEffect;
  readonly scatter?: KeyScatter;
  /** Keys that are unlike the others, beyond every tolerance. */
  readonly odd?: Readonly<Record<string, ShapeShift>>;
}

/** The shapes of all 26 alphabetic keys of one unit: model, then unit, then place, then key. */
export function drawUnit(model: KeyShape, options: UnitOptions, random: Random): ReadonlyMap<string, KeyShape> {
  const unit = varied(model, options.unitTolerances ?? unitTolerances, () => random.normal());
  const position = options.position ?? noPositionEffect;
  const keys = new Map<string, KeyShape>();
  let common = random.normal();
  for (const place of keyPositions) {
    common = 0.8 * common + 0.6 * random.normal();
    const draw = (): number => {
      if (options.scatter === "skewed") return random.exponential(1) - 1;
      if (options.scatter === "correlated") return 0.8 * common + 0.6 * random.normal();
      return random.normal();
    };
    const key = varied(unit, options.keyTolerances ?? keyTolerances, draw);
    const placed = shifted(key, { forceCn: positionForceCn(place, position) });
    keys.set(place.key, shifted(placed, options.odd?.[place.key] ?? {}));
  }
  return keys;
}

/** Press speed at which the base shapes hold, mm/s. */
export const referenceSpeedMmPerS = 0.5;

/**
 * The shape at another press speed: friction and bump grow with the logarithm of the speed, so that a dome at 80 mm/s
 * peaks about an eighth above its quasi-static value (Nagurka and Marklin 2005).
 */
export function atSpeed(shape: KeyShape, speedMmPerS: number): KeyShape {
  if (!(speedMmPerS > 0)) throw new RangeError(`the press speed is ${speedMmPerS} mm/s; it must be above 0`);
  const factor = 1 + 0.057 * Math.log10(speedMmPerS / referenceSpeedMmPerS);
  return {
    ...shape,
    preloadCn: shape.preloadCn * factor,
    frictionCn: shape.frictionCn * factor,
    bump: shape.bump && { ...shape.bump, heightCn: shape.bump.heightCn * factor },
  };
}
