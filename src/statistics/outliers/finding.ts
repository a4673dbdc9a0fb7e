/** What an outlier test finds; nothing is ever removed. */
export interface OutlierFinding {
  /** The rule in words, with its side and level. */
  readonly rule: string;
  readonly statistic: number;
  readonly critical: number;
  /** Probability of a statistic at least as extreme where there is no outlier. */
  readonly pValue: number;
  /** Place of the suspect value. */
  readonly suspect: number;
  readonly suspectValue: number;
  readonly isOutlier: boolean;
  readonly n: number;
}

/** Shape of a finding for `lift`. */
export const findingShape = {
  rule: "text",
  statistic: "statistic",
  critical: "statistic",
  pValue: "statistic",
  suspect: "position",
  suspectValue: "same",
  isOutlier: "flag",
  n: "count",
} as const;

/** Exact weights of a finding's suspect value, so that a costly test is not repeated at moved values. */
export function suspectWeights(
  values: readonly number[],
  finding: OutlierFinding,
): { suspectValue: readonly number[] } {
  return { suspectValue: values.map((_, i) => (i === finding.suspect ? 1 : 0)) };
}

export type Side = "two-sided" | "largest" | "smallest";

/** Place of the largest (or smallest) value; the first of equal ones. */
export function placeOf(values: readonly number[], side: "largest" | "smallest"): number {
  let place = 0;
  values.forEach((value, i) => {
    const best = values[place]!;
    if (side === "largest" ? value > best : value < best) place = i;
  });
  return place;
}
