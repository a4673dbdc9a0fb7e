import type { CheckRow } from "./archive-plan.js";
import { everyDays } from "./calendar.js";
import type { Random } from "./random.js";

/** One kind of check, repeated at a fixed number of days: results are normal about the reference unless `bias` moves them. */
export interface CheckSeries {
  readonly kind: string;
  /** Check standard and its characteristic; empty where no unit is measured. */
  readonly unit?: string;
  readonly characteristic?: string;
  readonly reference: number;
  readonly u: number;
  readonly symbol: string;
  readonly decimals: number;
  readonly everyDays: number;
  /** What the result is off by on a date, besides chance. */
  readonly bias?: (date: string) => number;
}

/** Checks of a rig between two dates, by date and, on one day, in the order of the series. */
export function drawChecks(
  series: readonly CheckSeries[],
  from: string,
  to: string,
  random: Random,
): readonly CheckRow[] {
  return series
    .flatMap((s, order) =>
      everyDays(from, to, s.everyDays).map((date) => ({
        order,
        row: {
          date,
          kind: s.kind,
          unit: s.unit ?? "",
          characteristic: s.characteristic ?? "",
          value: s.reference + s.u * random.normal() + (s.bias?.(date) ?? 0),
          u: s.u,
          reference: s.reference,
          symbol: s.symbol,
          decimals: s.decimals,
        },
      })),
    )
    .sort((a, b) => (a.row.date === b.row.date ? a.order - b.order : a.row.date < b.row.date ? -1 : 1))
    .map(({ row }) => row);
}

/** The checks of a force tester: a check standard every week, zero and span every four weeks. */
export function testerSeries(
  standard: { readonly unit: string; readonly forceCn: number; readonly preTravelMm: number },
  spanBias: (date: string) => number = () => 0,
): readonly CheckSeries[] {
  const { unit, forceCn, preTravelMm } = standard;
  return [
    {
      kind: "check_standard",
      unit,
      characteristic: "actuation_force",
      reference: forceCn,
      u: 0.12,
      symbol: "cN",
      decimals: 2,
      everyDays: 7,
      bias: (date) => forceCn * spanBias(date),
    },
    {
      kind: "check_standard",
      unit,
      characteristic: "pre_travel",
      reference: preTravelMm,
      u: 0.004,
      symbol: "mm",
      decimals: 4,
      everyDays: 7,
    },
    { kind: "force_zero", reference: 0, u: 0.03, symbol: "cN", decimals: 3, everyDays: 28 },
    { kind: "force_span", reference: 1, u: 0.0008, symbol: "1", decimals: 5, everyDays: 28, bias: spanBias },
  ];
}

/** The checks of a camera rig: frame clock, speed and acceleration of the plunger every two weeks. */
export function cameraSeries(speedMmPerS: number): readonly CheckSeries[] {
  return [
    { kind: "frame_clock", reference: 1, u: 0.00002, symbol: "1", decimals: 6, everyDays: 14 },
    { kind: "plunger_speed", reference: speedMmPerS, u: 0.5, symbol: "mm/s", decimals: 2, everyDays: 14 },
    { kind: "plunger_acceleration", reference: 0, u: 0.003, symbol: "1", decimals: 4, everyDays: 14 },
  ];
}

/** The checks of a timer: its clock every four weeks. */
export const clockSeries: readonly CheckSeries[] = [
  { kind: "frame_clock", reference: 1, u: 0.000005, symbol: "1", decimals: 7, everyDays: 28 },
];
