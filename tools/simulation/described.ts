import type { KeystrokeMethod, LatencyMethod, Rig, Session, Unit } from "../../src/records/archive.js";
import { simulatedRows } from "./tester.js";

/** A description as a YAML file holds it: snake_case keys, units of measure in the keys. */
export type Raw = { readonly [key: string]: RawValue };
export type RawValue = string | number | boolean | readonly RawValue[] | Raw;

/** Suffixes of keys and the symbols they stand for, longest first. */
const symbols: readonly (readonly [suffix: string, symbol: string])[] = [
  ["_cN_per_mm", "cN/mm"],
  ["_mm_per_cN", "mm/cN"],
  ["_mm_per_s", "mm/s"],
  ["_percent", "%"],
  ["_ratio", "1"],
  ["_degC", "°C"],
  ["_min", "min"],
  ["_mm", "mm"],
  ["_cN", "cN"],
  ["_ms", "ms"],
  ["_Hz", "Hz"],
];

const camel = (name: string): string => name.replace(/_([a-z0-9])/g, (_, letter: string) => letter.toUpperCase());

function described(value: RawValue): unknown {
  if (typeof value !== "object") return value;
  if (Array.isArray(value)) return value.map((item: RawValue) => described(item));
  const entries = Object.entries(value as Raw).map(([key, inner]): [string, unknown] => {
    const found = typeof inner === "number" ? symbols.find(([suffix]) => key.endsWith(suffix)) : undefined;
    return found
      ? [camel(key.slice(0, -found[0].length)), { value: inner, symbol: found[1], evidence: simulatedRows }]
      : [camel(key), described(inner)];
  });
  return { ...Object.fromEntries(entries), file: "simulated", evidence: simulatedRows };
}

/**
 * Descriptions as the contracts of `src/records/archive.ts` hold them, without a detour over files; only of what this
 * simulator itself writes, so nothing is checked.
 */
export const describedMethod = (raw: Raw): KeystrokeMethod => described(raw) as KeystrokeMethod;
export const describedLatencyMethod = (raw: Raw): LatencyMethod => described(raw) as LatencyMethod;
export const describedRig = (raw: Raw): Rig => ({ ...(described(raw) as Rig), checks: [] });
export const describedSession = (raw: Raw, folder: string, files: readonly string[]): Session => ({
  ...(described({ exclusions: [], deviations: [], connections: {}, ...raw }) as Session),
  folder,
  files,
});
export const describedUnit = (raw: Raw, sessions: readonly Session[]): Unit => ({
  ...(described(raw) as Unit),
  sessions,
});
