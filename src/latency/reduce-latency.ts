import type { LatencyReadings } from "../records/readings.js";
import { contentsOf } from "./contents.js";
import type { LatencyContext } from "./context.js";
import { unnamedKey } from "./context.js";
import { observeFilm } from "./film-presses.js";
import type { LatencyReduction } from "./model.js";
import type { ObservedPress } from "./observed-press.js";
import { compareText } from "./observed-press.js";
import { readerOffset } from "./reader-offset.js";
import { reduceConnection } from "./reduce-connection.js";
import { systemLatency } from "./system-latency.js";
import { observeTimings } from "./timing-presses.js";

/**
 * Reduces the readings of one latency session: per connection L = observed time - system latency - travel time, with L_k
 * of the fastest, median, P90 and every press (measurement model, section 4). Pure: the same readings and context give
 * the same result, in whatever order the rows stand; random numbers are seeded by the session's own path.
 *
 * @param readings rows of presses.csv, films.csv, baseline.csv and timings.csv; a method that observes film reads the
 * first three, injection and light read timings and baseline. Empty arrays give connections whose results are absent.
 * @param context what else is known of the session; see `LatencyContext`
 * @returns the connections of session.yaml in its order, then others in code-unit order
 * @throws RangeError where the method or a calibration term contradicts itself (keeps more than it asks for, a term in
 * another unit of measure)
 */
export function reduceLatency(readings: LatencyReadings, context: LatencyContext): LatencyReduction {
  const { method } = context;
  if (!(Number.isInteger(method.kept) && method.kept >= 1 && method.kept <= method.presses)) {
    throw new RangeError(
      `${method.id} keeps ${method.kept} of ${method.presses} presses; it must keep 1 to all of them`,
    );
  }
  const film = method.observes === "film";
  const observed = film
    ? observeFilm(readings.presses, readings.films)
    : observeTimings(readings.timings, { key: timingKey(context) });
  const all = [...observed.values()].flat();
  const offset = readerOffset(all, context);
  const { system, baseline, warnings } = systemLatency(readings.baseline, context);
  const names = [...new Set([...Object.keys(context.settings), ...[...observed.keys()].sort(compareText)])];
  const terms = { system, subtractsSystem: method.subtract.length > 0, offset };
  return {
    kind: "latency",
    unit: context.unit,
    session: context.session,
    method: method.id,
    connections: names.map((name) => reduceConnection(name, observed.get(name) ?? [], terms, context)),
    baseline,
    contents: contentsOf(method),
    warnings: [...sessionWarnings(readings, all, context), ...warnings],
  };
}

function timingKey(context: LatencyContext): string {
  const keys = Object.keys(context.preTravel);
  return context.timingKey ?? (keys.length === 1 ? keys[0]! : unnamedKey);
}

function sessionWarnings(
  readings: LatencyReadings,
  observed: readonly ObservedPress[],
  context: LatencyContext,
): readonly string[] {
  const { method } = context;
  const warnings: string[] = [];
  if (method.observes === "film" && readings.timings.length > 0) {
    warnings.push(`${readings.timings.length} rows of timings.csv are not used: ${method.id} observes film`);
  }
  if (method.observes !== "film" && readings.presses.length > 0) {
    warnings.push(
      `${readings.presses.length} rows of presses.csv are not used: ${method.id} observes ${method.observes}`,
    );
  }
  if (method.observes === "injection" && method.subtractTravel) {
    warnings.push(`${method.id} subtracts travel, but direct injection has none: nothing is subtracted`);
  }
  if (context.rig.calibration === null) {
    warnings.push(`rig ${context.rig.id} has no calibration in force: its terms are not in the budget`);
  }
  const clips = new Map<string, Set<number>>();
  for (const film of readings.films) {
    const rates = clips.get(film.clip);
    if (rates === undefined) clips.set(film.clip, new Set([film.frameRateHz]));
    else rates.add(film.frameRateHz);
  }
  for (const [clip, rates] of clips) {
    if (rates.size > 1) warnings.push(`films.csv gives clip ${clip} several frame rates; the last is used`);
  }
  if (observed.length === 0) warnings.push("no presses are recorded in this session");
  return warnings;
}
