import type { KeystrokeReduction } from "../keystroke/model.js";
import type { LatencyReduction } from "../latency/model.js";
import type { Quantity } from "../metrology/index.js";
import type { Calibration, Method } from "../records/archive.js";
import { failedChecks } from "./failed-checks.js";

/** A check of a rig with its numbers as quantities. */
export interface RigCheckResult {
  /** ISO date. */
  readonly date: string;
  readonly kind: string;
  readonly unit: string;
  readonly characteristic: string;
  readonly value: Quantity;
  readonly reference: Quantity;
}

/** What a rig's record holds that bears on whether it can be trusted; the subject of a rig is one. */
export interface RigHistory<Check extends RigCheckResult = RigCheckResult> {
  readonly id: string;
  readonly calibrations: readonly Calibration[];
  /** In order of date. */
  readonly checks: readonly Check[];
  readonly sessions: readonly { readonly reduction: KeystrokeReduction | LatencyReduction | null }[];
  readonly studies: readonly {
    readonly kind: string;
    readonly readings: readonly {
      readonly method: string;
      readonly reader: string;
      readonly unit: string;
      readonly connection: string;
      readonly key: string;
      readonly repeat: string;
      readonly value: Quantity;
    }[];
  }[];
  readonly methods: readonly Method[];
}

/** Checks of one series from which a rig's record asks for their moving average. */
const fewestForAverage = 5;

/**
 * Level at which each kind of question of a rig's record is claimed: the kinds that it asks (single checks, moving average,
 * blocks of the baseline, readers against each other) share equally the 5 % of records that may hold a false claim.
 * @returns 0.05 where it asks none or one
 */
export function rigClaimLevel(rig: RigHistory): number {
  const judged = rig.checks.filter(({ value }) => value.u > 0);
  const lengths = new Map<string, number>();
  for (const check of judged) lengths.set(seriesOf(check), (lengths.get(seriesOf(check)) ?? 0) + 1);
  const asked = [
    judged.length > 0,
    [...lengths.values()].some((length) => length >= fewestForAverage),
    rig.sessions.some(({ reduction }) => reduction?.kind === "latency" && hasTwoBlocks(reduction)),
    rig.studies.some((study) => study.kind === "readers" && hasReadersApart(study, rig.methods)),
  ];
  return 0.05 / Math.max(1, asked.filter(Boolean).length);
}

/**
 * Checks of a rig that count as failed: those shown to differ from their reference (`failedChecks`, at the level of the
 * record), and their neighbours of the same series on the same side beyond two standard uncertainties, since one good-looking
 * check does not end a shift. Checks without an uncertainty are not judged.
 */
export function failedRigChecks<Check extends RigCheckResult>(rig: RigHistory<Check>): ReadonlySet<Check> {
  const judged = rig.checks.filter(({ value }) => value.u > 0);
  const differs = failedChecks(judged, { level: rigClaimLevel(rig) });
  const failed = new Set(judged.filter((_, index) => differs[index]));
  for (const name of new Set(judged.map(seriesOf))) {
    const ordered = judged.filter((check) => seriesOf(check) === name);
    for (const series of [ordered, [...ordered].reverse()]) {
      series.forEach((check, index) => {
        const before = series[index - 1];
        if (before === undefined || !failed.has(before) || !(Math.abs(deviation(check)) > 2)) return;
        if (Math.sign(deviation(check)) === Math.sign(deviation(before))) failed.add(check);
      });
    }
  }
  return failed;
}

function seriesOf({ kind, unit, characteristic }: RigCheckResult): string {
  return [kind, unit, characteristic].join("/");
}

/** From the reference, in standard uncertainties of the check. */
function deviation({ value, reference }: RigCheckResult): number {
  return (value.value - reference.value) / value.u;
}

function hasTwoBlocks({ baseline }: LatencyReduction): boolean {
  return (
    baseline !== null && baseline.parts.filter(({ part, mean }) => part === "subtracted" && !mean.absent).length === 2
  );
}

/** Whether two readers read three presses or more of a film alike, not all by the same number of frames apart. */
function hasReadersApart({ readings }: RigHistory["studies"][number], methods: readonly Method[]): boolean {
  const method = methods.find(({ id }) => id === readings[0]?.method);
  if (method?.kind !== "latency") return false;
  const frameMs = 1000 / method.frameRate.value;
  const [first, ...others] = [...new Set(readings.map(({ reader }) => reader))];
  const placeOf = (each: (typeof readings)[number]): string =>
    [each.unit, each.connection, each.key, each.repeat].join("/");
  return others.some((second) => {
    const frames = readings
      .filter(({ reader }) => reader === first)
      .flatMap((one) => {
        const other = readings.find((each) => each.reader === second && placeOf(each) === placeOf(one));
        return other === undefined ? [] : [(other.value.value - one.value.value) / frameMs];
      });
    return frames.length >= 3 && frames.some((each) => Math.abs(each - frames[0]!) > 1e-9);
  });
}
