import type { EvidenceRows } from "../metrology/evidence.js";
import type { Problem } from "./problem.js";

/**
 * What an archive says, read and checked: plain data, in the archive's own words (snake_case keys become camelCase).
 * Numbers read from YAML are `Stated`: value, unit of measure and the line that says so.
 */

/** A number that a YAML file states, in the canonical unit of measure of its kind (mm, cN, ms, mm/s, 1 ...). */
export interface Stated<S extends string = string> {
  readonly value: number;
  readonly symbol: S;
  readonly evidence: EvidenceRows;
}

/** Characteristics by name, as TypeScript names; the archive writes them in snake_case. */
export type CharacteristicName = string;

/** `lab.yaml` */
export interface Lab {
  readonly name: string;
  readonly address: string;
  readonly contact: string;
  /** Whom the reports are made for; "not recorded" where the file does not say. */
  readonly customer: string;
  /** Roles, never persons: id to wording, such as `operator-1: Test operator 1`. */
  readonly roles: Readonly<Record<string, string>>;
  /** Texts a report must carry: `items_tested`, `reproduction`, `limits_of_use`, `safety`. */
  readonly statements: Readonly<Record<string, string>>;
  /** Smallest change that matters, by characteristic (and `latency`). */
  readonly smallestChange: Readonly<Record<CharacteristicName, Stated>>;
  /** Minutes of work: `mount`, `key`, `connection`, ... */
  readonly effort: Readonly<Record<string, Stated<"min">>>;
  /** Ergonomic limits the lab judges against, with their sources. */
  readonly limits: readonly Limit[];
  readonly numbering: Readonly<Record<string, string>>;
}

/** One limit: which characteristic, from where, whom it binds (measurement model, section 3). */
export interface Limit {
  readonly characteristic: CharacteristicName;
  readonly min?: Stated;
  readonly max?: Stated;
  readonly nominal?: Stated;
  /** `each_key`: every key of the unit; `mean`: the unit's mean. */
  readonly binds: "each_key" | "mean";
  /** `limit` is judged; `typical` is shown and never judged. */
  readonly force: "limit" | "typical";
  /** Data sheet and revision, or standard and clause. */
  readonly source: string;
  readonly pressSpeed?: Stated<"mm/s">;
  /** Kinds of key it speaks of; absent: all. */
  readonly switchKinds?: readonly SwitchKind[];
  readonly evidence: EvidenceRows;
}

export type SwitchKind = "linear" | "tactile" | "clicky";

/** What every kind of method states. */
export interface MethodHead {
  /** `keystroke@2` */
  readonly id: string;
  readonly title: string;
  /** The version this one replaces: makes a change of method. */
  readonly replaces?: string;
  /** ISO date from which the lab uses it. */
  readonly since: string;
  readonly notes: readonly string[];
  readonly file: string;
  readonly evidence: EvidenceRows;
}

/** `methods/keystroke-N.yaml`: how a force-displacement record is measured and reduced. */
export interface KeystrokeMethod extends MethodHead {
  readonly kind: "keystroke";
  /** W3C UI Events codes, in the order measured. */
  readonly keys: readonly string[];
  readonly minKeys: number;
  /** Unrecorded strokes before the first recorded cycle. */
  readonly conditioningStrokes: number;
  /** Recorded cycles a key. */
  readonly cycles: number;
  /** Cycle numbers whose mean is the key's value. */
  readonly cyclesUsed: readonly number[];
  readonly pressSpeed: Stated<"mm/s">;
  /** Smoothing window of the local fits, along displacement. */
  readonly smoothingWindow: Stated<"mm">;
  /** A local peak counts from this prominence. */
  readonly prominence: Stated<"cN">;
  /** Bottom-out: where the smoothed slope first exceeds this and stays above. */
  readonly bottomOutSlope: Stated<"cN/mm">;
  /** Touch: force beyond the noise of the approach by this many standard deviations, and at least `touchForce`. */
  readonly touchDeviations: number;
  readonly touchForce: Stated<"cN">;
}

/** `methods/latency-N.yaml` */
export interface LatencyMethod extends MethodHead {
  readonly kind: "latency";
  /** What is observed: film of plunger and screen; direct electrical injection; a light that reports arrival. */
  readonly observes: "film" | "injection" | "light";
  /** Presses per connection, and how many of the fastest are kept; equal where all are kept. */
  readonly presses: number;
  readonly kept: number;
  readonly minPresses: number;
  /** Parts of the baseline that are subtracted, never the baseline device's own `input`. */
  readonly subtract: readonly ("pc" | "display")[];
  /** Whether travel time is subtracted. */
  readonly subtractTravel: boolean;
  readonly baselineShots: number;
  readonly frameRate: Stated<"Hz">;
  /** Comparisons across units and methods use L (all) unless this says `kept`. */
  readonly compares: "all" | "kept";
}

/** `methods/scoring-N.yaml`: merits by purpose. Curves and weights stay as stated. */
export interface ScoringMethod extends MethodHead {
  readonly kind: "scoring";
  readonly missingConnection: "renormalise" | "zero" | "not_scored";
  /** Characteristic -> points of a piecewise-linear merit curve, [value in canonical unit, merit 0 to 1]. */
  readonly curves: Readonly<Record<CharacteristicName, readonly (readonly [number, number])[]>>;
  /** Purpose -> characteristic -> weight. */
  readonly purposes: Readonly<Record<string, Readonly<Record<CharacteristicName, number>>>>;
  /** Named steps, best first: lowest merit that earns it. */
  readonly grades: readonly { readonly name: string; readonly from: number }[];
  /** How many units a purpose recommends. */
  readonly picks: number;
}

export type Method = KeystrokeMethod | LatencyMethod | ScoringMethod;

