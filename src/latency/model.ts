import type { Evidence } from "../metrology/evidence.js";
import type { Measured } from "../metrology/quantity.js";

/** One press, reduced: its film (or timing) interval and what became of it. */
export interface PressReduction {
  readonly press: number;
  readonly key: string;
  /** Contact to response as observed, before anything is subtracted; absent where missed or unreadable. */
  readonly observed: Measured<"ms">;
  /** The press's latency: observed minus system latency minus travel. */
  readonly latency: Measured<"ms">;
  readonly outcome: "ok" | "missed" | "double" | "unreadable";
  /** `kept`: among the fastest k. `not_kept`: valid but slower. `excluded`: by hand, with the reason. `invalid`: no valid interval. */
  readonly standing: "kept" | "not_kept" | "excluded" | "invalid";
  readonly reason: string;
  readonly evidence: Evidence;
}

/** Latency of one connection in one session (measurement model, section 4). */
export interface ConnectionLatency {
  readonly connection: string;
  readonly presses: readonly PressReduction[];
  readonly valid: number;
  readonly kept: number;
  /** L: mean of all valid presses. */
  readonly latency: Measured<"ms">;
  readonly median: Measured<"ms">;
  readonly p90: Measured<"ms">;
  /** L_k: mean of the k fastest of n; what the method publishes. */
  readonly latencyKept: Measured<"ms">;
  /** L_k - L. */
  readonly keptMinusAll: Measured<"ms">;
  /** sd of the valid presses. */
  readonly pressSd: Measured<"ms">;
  /** Terms that were subtracted. */
  readonly film: Measured<"ms">;
  readonly system: Measured<"ms">;
  readonly travel: Measured<"ms">;
  readonly warnings: readonly string[];
}

export interface LatencyReduction {
  readonly kind: "latency";
  readonly unit: string;
  readonly session: string;
  readonly method: string;
  readonly connections: readonly ConnectionLatency[];
  readonly warnings: readonly string[];
}
