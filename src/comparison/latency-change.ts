import type { ConnectionLatency, LatencyReduction } from "../latency/model.js";
import { Absent } from "../metrology/index.js";
import type { Measured } from "../metrology/index.js";
import type { ChangeInputs } from "./change-steps.js";

/** The reductions of one unit under two latency methods; null where there is no such session. */
export interface LatencySides {
  readonly before: LatencyReduction | null;
  readonly beforeAnew: LatencyReduction | null;
  readonly after: LatencyReduction | null;
  /** Which mean the old and the new method publish: of all valid presses, or of the fastest. */
  readonly compares: readonly [old: "all" | "kept", now: "all" | "kept"];
}

/**
 * The values from an old to a new latency of one connection of a unit, for `changeSteps`. A change from the mean of all
 * presses to that of the fastest, or back, is part of the reduction, since it takes other presses of the same rows.
 *
 * @returns absences with their reasons where a session or the connection is missing
 */
export function latencyChange(sides: LatencySides, connection: string): ChangeInputs<"ms"> {
  const { before, beforeAnew, after, compares } = sides;
  const now = valueOf(after, connection, compares[1], "not measured by the new method");
  return {
    published: valueOf(before, connection, compares[0], "not measured by the old method"),
    reducedAnew: valueOf(beforeAnew, connection, compares[1], "the old rows are not reduced by the new method"),
    sameKeysAgain: now,
    publishedAnew: now,
  };
}

/** Names of the connections that either session measured, the newer session's first. */
export function changedConnections({ before, after }: Pick<LatencySides, "before" | "after">): readonly string[] {
  const names = [after, before].flatMap((side) => side?.connections ?? []).map(({ connection }) => connection);
  return [...new Set(names)];
}

function valueOf(
  reduction: LatencyReduction | null,
  connection: string,
  compares: "all" | "kept",
  reason: string,
): Measured<"ms"> {
  const found: ConnectionLatency | undefined = reduction?.connections.find((each) => each.connection === connection);
  if (found === undefined) return new Absent("ms", reason);
  return compares === "kept" ? found.latencyKept : found.latency;
}
