import type { BaselineShot } from "../records/readings.js";

/** What one shot of the baseline gives for the subtraction. */
export interface SubtractedShot {
  readonly valueMs: number;
  /** The baseline device's input part was not separated in this shot, and a declared value was taken off. */
  readonly declaredInput: boolean;
}

/**
 * The sum of the parts to subtract from one shot of the baseline, never the device's own input.
 *
 * The parts themselves where the shot separates them; for computer and display together also total minus input; and
 * where the input is not separated, total minus the declared input. null where none of these can be formed, or where a
 * part needed is below 0 or not finite.
 *
 * @param declaredInputMs the baseline device's input part as declared for the rig; null where it is not
 */
export function subtractedMs(
  shot: BaselineShot,
  parts: readonly ("pc" | "display")[],
  declaredInputMs: number | null,
): SubtractedShot | null {
  const values = parts.map((part) => (part === "pc" ? shot.pcMs : shot.displayMs));
  if (values.every(isDuration)) return { valueMs: values.reduce((a, b) => a + b, 0), declaredInput: false };
  if (new Set(parts).size < 2 || !isDuration(shot.totalMs)) return null;
  const input = isDuration(shot.inputMs) ? shot.inputMs : declaredInputMs;
  if (input === null) return null;
  const valueMs = shot.totalMs - input;
  return valueMs >= 0 ? { valueMs, declaredInput: !isDuration(shot.inputMs) } : null;
}

function isDuration(value: number | null): value is number {
  return value !== null && value >= 0 && Number.isFinite(value);
}
