import { sessionTimes } from "./calendar.js";
import type { Raw } from "./described.js";
import { randomFor } from "./random.js";

/** What every session says about itself. */
export interface SessionFacts {
  readonly unit: string;
  readonly id: string;
  readonly date: string;
  readonly rig: string;
  readonly firmware: string;
  readonly deviations?: readonly string[];
}

/** Room of a day: near 22 °C and 45 %. */
function room(seed: number, facts: SessionFacts): Raw {
  const random = randomFor(seed, "room", facts.unit, facts.date);
  return {
    temperature_degC: Math.round(220 + 8 * random.normal()) / 10,
    humidity_percent: Math.round(45 + 4 * random.normal()),
  };
}

const head = (facts: SessionFacts, method: string, start: string, minutes: number): Raw => ({
  id: facts.id,
  unit: facts.unit,
  method,
  rig: facts.rig,
  operator: "operator-1",
  ...sessionTimes(facts.date, start, minutes),
});

/** `session.yaml` of a keystroke session. */
export function keystrokeSessionRaw(
  seed: number,
  facts: SessionFacts & {
    readonly method: "keystroke@1" | "keystroke@2";
    readonly contactSource: "electrical" | "report";
    readonly exclusions?: readonly Raw[];
  },
): Raw {
  return {
    ...head(facts, facts.method, "09:10", facts.method === "keystroke@1" ? 24 : 57),
    press_speed_mm_per_s: 0.5,
    contact_source: facts.contactSource,
    firmware: facts.firmware,
    driver: "not recorded",
    software: facts.rig === "tester-1" ? "Column control 3.2" : "Bench export 1.9",
    environment: room(seed, facts),
    deviations: facts.deviations ?? [],
    exclusions: facts.exclusions ?? [],
  };
}

/** `session.yaml` of a film session. */
export function filmSessionRaw(
  seed: number,
  facts: SessionFacts & { readonly settings: Readonly<Record<string, Raw>> },
): Raw {
  return {
    ...head(facts, "latency@1", "13:20", 25 + 16 * Object.keys(facts.settings).length),
    press_speed_mm_per_s: 120,
    contact_source: "none",
    connections: facts.settings,
    firmware: facts.firmware,
    driver: "the system's own",
    software: "Response window 2.0",
    refresh_rate_Hz: 240,
    press_interval_ms: 1370,
    press_interval_jitter_ms: 120,
    environment: room(seed, facts),
    deviations: facts.deviations ?? [],
  };
}

/** `session.yaml` of a session of a candidate method with a timer. */
export function timingSessionRaw(
  seed: number,
  facts: SessionFacts & { readonly method: string; readonly settings: Readonly<Record<string, Raw>> },
): Raw {
  return {
    ...head(facts, facts.method, "10:05", 40),
    ...(facts.rig === "light-1" ? { press_speed_mm_per_s: 120 } : {}),
    contact_source: "none",
    connections: facts.settings,
    firmware: facts.firmware,
    driver: "the system's own",
    software: "Port timer 0.8",
    press_interval_ms: 731,
    press_interval_jitter_ms: 60,
    environment: room(seed, facts),
    deviations: facts.deviations ?? [],
  };
}
