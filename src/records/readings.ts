import type { EvidenceRows } from "../metrology/evidence.js";

/** One stroke of one cycle of one key, as recorded: parallel arrays in file order, canonical units of measure. */
export interface Stroke {
  readonly key: string;
  readonly cycle: number;
  readonly stroke: "press" | "release";
  readonly displacementMm: Float64Array;
  readonly forceCn: Float64Array;
  /** 0 open, 1 closed, one a row; null where the file has no contact readings for this stroke. */
  readonly contact: Uint8Array | null;
  /** Smallest recorded step of each channel in canonical units, for its resolution (GUM F.2.2.1). */
  readonly displacementStepMm: number;
  readonly forceStepCn: number;
  readonly evidence: EvidenceRows;
}

/** `presses.csv`: one reading of one press by one reader. Frames are numbers of the film, 0-based or as the clip counts. */
export interface PressReading {
  readonly connection: string;
  readonly key: string;
  readonly clip: string;
  readonly press: number;
  readonly reader: string;
  readonly contactFrame: number | null;
  /** Frame in which a mark on the plunger passes the pre-travel position; null where not read. */
  readonly markFrame: number | null;
  readonly responseFrame: number | null;
  readonly outcome: "ok" | "missed" | "double" | "unreadable";
  /** Reason for taking it out by hand; empty: in. */
  readonly excluded: string;
  readonly evidence: EvidenceRows;
}

export interface Film {
  readonly clip: string;
  readonly file: string;
  readonly sha256: string;
  readonly frameRateHz: number;
  readonly firstPress: number;
  readonly lastPress: number;
  readonly evidence: EvidenceRows;
}

/** `baseline.csv`: a shot of the system latency in parts; null where a part was not separated. */
export interface BaselineShot {
  readonly block: string;
  readonly shot: number;
  readonly inputMs: number | null;
  readonly pcMs: number | null;
  readonly displayMs: number | null;
  readonly totalMs: number | null;
  readonly detector: string;
  readonly evidence: EvidenceRows;
}

/** `timings.csv`: direct injection or light on arrival. */
export interface Timing {
  readonly connection: string;
  readonly press: number;
  readonly startUs: number;
  readonly arrivalUs: number;
  readonly excluded: string;
  readonly evidence: EvidenceRows;
}

/** Raw readings of a latency session. */
export interface LatencyReadings {
  readonly presses: readonly PressReading[];
  readonly films: readonly Film[];
  readonly baseline: readonly BaselineShot[];
  readonly timings: readonly Timing[];
}
