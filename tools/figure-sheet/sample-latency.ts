import type { DrawnConnection } from "../../src/figures/kinds/latency-distribution.js";
import type { PressReduction } from "../../src/latency/model.js";
import { evidenceStep } from "../../src/metrology/evidence.js";
import { Absent } from "../../src/metrology/quantity.js";
import { measured, scatter } from "./sample-keys.js";

/** An invented connection of 14 presses, the 11 fastest kept; one excluded by hand and one missed where asked for. */
export function sampleConnection(
  connection: string,
  meanMs: number,
  sdMs: number,
  seed: number,
  withTrouble = false,
): DrawnConnection {
  const { normal } = scatter(seed);
  const values = Array.from({ length: 14 }, () => meanMs + sdMs * normal());
  const trouble = (index: number): PressReduction["standing"] | undefined =>
    withTrouble ? ({ 4: "excluded", 9: "invalid" } as const)[index] : undefined;
  const valid = values.flatMap((value, index) => (trouble(index) === undefined ? [{ value, index }] : []));
  const kept = new Set(
    [...valid]
      .sort((a, b) => a.value - b.value)
      .slice(0, valid.length - 3)
      .map(({ index }) => index),
  );
  const mean = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0) / numbers.length;
  const presses = values.map((value, index): PressReduction => {
    const id = `${connection}/${index}`;
    const standing = trouble(index) ?? (kept.has(index) ? "kept" : "not_kept");
    const latency = standing === "invalid" ? new Absent("ms", "the press was missed") : measured(value, "ms", 0.4, id);
    return {
      press: index + 1,
      key: "KeyF",
      observed: latency,
      latency,
      outcome: standing === "invalid" ? "missed" : "ok",
      standing,
      reason: standing === "excluded" ? "plunger touched the neighbouring key" : "",
      evidence: evidenceStep("invented press", []),
    };
  });
  const ms = (value: number, u: number, name: string): ReturnType<typeof measured<"ms">> =>
    measured(value, "ms", u, `${connection}/${name}`);
  const all = valid.map(({ value }) => value);
  const fastest = valid.filter(({ index }) => kept.has(index)).map(({ value }) => value);
  return {
    connection,
    presses,
    valid: valid.length,
    kept: kept.size,
    latency: ms(mean(all), sdMs / 3.7 + 0.3, "L"),
    median: ms([...all].sort((a, b) => a - b)[Math.floor(all.length / 2)]!, sdMs / 3 + 0.3, "median"),
    latencyKept: ms(mean(fastest), sdMs / 3.3 + 0.3, "Lk"),
  };
}
