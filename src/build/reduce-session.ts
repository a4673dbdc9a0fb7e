import { calibrationInForce, reduceKeystroke, reductionContext } from "../keystroke/index.js";
import type { KeystrokeReduction } from "../keystroke/model.js";
import { choosePreTravel, reduceLatency, unnamedKey } from "../latency/index.js";
import type { LatencyReduction } from "../latency/model.js";
import type { Archive, KeystrokeMethod, LatencyMethod, Session, Unit } from "../records/archive.js";
import { readLatency, readStrokes } from "../records/index.js";
import type { Problem } from "../records/problem.js";

/** What stage one makes of a session; without a reduction where its raw rows have errors. */
export interface ReducedSession {
  readonly reduction: KeystrokeReduction | LatencyReduction | null;
  readonly problems: readonly Problem[];
}

/**
 * Reads the raw rows of one session and reduces them as its method says.
 * @param method the session's own, or another version under which its rows are reduced anew
 * @param keystroke the unit's newest reduced keystroke session, for the travel term of a latency session
 * @throws RangeError where the method is of a kind that has no raw rows
 */
export function reduceSession(
  archive: Archive,
  unit: Unit,
  session: Session,
  method: KeystrokeMethod | LatencyMethod,
  keystroke: KeystrokeReduction | null,
): ReducedSession {
  if (method.kind === "keystroke") {
    const { strokes, problems } = readStrokes(archive, session);
    if (problems.some(({ severity }) => severity === "error")) return { reduction: null, problems };
    const rig = archive.rigs.get(session.rig) ?? null;
    return { reduction: reduceKeystroke(strokes, reductionContext(unit, session, method, rig)), problems };
  }
  const { readings, problems } = readLatency(archive, session);
  if (problems.some(({ severity }) => severity === "error")) return { reduction: null, problems };
  const rig = archive.rigs.get(session.rig) ?? null;
  const tester =
    keystroke === null ? undefined : unit.sessions.find((each) => each.id === keystroke.session)?.pressSpeed;
  // Timings name no key, so their travel is that of any key.
  const pressed = [...new Set(readings.presses.map((press) => press.key))];
  const keys = pressed.length === 0 ? [unnamedKey] : pressed;
  const measured = Object.fromEntries((keystroke?.keys ?? []).map((key) => [key.key, key.preTravel]));
  const dataSheet = unit.limits.find((limit) => limit.characteristic === "preTravel");
  const reduction = reduceLatency(readings, {
    unit: unit.id,
    session: session.id,
    method,
    rig: { id: session.rig, calibration: rig === null ? null : calibrationInForce(rig, session.start) },
    settings: session.connections,
    refreshRate: session.refreshRate,
    pressInterval: session.pressInterval,
    pressIntervalJitter: session.pressIntervalJitter,
    nominalPlungerSpeed: session.pressSpeed,
    testerSpeed: tester,
    preTravel: Object.fromEntries(
      keys.map((key) => [key, choosePreTravel(key, measured, { unit: unit.id, dataSheet })]),
    ),
  });
  return { reduction, problems };
}
