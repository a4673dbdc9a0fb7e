import type { CycleVariation } from "./cycle-variation.js";
import type { Raw } from "./described.js";
import type { CameraErrors, Reader } from "./film.js";
import type { HostSystem } from "./host-system.js";
import type { KeyShape } from "./key-shape.js";
import type { KeyboardChain } from "./keyboard-chain.js";
import type { TesterErrors, TesterSetting } from "./tester.js";
import type { ShapeShift } from "./unit-truth.js";

/** Everything an archive is made from: what its files say, and what is true. Nothing in a plan is random. */
export interface ArchivePlan {
  readonly seed: number;
  readonly lab: Raw;
  /** By file name without ending: `keystroke-2`. */
  readonly methods: Readonly<Record<string, Raw>>;
  readonly rigs: readonly RigPlan[];
  readonly units: readonly UnitPlan[];
  readonly studies: readonly StudyPlan[];
}

/** A rig's description, its record of checks, and what is really wrong with it on a given day. */
export interface RigPlan {
  readonly raw: Raw;
  readonly checks: readonly CheckRow[];
  /** Force testers. */
  readonly tester?: {
    readonly errors: (date: string) => TesterErrors;
    readonly setting: TesterSetting;
    /** Unit of measure of the exported force. */
    readonly forceColumn: "cN" | "gf";
  };
  /** Camera rigs, and the clocks of the others. */
  readonly camera?: { readonly errors: CameraErrors };
}

export interface CheckRow {
  readonly date: string;
  readonly kind: string;
  readonly unit: string;
  readonly characteristic: string;
  readonly value: number;
  readonly u: number;
  readonly reference: number;
  readonly symbol: string;
  readonly decimals: number;
}

export interface UnitPlan {
  readonly raw: Raw;
  /** The keys as they truly are, before any session's mounting. */
  readonly shapes: ReadonlyMap<string, KeyShape>;
  readonly chains: Readonly<Record<string, KeyboardChain>>;
  readonly sessions: readonly SessionPlan[];
}

export type SessionPlan = KeystrokeSessionPlan | FilmSessionPlan | TimingSessionPlan;

export interface KeystrokeSessionPlan {
  readonly kind: "keystroke";
  /** `session.yaml` */
  readonly raw: Raw;
  /** Standard deviations of this mounting, the same for all keys. */
  readonly mountCn: number;
  readonly mountMm: number;
  readonly cycles: CycleVariation;
  /** What happened to the unit before this session. */
  readonly shift?: ShapeShift;
  /** Where the contact is known from reports: their delay, drawn anew for every stroke. */
  readonly reportDelayMs?: readonly [least: number, most: number];
  /** Key and cycle of which the probe slipped off, and at which position. */
  readonly slip?: { readonly key: string; readonly cycle: number; readonly atMm: number };
}

export interface FilmSessionPlan {
  readonly kind: "film";
  readonly raw: Raw;
  readonly key: string;
  readonly host: HostSystem;
  readonly readers: readonly Reader[];
  readonly marks?: boolean;
  readonly shift?: ShapeShift;
  /** By connection: press number -> what became of it, or why it was taken out. */
  readonly outcomes?: Readonly<Record<string, Readonly<Record<number, "missed" | "double" | "unreadable">>>>;
  readonly excluded?: Readonly<Record<string, Readonly<Record<number, string>>>>;
}

export interface TimingSessionPlan {
  readonly kind: "timing";
  readonly raw: Raw;
  readonly key: string;
  /** What lies inside the time besides the chain, in ms: mean and standard deviation after the host's port. */
  readonly afterMs: readonly [mean: number, sd: number];
  /** Whether the plunger's travel lies inside it; then at this speed. */
  readonly plungerMmPerS?: number;
}

export interface StudyPlan {
  readonly raw: Raw;
  readonly readings: readonly StudyRow[];
}

export interface StudyRow {
  readonly unit?: string;
  readonly key?: string;
  readonly connection?: string;
  readonly operator?: string;
  readonly reader?: string;
  readonly rig?: string;
  readonly method?: string;
  readonly day?: string;
  readonly mount?: string;
  readonly repeat?: string;
  readonly characteristic: string;
  readonly value: number;
  readonly symbol: string;
  readonly decimals: number;
}
