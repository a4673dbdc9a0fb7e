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

/** How many presses came to what; `recorded` is the sum of the others. */
export interface PressCounts {
  readonly recorded: number;
  readonly valid: number;
  readonly excluded: number;
  readonly missed: number;
  readonly double: number;
  readonly unreadable: number;
  /** Response read before contact. */
  readonly impossible: number;
  /** Marked ok, but without a usable pair of readings (no frame, clip unknown). */
  readonly incomplete: number;
}

/** Periods of the chain against which a rhythm of pressing can be locked. */
export type PeriodName = "polling" | "scan" | "display_refresh" | "application_frame" | "camera_frame";

/** Rayleigh test of phases: n, mean resultant length 0 to 1, mean direction in cycles, p. */
export interface PhaseTest {
  readonly n: number;
  readonly resultantLength: number;
  readonly directionCycles: number;
  readonly pValue: number;
}

/** Whether the presses fell at random phases of one period (measurement model, section 4). */
export interface LockCheck {
  readonly period: PeriodName;
  /** As a page prints it: "polling interval". */
  readonly label: string;
  /** null where the record does not state the period. */
  readonly periodMs: number | null;
  /** `not_stated` periods add no term, because their size is not known; the page says so. */
  readonly status: "not_locked" | "locked" | "unknown" | "not_stated";
  /** What the status rests on, as a clause. */
  readonly basis: string;
  /** Contact times modulo the period; null where they could not be tested. */
  readonly contacts: PhaseTest | null;
  /** Intervals between presses modulo the period; null where they could not be tested. */
  readonly intervals: PhaseTest | null;
  /** Standard uncertainty added to the mean, undivided; 0 where nothing is added. */
  readonly addedMs: number;
}

/** Counts of agreement over presses read by two or more readers: largest minus smallest reading, in frames. */
export interface AgreementCounts {
  readonly equal: number;
  readonly withinOne: number;
  readonly beyond: number;
}

/** Two or more readers of the same film. */
export interface ReaderAgreement {
  readonly readers: readonly string[];
  /** Presses read by two or more. */
  readonly presses: number;
  readonly contact: AgreementCounts;
  readonly response: AgreementCounts;
  /** The interval response minus contact, which is what counts. */
  readonly interval: AgreementCounts;
  /** Mean interval of each reader minus the mean of all readers, over presses that all of them read, in frames. */
  readonly offsetsFrames: readonly { readonly reader: string; readonly offsetFrames: number }[];
  /** How the readers' own offset entered the budget, as a clause. */
  readonly basis: string;
}

/** A confidence interval for a quantile between two order statistics; a side is null where too few presses bound it. */
export interface OrderInterval {
  readonly lowMs: number | null;
  readonly highMs: number | null;
  /** Asked for, such as 0.95. */
  readonly level: number;
  /** Attained where both sides exist: the exact binomial probability; else null. */
  readonly attained: number | null;
  /** Why a side is missing; empty where none is. */
  readonly reason: string;
}

/** Seeded percentile bootstrap of L_k over the valid presses: press scatter only, without the systematic terms. */
export interface KeptBootstrap {
  readonly lowMs: number;
  readonly highMs: number;
  readonly standardErrorMs: number;
  readonly level: number;
  readonly draws: number;
}

/** What the scatter of the observed times suggests about a grid in time. */
export interface PollingGrid {
  /** `comb`: three or more teeth at one spacing. `none`: no sign of one. `not_resolved`: too few presses, or too narrow. */
  readonly verdict: "comb" | "none" | "not_resolved";
  /** Spacing of the comb. */
  readonly spacing: Measured<"ms">;
  /** Of the largest periodogram ordinate, by seeded simulation or a bound above it; null where not tested. */
  readonly pValue: number | null;
  /** The scatter against waiting for each stated period alone. */
  readonly widths: readonly {
    readonly period: PeriodName;
    readonly periodMs: number;
    /** sd that waiting for this period alone gives, with the frames' own share. */
    readonly expectedSdMs: number;
    readonly observedSdMs: number;
    readonly pValue: number;
  }[];
  /** One or two sentences for the page; a suggestion, never a finding. */
  readonly suggestion: string;
}

export type Stage =
  "mechanics" | "contact_and_debounce" | "scan" | "link_and_polling" | "host_driver" | "application" | "display";

/** One row of the table of what is inside a latency. */
export interface ContentsRow {
  readonly stage: Stage;
  readonly label: string;
  /** `inside` the number; `subtracted` from it by a measured term; `outside`: never part of what is observed. */
  readonly state: "inside" | "subtracted" | "outside";
  readonly note: string;
}

/** Everything beside the results that a page about one connection may show. */
export interface LatencyDetails {
  readonly counts: PressCounts;
  readonly medianInterval: OrderInterval | null;
  readonly p90Interval: OrderInterval | null;
  readonly keptBootstrap: KeptBootstrap | null;
  /** Sample skewness g1 of the valid presses; null below three of them or where all are equal. */
  readonly skewness: number | null;
  readonly locks: readonly LockCheck[];
  readonly readers: ReaderAgreement | null;
  readonly grid: PollingGrid;
  /** Where the travel term's pre-travel and speed come from, as a clause; empty where travel is not subtracted. */
  readonly travelBasis: string;
  /** Speed of the plunger over the pre-travel. */
  readonly plungerSpeed: Measured<"mm/s">;
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
  /** Mean observed time, from which the two next terms are subtracted. */
  readonly film: Measured<"ms">;
  readonly system: Measured<"ms">;
  readonly travel: Measured<"ms">;
  readonly warnings: readonly string[];
  readonly details: LatencyDetails;
}

/** Mean of one part of the baseline in one block. */
export interface BaselinePart {
  readonly block: string;
  readonly part: "input" | "pc" | "display" | "total" | "subtracted";
  readonly shots: number;
  readonly mean: Measured<"ms">;
  readonly sdMs: number | null;
}

/** The baseline of a session: its parts by block, and whether the blocks agree. */
export interface BaselineReduction {
  readonly parts: readonly BaselinePart[];
  /** Block after minus block before of the subtracted sum, and Welch's test of it; null where there are not two blocks. */
  readonly shift: {
    readonly difference: Measured<"ms">;
    readonly t: number | null;
    readonly dof: number;
    readonly pValue: number;
    /** p below 0.01. */
    readonly beyondNoise: boolean;
  } | null;
}

export interface LatencyReduction {
  readonly kind: "latency";
  readonly unit: string;
  readonly session: string;
  readonly method: string;
  readonly connections: readonly ConnectionLatency[];
  /** null where the method subtracts nothing. */
  readonly baseline: BaselineReduction | null;
  /** What is inside each number of this session. */
  readonly contents: readonly ContentsRow[];
  readonly warnings: readonly string[];
}
