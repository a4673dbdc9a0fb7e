import type { RowTotals } from "./run-totals.js";

/** The bar of one line (measurement model, section 8), as shares. */
export const bar = {
  leastCovered: 0.93,
  mostCovered: 0.975,
  /** Above `mostCovered` only where more than this share of u² is of Type B and not normal ... */
  boundedShare: 0.5,
  /** ... and the mean half-width is at most this many times that of the Monte Carlo intervals. */
  widthRatio: 1.25,
  /** Absent, and wrongly given. */
  mostAbsent: 0.02,
  mostGiven: 0.02,
} as const;

/** The figures that a line is judged by; null where nothing stands behind one. */
export interface Figures {
  readonly covered: number | null;
  readonly halfWidth: number | null;
  /** Mean half-width over that of the Monte Carlo intervals, over the results that were drawn. */
  readonly widthRatio: number | null;
  readonly boundedShare: number;
  readonly bias: number;
  readonly rmsError: number;
  readonly absent: number;
  readonly given: number;
}

export function figuresOf({ all }: Pick<RowTotals, "all">): Figures {
  const share = (part: number, whole: number): number => (whole === 0 ? 0 : part / whole);
  const n = all.results;
  return {
    covered: n === 0 ? null : all.covered / n,
    halfWidth: n === 0 ? null : all.halfWidths / n,
    widthRatio: all.monteCarloHalfWidths > 0 ? all.drawnHalfWidths / all.monteCarloHalfWidths : null,
    boundedShare: share(all.boundedShares, n),
    bias: share(all.errors, n),
    rmsError: Math.sqrt(share(all.squaredErrors, n)),
    absent: share(all.absent, n + all.absent),
    given: share(all.given, all.given + all.rightlyAbsent),
  };
}

export interface Slack {
  /** Coverage may lie so far outside the bar by chance alone; default 0. */
  readonly covered?: (results: RowTotals) => number;
}

/** What a line misses, in words; empty where it passes. */
export function missesOf(row: RowTotals, slack: Slack = {}): readonly string[] {
  const figures = figuresOf(row);
  const by = slack.covered?.(row) ?? 0;
  const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
  const misses: string[] = [];
  const { covered, widthRatio } = figures;
  if (covered === null) return ["no result"];
  if (!(covered >= bar.leastCovered - by)) misses.push(`covered below ${percent(bar.leastCovered)}`);
  if (covered > bar.mostCovered + by) {
    const allowed = figures.boundedShare > bar.boundedShare && widthRatio !== null && widthRatio <= bar.widthRatio;
    if (!allowed) misses.push(`covered above ${percent(bar.mostCovered)}`);
  }
  if (!(figures.absent <= bar.mostAbsent + by)) misses.push(`absent above ${percent(bar.mostAbsent)}`);
  if (!(figures.given <= bar.mostGiven + by)) misses.push(`wrongly given above ${percent(bar.mostGiven)}`);
  return misses;
}
