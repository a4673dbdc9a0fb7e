/** What many results of one line came to, as sums, so that the parts of a run can be added. */
export interface Tally {
  /** Results that there are and should be. */
  readonly results: number;
  readonly covered: number;
  /** Truth below, and above the interval. */
  readonly below: number;
  readonly above: number;
  /** Sums over the results: half-width, result minus truth and its square, share of u² of Type B and not normal. */
  readonly halfWidths: number;
  readonly errors: number;
  readonly squaredErrors: number;
  readonly boundedShares: number;
  /** Results whose components were drawn as well, with their half-widths and those of the Monte Carlo intervals. */
  readonly drawn: number;
  readonly drawnHalfWidths: number;
  readonly monteCarloHalfWidths: number;
  /** Truth is defined, result is absent; truth is not defined, result is given; neither. */
  readonly absent: number;
  readonly given: number;
  readonly rightlyAbsent: number;
}

export const emptyTally: Tally = {
  results: 0,
  covered: 0,
  below: 0,
  above: 0,
  halfWidths: 0,
  errors: 0,
  squaredErrors: 0,
  boundedShares: 0,
  drawn: 0,
  drawnHalfWidths: 0,
  monteCarloHalfWidths: 0,
  absent: 0,
  given: 0,
  rightlyAbsent: 0,
};

export function addTallies(a: Tally, b: Tally): Tally {
  return Object.fromEntries(
    (Object.keys(emptyTally) as (keyof Tally)[]).map((name) => [name, a[name] + b[name]]),
  ) as unknown as Tally;
}

/** A result as an interval about a value. */
export interface Interval {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** Share of u² that comes from components of Type B that are not normal. */
  readonly boundedShare: number;
  /** Half-width of the Monte Carlo interval; null where it was not drawn. */
  readonly monteCarloHalfWidth: number | null;
}

/** Tally of one result against its truth; null stands for absent, and for not defined. Ends count as covered. */
export function tallyOf(interval: Interval | null, truth: number | null): Tally {
  if (interval === null || truth === null) {
    return {
      ...emptyTally,
      absent: truth === null ? 0 : 1,
      given: interval === null ? 0 : 1,
      rightlyAbsent: interval === null && truth === null ? 1 : 0,
    };
  }
  if (!(interval.low <= interval.high) || !Number.isFinite(truth)) {
    throw new RangeError(`the interval from ${interval.low} to ${interval.high} cannot be held against ${truth}`);
  }
  const halfWidth = (interval.high - interval.low) / 2;
  const drawn = interval.monteCarloHalfWidth;
  return {
    ...emptyTally,
    results: 1,
    covered: truth >= interval.low && truth <= interval.high ? 1 : 0,
    below: truth < interval.low ? 1 : 0,
    above: truth > interval.high ? 1 : 0,
    halfWidths: halfWidth,
    errors: interval.value - truth,
    squaredErrors: (interval.value - truth) ** 2,
    boundedShares: interval.boundedShare,
    drawn: drawn === null ? 0 : 1,
    drawnHalfWidths: drawn === null ? 0 : halfWidth,
    monteCarloHalfWidths: drawn ?? 0,
  };
}
