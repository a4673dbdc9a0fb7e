import { evidenceStep } from "../metrology/evidence.js";
import { Absent } from "../metrology/quantity.js";
import type { Measured } from "../metrology/quantity.js";
import { bootstrapKept, seedOf } from "./bootstrap-kept.js";
import { connectionTravel } from "./connection-travel.js";
import { connectionWarnings } from "./connection-warnings.js";
import type { LatencyContext } from "./context.js";
import { sessionPath } from "./context.js";
import { countPresses } from "./count-presses.js";
import { keptCount } from "./kept-mean.js";
import type { PressResults } from "./latency-results.js";
import { keptLatency, pressSd, quantileLatency, skewness } from "./latency-results.js";
import { checkLocks } from "./lock-check.js";
import type { ConnectionLatency, LockCheck } from "./model.js";
import type { ObservedPress } from "./observed-press.js";
import { isValid } from "./observed-press.js";
import type { Observation } from "./observed-time.js";
import { meanObservedTime, scatterSource } from "./observed-time.js";
import { quantileInterval } from "./order-statistics.js";
import { detectGrid } from "./polling-grid.js";
import { readerAgreement } from "./reader-agreement.js";
import type { ReaderOffset } from "./reader-offset.js";
import { reducePresses } from "./reduce-presses.js";
import { readRigTerm } from "./rig-term.js";
import { statedPeriods } from "./stated-periods.js";
import { subtractTerms } from "./subtract-terms.js";

/** Terms that all connections of a session share. */
export interface SessionTerms {
  readonly system: Measured<"ms">;
  readonly subtractsSystem: boolean;
  readonly offset: ReaderOffset;
}

/**
 * Latency of one connection: L = observed time - system latency - travel time over all valid presses, with median, P90,
 * and L_k of the fastest (measurement model, section 4).
 *
 * Results are absent where fewer presses are valid than the method's minimum (never fewer than two), or where a term that
 * the method subtracts is absent; the presses themselves are always there.
 */
