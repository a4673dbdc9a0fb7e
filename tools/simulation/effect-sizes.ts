/** Stated sizes of the effects that archives can hold on purpose. */
export const effectSizes = {
  /** One key harder than its neighbours. */
  outlierKeyCn: 10,
  /** A unit whose keys all became softer between two sessions, and one whose contacts close later. */
  movedForceCn: -5,
  movedPreTravelMm: 0.2,
  /** Row B harder than C and D: in every unit, and in one unit alone. */
  positionCn: 2,
  unitPositionCn: 8,
  /** Excess of the first recorded cycle; halves with each cycle. */
  firstCycleCn: 0.5,
  /** Rise of a force tester's span. */
  spanRatio: 0.012,
  /** One operator of the crossed study. */
  operatorCn: 0.6,
  operatorMm: -0.012,
  /** One reader of film, at the response. */
  readerFrames: 0.25,
} as const;
