/** `benchfolio/latency`: readings of a latency session to latencies, with their budgets. */
import type { ConnectionLatency, LatencyReduction } from "./model.js";

export type {
  AgreementCounts,
  BaselinePart,
  BaselineReduction,
  ConnectionLatency,
  ContentsRow,
  KeptBootstrap,
  LatencyDetails,
  LatencyReduction,
  LockCheck,
  OrderInterval,
  PeriodName,
  PhaseTest,
  PollingGrid,
  PressCounts,
  PressReduction,
  ReaderAgreement,
  Stage,
} from "./model.js";
export type { LatencyContext, PreTravelInput, ReaderOffsetStudy } from "./context.js";
export { unnamedKey } from "./context.js";
export { contentsOf, differingStages } from "./contents.js";
export { choosePreTravel } from "./pre-travel-input.js";
export { reduceLatency } from "./reduce-latency.js";

/** The connections of a reduced session, in the order of session.yaml; those without a result are there, absent. */
export function latencies(reduction: LatencyReduction): readonly ConnectionLatency[] {
  return reduction.connections;
}