/** `rigs/<rig>/rig.yaml` */
export interface Rig {
  readonly id: string;
  readonly kind: "force_tester" | "camera_plunger" | "injector" | "light";
  readonly description: string;
  readonly software: string;
  readonly calibrations: readonly Calibration[];
  readonly checks: readonly RigCheck[];
  readonly file: string;
  readonly evidence: EvidenceRows;
}

/** One calibration, valid from its date. Uncertainties are standard uncertainties (k = 1). */
export interface Calibration {
  readonly date: string;
  readonly due: string;
  readonly certificate: string;
  /** By name: `forceSpan` (1), `forceZero` (cN), `displacementScale` (1), `displacementZero` (mm), `compliance` (mm/cN),
   *  `frameClock` (1), `plungerSpeed` (mm/s), `plungerAcceleration` (1: share of the travel time),
   *  `detectorOffset` (ms), `inputPath` (ms). */
  readonly terms: Readonly<Record<string, CalibrationTerm>>;
  readonly evidence: EvidenceRows;
}

export interface CalibrationTerm {
  /** Correction: added for zeros, multiplied for spans and scales, used as the value for speeds and compliance. */
  readonly value: Stated;
  readonly u: Stated;
  readonly distribution: "normal" | "rectangular";
}

/** A row of `rigs/<rig>/checks.csv`. */
export interface RigCheck {
  readonly date: string;
  readonly kind: string;
  readonly unit: string;
  readonly characteristic: CharacteristicName;
  readonly value: number;
  readonly u: number;
  readonly reference: number;
  readonly symbol: string;
  readonly evidence: EvidenceRows;
}

/** `units/<unit>/unit.yaml` */
export interface Unit {
  readonly id: string;
  readonly maker: string;
  readonly model: string;
  readonly sampleNo: string;
  readonly received: string;
  readonly obtained: string;
  readonly status: "held" | "returned" | "withdrawn";
  readonly statusNote: string;
  readonly condition: string;
  /** Physical layout, `ansi` or `iso`, and its number of keys. */
  readonly layout: string;
  /** N, the number of alphabetic keys. */
  readonly alphabeticKeys: number;
  readonly switch: {
    readonly kind: SwitchKind;
    readonly name: string;
    readonly travel: "full" | "low";
    /** Setting of an adjustable actuation point; "not adjustable". */
    readonly actuationSetting: string;
  };
  readonly limits: readonly Limit[];
  /** Connections it has: `usb`, `receiver`, `bluetooth`, ... */
  readonly connections: readonly string[];
  readonly sessions: readonly Session[];
  readonly file: string;
  readonly evidence: EvidenceRows;
}

/** `units/<unit>/<session>/session.yaml`: a description; raw rows are read on demand. */
export interface Session {
  readonly id: string;
  readonly unit: string;
  readonly method: string;
  /** Rigs by role; a latency session may name the rig alone. */
  readonly rig: string;
  readonly operator: string;
  readonly start: string;
  readonly end: string;
  readonly pressSpeed?: Stated<"mm/s">;
  readonly contactSource: "electrical" | "report" | "none";
  /** Settings per connection. */
  readonly connections: Readonly<Record<string, ConnectionSettings>>;
  readonly firmware: string;
  readonly driver: string;
  readonly software: string;
  readonly refreshRate?: Stated<"Hz">;
  readonly pressInterval?: Stated<"ms">;
  readonly pressIntervalJitter?: Stated<"ms">;
  readonly environment: { readonly temperature?: Stated<"°C">; readonly humidity?: Stated<"%"> };
  readonly deviations: readonly string[];
  /** Readings taken out by hand, with the reason; the rows stay in the files and on the page. */
  readonly exclusions: readonly StrokeExclusion[];
  /** Folder relative to the archive's root. */
  readonly folder: string;
  /** Raw files present: `force.csv`, `presses.csv`, ... */
  readonly files: readonly string[];
  readonly file: string;
  readonly evidence: EvidenceRows;
}

export interface StrokeExclusion {
  readonly key: string;
  readonly cycle: number;
  readonly reason: string;
  readonly evidence: EvidenceRows;
}

export interface ConnectionSettings {
  readonly pollingSet: string;
  readonly pollingMeasured?: Stated<"Hz">;
  readonly debounce: string;
  readonly adapter: string;
}

/** `studies/<study>/study.yaml` with its `readings.csv`. */
export interface Study {
  readonly id: string;
  readonly title: string;
  readonly kind: "crossed" | "readers" | "candidate_methods";
  readonly question: string;
  readonly factors: readonly string[];
  readonly readings: readonly StudyReading[];
  readonly file: string;
  readonly evidence: EvidenceRows;
}

/** One row of `readings.csv`; factors that a study does not vary are empty strings. */
export interface StudyReading {
  readonly unit: string;
  readonly key: string;
  readonly connection: string;
  readonly operator: string;
  readonly reader: string;
  readonly rig: string;
  readonly method: string;
  readonly day: string;
  readonly mount: string;
  readonly repeat: string;
  readonly characteristic: CharacteristicName;
  readonly value: number;
  readonly symbol: string;
  readonly evidence: EvidenceRows;
}

/** A raw or describing file of the archive, as received. */
export interface ArchiveFile {
  readonly path: string;
  readonly bytes: number;
  readonly sha256: string;
}

export interface Archive {
  /** Absolute path; never printed on a page. */
  readonly root: string;
  readonly lab: Lab;
  readonly methods: ReadonlyMap<string, Method>;
  readonly rigs: ReadonlyMap<string, Rig>;
  readonly units: readonly Unit[];
  readonly studies: readonly Study[];
  /** Every file read, sorted by path. */
  readonly files: ReadonlyMap<string, ArchiveFile>;
  readonly problems: readonly Problem[];
}
