import { calibrationInForce } from "../keystroke/index.js";
import { Quantity, difference, normalSource } from "../metrology/index.js";
import type { Calibration, Rig } from "../records/archive.js";
import { holmKernel } from "../statistics/tests/multiplicity.js";
import { zeroPValue } from "./difference-test.js";
import { isoDay } from "./doubtful-spans.js";

/** How a day of measurement stands to the calibrations of its rig. */
export interface CalibrationStanding {
  readonly standing: "in force" | "expired" | "none";
  /** The one that corrected the results; null where none had begun. */
  readonly calibration: Calibration | null;
  /** Days since it was due; 0 where it was in force or none had begun. */
  readonly daysOverdue: number;
  /** Of an expired one: the calibration that followed; null where none has. */
  readonly next: Calibration | null;
  /** Names of the terms in which that one is shown to differ, all terms together at 5 % (Holm); null where it states none of them. */
  readonly moved: readonly string[] | null;
}

/**
 * Whether a rig was within a calibration on a day, and where the calibration had expired, whether the one that followed agrees
 * with it: the best witness of what the rig did in between.
 *
 * @param date ISO date or instant; only its day is used
 * @throws RangeError where it does not begin with a day
 * Source: ISO/IEC 17025:2017, 6.4.13 e; Holm, Scandinavian Journal of Statistics 6 (1979) 65.
 */
export function calibrationStanding(rig: Pick<Rig, "id" | "calibrations">, date: string): CalibrationStanding {
  const day = isoDay(date);
  const calibration = calibrationInForce(rig, day);
  const head = { calibration, daysOverdue: 0, next: null, moved: null };
  if (calibration === null) return { ...head, standing: "none" };
  const due = isoDay(calibration.due);
  if (day <= due) return { ...head, standing: "in force" };
  const later = rig.calibrations.filter((each) => isoDay(each.date) > day);
  const next = later.reduce<Calibration | null>(
    (first, each) => (first === null || each.date < first.date ? each : first),
    null,
  );
  const daysOverdue = Math.round((Date.parse(day) - Date.parse(due)) / 86_400_000);
  return {
    standing: "expired",
    calibration,
    daysOverdue,
    next,
    moved: next === null ? null : movedTerms(rig.id, calibration, next),
  };
}

function movedTerms(rig: string, before: Calibration, after: Calibration): readonly string[] | null {
  const changes = Object.keys(before.terms).flatMap((name) => {
    const [old, now] = [termOf(rig, before, name), termOf(rig, after, name)];
    return old === null || now === null || old.symbol !== now.symbol
      ? []
      : [{ name, p: zeroPValue(difference(now, old)) }];
  });
  if (changes.length === 0) return null;
  const adjusted = holmKernel(changes.map(({ p }) => p));
  return changes.filter((_, index) => adjusted[index]! <= 0.05).map(({ name }) => name);
}

function termOf(rig: string, calibration: Calibration, name: string): Quantity | null {
  const term = calibration.terms[name];
  if (term === undefined) return null;
  const { value, u } = term;
  const source = normalSource(
    `rig/${rig}/${calibration.date}/certificate/${name}`,
    `Certificate ${calibration.certificate}`,
    u.value,
    u.symbol,
  );
  return new Quantity(
    value.value,
    value.symbol,
    u.value > 0 ? [{ source, contribution: u.value }] : [],
    value.evidence,
  );
}
