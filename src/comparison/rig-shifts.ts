import { Absent, derive, difference, isQuantity, linear } from "../metrology/index.js";
import type { Measured, Quantity } from "../metrology/index.js";
import type { DoubtfulSpan } from "./doubtful-spans.js";
import { doubtfulSpans, isoDay } from "./doubtful-spans.js";
import type { DriftConsequence } from "./drift-consequence.js";
import { driftConsequences } from "./drift-consequence.js";
import type { RigCheckResult, RigHistory } from "./rig-failures.js";
import { failedRigChecks } from "./rig-failures.js";

/** A result that a rig gave, with what of it the rig's terms act on. */
export interface RigResult {
  readonly name: string;
  readonly measured: Measured;
  /** Of a latency: the observed time, and the travel that was subtracted. */
  readonly film?: Measured<"ms">;
  readonly travel?: Measured<"ms">;
}

/** What a rig had too high, and when, as its failed checks tell. */
export interface RigShift<Check extends RigCheckResult = RigCheckResult> {
  /** "span of the force". */
  readonly watch: string;
  readonly span: DoubtfulSpan<Check>;
  /** Mean of the failed checks, weighted by their uncertainty: a share of the reading (symbol 1), or an amount. */
  readonly shift: Quantity;
  /** Names the shift in budgets. */
  readonly id: string;
  /** Whether a check watches what has shifted. */
  readonly sees: (check: RigCheckResult) => boolean;
  /** Whether it bears on a result at all. */
  readonly touches: (result: RigResult) => boolean;
  /** How much too high it makes a result. */
  readonly effect: (result: RigResult) => Measured;
}

interface Watch {
  readonly name: string;
  readonly sees: (check: RigCheckResult) => boolean;
  /** A shift in proportion to what is measured; otherwise by a fixed amount. */
  readonly isRelative: boolean;
  readonly touches: (result: RigResult) => boolean;
  readonly effect: (result: RigResult, shift: Quantity) => Measured;
}

const inProportion = ({ measured }: RigResult, shift: Quantity): Measured =>
  derive([measured, shift], ([value, share]) => (value * share) / (1 + share), measured.symbol);
const isLatency = ({ film }: RigResult): boolean => film !== undefined;
const isForce = ({ measured }: RigResult): boolean => ["cN", "cN/mm", "mJ"].includes(measured.symbol);
const ofLatency =
  (part: "film" | "travel", sign: 1 | -1) =>
  (result: RigResult, shift: Quantity): Measured => {
    const time = result[part];
    if (time === undefined) return new Absent("ms", `the ${part} of this latency is not known`);
    return derive([time, shift], ([ms, share]) => sign * ms * share, "ms");
  };

const known: readonly Watch[] = [
  {
    name: "span of the force",
    sees: ({ kind, value }) => kind === "force_span" || (kind === "check_standard" && value.symbol === "cN"),
    isRelative: true,
    touches: isForce,
    effect: inProportion,
  },
  {
    name: "zero of the force",
    sees: ({ kind }) => kind === "force_zero",
    isRelative: false,
    touches: ({ measured }) => measured.symbol === "cN",
    effect: (_, shift) => shift,
  },
  {
    name: "scale of the displacement",
    sees: ({ kind, value }) => kind === "displacement_scale" || (kind === "check_standard" && value.symbol === "mm"),
    isRelative: true,
    touches: ({ measured }) => ["mm", "mJ", "cN/mm"].includes(measured.symbol),
    effect: (result, shift) =>
      result.measured.symbol === "cN/mm"
        ? derive([result.measured, shift], ([slope, share]) => -slope * share, "cN/mm")
        : inProportion(result, shift),
  },
  {
    name: "clock",
    sees: ({ kind }) => kind === "frame_clock",
    isRelative: true,
    touches: isLatency,
    effect: ofLatency("film", 1),
  },
  {
    name: "speed of the plunger",
    sees: ({ kind }) => kind === "plunger_speed",
    isRelative: true,
    touches: isLatency,
    effect: ofLatency("travel", -1),
  },
  {
    name: "acceleration of the plunger",
    sees: ({ kind }) => kind === "plunger_acceleration",
    isRelative: false,
    touches: isLatency,
    effect: ofLatency("travel", 1),
  },
];
const other: Watch = {
  name: "other checks",
  sees: (check) => known.every(({ sees }) => !sees(check)),
  isRelative: false,
  touches: () => true,
  effect: ({ measured }) => new Absent(measured.symbol, "nothing says how this check bears on a result"),
};

/**
 * Every shift of a rig that its failed checks show (`failedRigChecks`), with the span of days on which it may have been there
 * (`doubtfulSpans`) and what it does to a result. Checks that watch the same thing are taken together; a calibration ends a span.
 */
export function rigShifts<Check extends RigCheckResult>(rig: RigHistory<Check>): readonly RigShift<Check>[] {
  const failed = failedRigChecks(rig);
  const calibrated = rig.calibrations.map(({ date }) => date);
  return [...known, other].flatMap((watch) => {
    const watched = rig.checks.filter((check) => check.value.u > 0 && watch.sees(check));
    const spans = doubtfulSpans(watched, {
      date: ({ date }) => date,
      isGood: (check) => !failed.has(check),
      calibrated,
    });
    return spans.map((span): RigShift<Check> => {
      const shift = meanShift(span.failed, watch.isRelative);
      return {
        watch: watch.name,
        span,
        shift,
        id: `rig/${rig.id}/shift/${span.firstFailed}/${watch.name.replaceAll(" ", "-")}`,
        sees: watch.sees,
        touches: watch.touches,
        effect: (result) => watch.effect(result, shift),
      };
    });
  });
}

function meanShift(failed: readonly RigCheckResult[], isRelative: boolean): Quantity {
  const deviations = failed
    .map(({ value, reference }) =>
      isRelative && reference.value !== 0
        ? derive([value, reference], ([read, true_]) => read / true_ - 1, "1")
        : difference(value, reference),
    )
    .filter(isQuantity);
  const alike = deviations.filter(({ symbol }) => symbol === deviations[0]!.symbol);
  const total = alike.reduce((sum, { u }) => sum + u ** -2, 0);
  const weights = alike.map(({ u }) => u ** -2 / total);
  return linear(alike, weights, `mean of ${alike.length} failed checks, weighted by their uncertainty`);
}

/** What a shift of a rig means for results that were measured on one day; see `driftConsequences`. */
export interface ShiftConsequences<Result extends RigResult> {
  readonly shift: RigShift;
  readonly consequences: readonly DriftConsequence<Result>[];
}

/**
 * Every shift of a rig whose span of doubt holds the day of a session, with the consequence for each result that it touches.
 * @param date ISO date or instant at which the session was measured
 * @returns shifts that touch one result at least; empty where the rig is not shown to have shifted
 * @throws RangeError where the date does not begin with a day
 */
export function sessionDoubts<Result extends RigResult>(
  rig: RigHistory,
  date: string,
  results: readonly Result[],
): readonly ShiftConsequences<Result>[] {
  const day = isoDay(date);
  return rigShifts(rig).flatMap((shift) => {
    const touched = results.filter((result) => shift.touches(result));
    const consequences = driftConsequences(touched, {
      date: () => day,
      result: ({ measured }) => measured,
      effect: (_, result) => shift.effect(result),
      span: shift.span,
      id: shift.id,
    });
    return consequences.length === 0 ? [] : [{ shift, consequences }];
  });
}
