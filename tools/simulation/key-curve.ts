import type { KeyShape } from "./key-shape.js";

/**
 * A key without any noise: force and contact on the way down and on the way up, at every position from the free
 * position (0 mm) on. Nothing else about the key is known to whoever measures it or defines its truth.
 */
export interface KeyCurve {
  readonly pressCn: (positionMm: number) => number;
  readonly releaseCn: (positionMm: number) => number;
  readonly closedOnPress: (positionMm: number) => boolean;
  readonly closedOnRelease: (positionMm: number) => boolean;
  /** Deepest position that a press goes to. */
  readonly deepestMm: number;
}

const logistic = (x: number): number => (x > 30 ? 1 : x < -30 ? 0 : 1 / (1 + Math.exp(-x)));
const softplus = (x: number): number => (x > 30 ? x : x < -30 ? 0 : Math.log1p(Math.exp(x)));
const gauss = (x: number): number => (x > 6 || x < -6 ? 0 : Math.exp(-0.5 * x * x));

/** The force at which the press is turned round: well into the stop, as testers do. */
export const turnForceCn = 180;

/**
 * The curve of a shape. The press is spring + friction + bump or click + stop; the release is the same with the
 * friction against the motion and the bump's or the click's own way back. Friction fades before the stop, so that both
 * strokes share it. Force is 0 above the free position.
 */
export function keyCurve(shape: KeyShape): KeyCurve {
  const s = shape;
  const spring = (x: number, onset: number): number =>
    s.preloadCn * onset + s.rateCnPerMm * x + s.stopCnPerMm * s.kneeMm * softplus((x - s.bottomMm) / s.kneeMm);
  const friction = (x: number, onset: number): number =>
    s.frictionCn *
    onset *
    (1 - (1 - s.frictionLeft) * logistic((x - s.leafFreeMm) / s.leafWidthMm)) *
    (1 - logistic((x - s.bottomMm + 0.09) / 0.025));
  const pressExtra = (x: number): number => {
    let extra = 0;
    if (s.bump) {
      const b = s.bump;
      extra += b.heightCn * gauss((x - b.atMm) / b.widthMm) - b.dipCn * gauss((x - b.dipAtMm) / b.dipWidthMm);
    }
    if (s.click) {
      const c = s.click;
      extra += c.dropCn * logistic((x - c.rampAtMm) / c.rampWidthMm) * (1 - logistic((x - c.atMm) / c.widthMm));
    }
    return extra;
  };
  const releaseExtra = (x: number): number => {
    let extra = 0;
    if (s.bump) {
      const b = s.bump;
      const y = x + b.releaseShiftMm;
      extra +=
        b.heightCn * b.releaseScale * gauss((y - b.atMm) / b.widthMm) - b.dipCn * gauss((y - b.dipAtMm) / b.dipWidthMm);
    }
    if (s.click) {
      const c = s.click;
      extra -= c.releaseCn * logistic((x - c.releaseToMm) / 0.06) * (1 - logistic((x - c.atMm) / 0.06));
    }
    return extra;
  };
  const settled = (x: number, onset: number): number => (x > 12 * s.onsetMm ? 1 : onset);
  const pressCn = (x: number): number => {
    if (!(x > 0)) return 0;
    const onset = settled(x, Math.tanh(x / s.onsetMm));
    return spring(x, onset) + friction(x, onset) + onset * pressExtra(x);
  };
  const releaseCn = (x: number): number => {
    if (!(x > 0)) return 0;
    const onset = settled(x, Math.tanh(x / s.onsetMm));
    return spring(x, onset) - friction(x, onset) + onset * releaseExtra(x);
  };
  let deepestMm = s.bottomMm;
  while (pressCn(deepestMm) < turnForceCn) deepestMm += 0.002;
  return {
    pressCn,
    releaseCn,
    closedOnPress: (x) => x >= s.makeMm,
    closedOnRelease: (x) => x >= s.breakMm,
    deepestMm,
  };
}
