/**
 * The shape of one key: what its force-displacement curve is made of. Positions are measured from the key's free
 * position (keycap at rest, no force) in mm, forces in cN. Plain numbers, so that tolerances can be added to them.
 */
export interface KeyShape {
  /** Force that the key needs before it moves on, reached over the onset. */
  readonly preloadCn: number;
  /** Scale of the onset, tanh(s / onset): the keycap settles. */
  readonly onsetMm: number;
  /** Slope of the spring. */
  readonly rateCnPerMm: number;
  /** Half of the distance between press and release, from the onset to where the contact leaf comes free. */
  readonly frictionCn: number;
  /** Where the leaf comes free, and over which scale. */
  readonly leafFreeMm: number;
  readonly leafWidthMm: number;
  /** Share of the friction that stays after that, from 0 to 1. */
  readonly frictionLeft: number;
  /** Tactile bump of a leaf or dome: a hump and the dip behind it, both Gaussian; null: none. */
  readonly bump: Bump | null;
  /** Click mechanism: a hump that is released at once, and its other way back; null: none. */
  readonly click: Click | null;
  /** The end stop: position, rounding of the knee, slope when it is fully hit. */
  readonly bottomMm: number;
  readonly kneeMm: number;
  readonly stopCnPerMm: number;
  /** Where the contact closes on the press, and opens on the release. */
  readonly makeMm: number;
  readonly breakMm: number;
}

export interface Bump {
  readonly heightCn: number;
  readonly atMm: number;
  readonly widthMm: number;
  readonly dipCn: number;
  readonly dipAtMm: number;
  readonly dipWidthMm: number;
  /** On the release the bump is this much nearer to the free position, and this many times as high. */
  readonly releaseShiftMm: number;
  readonly releaseScale: number;
}

export interface Click {
  /** Force that falls away when the mechanism lets go. */
  readonly dropCn: number;
  readonly atMm: number;
  /** Scale of the fall: it takes about four of these. */
  readonly widthMm: number;
  /** Where the force of the mechanism begins to build up, and over which scale. */
  readonly rampAtMm: number;
  readonly rampWidthMm: number;
  /** On the release: the force is lower by `releaseCn` from the click back to `releaseToMm`. */
  readonly releaseCn: number;
  readonly releaseToMm: number;
}

const fast = {
  onsetMm: 0.07,
  leafWidthMm: 0.11,
  frictionLeft: 0.25,
  kneeMm: 0.011,
  stopCnPerMm: 900,
  bump: null,
  click: null,
} as const;

/** Shapes to start from; the curves of the trade in general, none of a particular product. */
export const baseShapes = {
  linearFull: {
    ...fast,
    preloadCn: 24,
    rateCnPerMm: 8.6,
    frictionCn: 3.2,
    leafFreeMm: 2.45,
    bottomMm: 3.9,
    makeMm: 1.95,
    breakMm: 1.74,
  },
  linearFast: {
    ...fast,
    preloadCn: 29,
    rateCnPerMm: 9.4,
    frictionCn: 2.6,
    leafFreeMm: 1.7,
    bottomMm: 3.5,
    makeMm: 1.18,
    breakMm: 1.02,
  },
  linearLow: {
    ...fast,
    onsetMm: 0.06,
    preloadCn: 30,
    rateCnPerMm: 11.5,
    frictionCn: 3,
    leafFreeMm: 1.85,
    bottomMm: 2.8,
    makeMm: 1.33,
    breakMm: 1.16,
  },
  tactileFull: {
    ...fast,
    preloadCn: 27,
    rateCnPerMm: 7.6,
    frictionCn: 3.6,
    leafFreeMm: 2.5,
    bump: {
      heightCn: 20,
      atMm: 0.78,
      widthMm: 0.38,
      dipCn: 8,
      dipAtMm: 1.82,
      dipWidthMm: 0.33,
      releaseShiftMm: 0.1,
      releaseScale: 0.85,
    },
    bottomMm: 3.8,
    makeMm: 1.98,
    breakMm: 1.66,
  },
  tactileLow: {
    ...fast,
    onsetMm: 0.14,
    preloadCn: 19,
    rateCnPerMm: 6,
    frictionCn: 3.4,
    leafFreeMm: 1.2,
    frictionLeft: 0.3,
    bump: {
      heightCn: 34,
      atMm: 0.48,
      widthMm: 0.27,
      dipCn: 4,
      dipAtMm: 1.12,
      dipWidthMm: 0.18,
      releaseShiftMm: 0.05,
      releaseScale: 0.8,
    },
    kneeMm: 0.018,
    stopCnPerMm: 800,
    bottomMm: 1.85,
    makeMm: 1.22,
    breakMm: 1.02,
  },
  domeFull: {
    ...fast,
    onsetMm: 0.22,
    preloadCn: 20,
    rateCnPerMm: 5.5,
    frictionCn: 4.5,
    leafFreeMm: 2.9,
    leafWidthMm: 0.2,
    frictionLeft: 0.3,
    bump: {
      heightCn: 33,
      atMm: 1.15,
      widthMm: 0.62,
      dipCn: 5,
      dipAtMm: 2.55,
      dipWidthMm: 0.35,
      releaseShiftMm: 0.08,
      releaseScale: 0.75,
    },
    kneeMm: 0.022,
    stopCnPerMm: 750,
    bottomMm: 3.55,
    makeMm: 2.82,
    breakMm: 2.45,
  },
  clickyFull: {
    ...fast,
    preloadCn: 31,
    rateCnPerMm: 8,
    frictionCn: 3,
    leafFreeMm: 2.5,
    click: {
      dropCn: 15,
      atMm: 1.76,
      widthMm: 0.026,
      rampAtMm: 1.22,
      rampWidthMm: 0.09,
      releaseCn: 6,
      releaseToMm: 1.05,
    },
    bottomMm: 3.75,
    makeMm: 1.93,
    breakMm: 1.38,
  },
  clickyLow: {
    ...fast,
    onsetMm: 0.06,
    preloadCn: 33,
    rateCnPerMm: 9,
    frictionCn: 2.8,
    leafFreeMm: 1.75,
    click: {
      dropCn: 13,
      atMm: 1.02,
      widthMm: 0.024,
      rampAtMm: 0.62,
      rampWidthMm: 0.07,
      releaseCn: 5,
      releaseToMm: 0.5,
    },
    bottomMm: 2.7,
    makeMm: 1.16,
    breakMm: 0.74,
  },
} as const satisfies Readonly<Record<string, KeyShape>>;

export type BaseShapeName = keyof typeof baseShapes;
