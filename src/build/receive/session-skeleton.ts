import type { TableKind } from "./columns.js";

/** What a new session's description can already say. */
export interface SessionStart {
  readonly unit: string;
  readonly session: string;
  readonly kind: TableKind;
  readonly hasContact: boolean;
  /** Ids that the archive knows, for the comments. */
  readonly methods: readonly string[];
  readonly rigs: readonly string[];
  readonly roles: readonly string[];
  /** Connections that the readings name. */
  readonly connections: readonly string[];
}

/** Keys of a session that only people know and that a check asks for. */
export const toBeWritten: readonly string[] = ["method", "rig", "operator", "start", "end"];

/**
 * `session.yaml` for a session that has none: what is known is filled in, what may be is "not recorded", and what only
 * people know is left empty, so that a check names each of them until it is written.
 */
export function renderSessionSkeleton(start: SessionStart): string {
  const oneOf = (names: readonly string[]): string => (names.length === 0 ? "" : `    # one of ${names.join(", ")}`);
  const lines = [
    "# Fill in the five empty values; `benchfolio check` names them until they are there.",
    `id: ${start.session}`,
    `unit: ${start.unit}`,
    `method:${oneOf(start.methods)}`,
    `rig:${oneOf(start.rigs)}`,
    `operator:${oneOf(start.roles)}`,
    "start:    # as 2026-03-09T09:10:00Z",
    "end:",
    ...(start.kind === "timings"
      ? []
      : ["# press_speed_mm_per_s: 0.5    # the tester's, or the plunger's nominal speed"]),
    ...(start.kind === "force" ? contactLines(start.hasContact) : latencyLines(start.connections)),
    "firmware: not recorded",
    "driver: not recorded",
    "software: not recorded",
    "# environment: { temperature_degC: 22.0, humidity_percent: 45 }",
    "deviations: []",
    ...(start.kind === "force" ? ["exclusions: []    # such as { key: KeyP, cycle: 2, reason: The probe slipped off the keycap }"] : []), // prettier-ignore
  ];
  return `${lines.join("\n")}\n`;
}

function contactLines(hasContact: boolean): readonly string[] {
  return hasContact
    ? ["contact_source: electrical    # or report, where the keyboard's own report was recorded: it comes later"]
    : ["contact_source: none"];
}

function latencyLines(connections: readonly string[]): readonly string[] {
  return [
    "connections:",
    ...connections.map(
      (name) => `  ${name}: { polling_set: not recorded, debounce: not recorded, adapter: not recorded }`,
    ),
    "# refresh_rate_Hz: 240",
    "# press_interval_ms: 1370",
    "# press_interval_jitter_ms: 120",
  ];
}