export function reduceConnection(
  connection: string,
  presses: readonly ObservedPress[],
  session: SessionTerms,
  context: LatencyContext,
): ConnectionLatency {
  const { method } = context;
  const path = `${sessionPath(context)}/connection/${connection}`;
  const valid = presses.filter(isValid);
  const film = method.observes === "film";
  const stepMs = presses.reduce((largest, press) => Math.max(largest, press.stepMs), 0);
  const periods = statedPeriods(connection, film && stepMs > 0 ? stepMs : null, context);
  const observation: Observation = {
    path,
    offset: session.offset,
    clock: readRigTerm(context, "frameClock"),
    locks: presses.length === 0 ? [] : locksOf(presses, periods, stepMs, context),
    film,
  };
  const travel = connectionTravel(presses, session.offset, context);
  const system = session.subtractsSystem ? session.system : null;
  const clock = observation.clock?.value ?? 1;
  const adjusted = valid.map((press) => {
    const own = travel.travelOf(press.key);
    return press.timeMs * clock - (own === null || own.absent ? 0 : own.value);
  });

  const shortfall = shortfallOf(presses, valid.length, method.minPresses);
  const evidence = evidenceStep(`presses of ${connection}`, [
    ...presses.map((press) => press.evidence),
    method.evidence,
  ]);
  const head = { connection, valid: valid.length, system: session.system, travel: travel.mean };
  const details = {
    counts: countPresses(presses),
    locks: observation.locks,
    readers: readerAgreement(presses, session.offset),
    grid: detectGrid(
      valid.map((press) => press.timeMs * clock),
      { stepMs, periods, seed: seedOf(`${path}/grid`), path, evidence: valid.map((press) => press.evidence) },
    ),
    travelBasis: travel.basis,
    plungerSpeed: travel.speed,
    skewness: skewness(adjusted),
  };
  const terms = { system, travelOf: travel.travelOf };
  const finish = (rest: Omit<ConnectionLatency, "warnings" | keyof typeof head>): ConnectionLatency => {
    const result = { ...head, ...rest };
    const warnings = [...connectionWarnings(result, presses, context), ...travel.warnings];
    return { ...result, warnings };
  };
  const noIntervals = { medianInterval: null, p90Interval: null, keptBootstrap: null };

  if (shortfall !== null) {
    const none = new Absent("ms", shortfall, evidence);
    const standing = { kept: new Set<ObservedPress>(), notKeptReason: shortfall };
    return finish({
      presses: reducePresses(presses, standing, terms, observation),
      kept: 0,
      latency: none,
      median: none,
      p90: none,
      latencyKept: none,
      keptMinusAll: none,
      pressSd: none,
      film: none,
      details: { ...details, ...noIntervals },
    });
  }

  const stepsMs = valid.map((press) => press.stepMs);
  const scatter = scatterSource(adjusted, stepsMs, observation);
  const observed = meanObservedTime(valid, scatter, observation);
  const latency = subtractTerms(
    observed,
    { system, travel: travel.subtracted ? travel.mean : null },
    `latency: mean of ${valid.length} valid presses minus the method's terms`,
  );
  const common = (latency.absent ? observed : latency).components.filter(({ source }) => source.id !== scatter.id);
  const shift = latency.absent ? 0 : latency.value - average(adjusted);
  const results: PressResults = {
    latenciesMs: adjusted.map((value) => value + shift),
    stepsMs,
    common,
    evidence: [latency.evidence],
  };
  const unless = <M extends Measured<"ms">>(result: () => M): M | Absent<"ms"> => (latency.absent ? latency : result());
  const kept = keptCount(valid.length, method);
  const fastest = kept >= 2 ? keptLatency(results, kept, observation) : null;
  const tooFewKept = new Absent(
    "ms",
    `the method's share keeps ${kept} of ${valid.length} presses: no scatter`,
    evidence,
  );
  const sorted = [...results.latenciesMs].sort((a, b) => a - b);
  const keptSet = new Set<ObservedPress>((fastest?.indices ?? []).map((i) => valid[i]!));
  return finish({
    presses: reducePresses(
      presses,
      { kept: keptSet, notKeptReason: notAmongTheKept(kept, valid.length) },
      terms,
      observation,
    ),
    kept: keptSet.size,
    latency,
    median: unless(() => quantileLatency(results, 0.5, observation)),
    p90: unless(() => quantileLatency(results, 0.9, observation)),
    latencyKept: unless(() => fastest?.latencyKept ?? tooFewKept),
    keptMinusAll: unless(() => fastest?.keptMinusAll ?? tooFewKept),
    pressSd: unless(() => pressSd(results, observation)),
    film: observed,
    details: {
      ...details,
      medianInterval: latency.absent ? null : quantileInterval(sorted, 0.5),
      p90Interval: latency.absent ? null : quantileInterval(sorted, 0.9),
      keptBootstrap:
        latency.absent || fastest === null
          ? null
          : bootstrapKept(results.latenciesMs, { kept, seed: seedOf(`${path}/bootstrap`) }),
    },
  });
}

function locksOf(
  presses: readonly ObservedPress[],
  periods: ReturnType<typeof statedPeriods>,
  stepMs: number,
  context: LatencyContext,
): readonly LockCheck[] {
  const runs = new Map<string, number[]>();
  for (const { clip, contactMs } of presses) {
    if (contactMs === null) continue;
    const run = runs.get(clip);
    if (run === undefined) runs.set(clip, [contactMs]);
    else run.push(contactMs);
  }
  return checkLocks([...runs.values()], periods, {
    stepMs,
    statedJitterMs: context.pressIntervalJitter?.value ?? null,
  });
}

function shortfallOf(presses: readonly ObservedPress[], valid: number, minPresses: number): string | null {
  if (presses.length === 0) return "no presses are recorded for this connection";
  const least = Math.max(2, minPresses);
  if (valid >= least) return null;
  return `${valid} of ${presses.length} presses are valid; the method needs at least ${least}`;
}

function average(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0) / values.length;
}

/** True of ties too: of equal presses the earlier is kept. */
function notAmongTheKept(kept: number, valid: number): string {
  return `no faster than the ${kept} kept of ${valid} valid presses`;
}
