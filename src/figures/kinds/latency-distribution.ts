import type { ConnectionLatency, PressReduction } from "../../latency/model.js";
import type { Chart } from "../chart.js";
import { checkOptions } from "../kit/options.js";
import { empiricalDistribution } from "./empirical-distribution.js";
import type { SampleReading } from "./empirical-panel.js";

/** What the figure reads of a connection. */
export type DrawnConnection = Pick<
  ConnectionLatency,
  "connection" | "presses" | "valid" | "kept" | "latency" | "latencyKept" | "median"
>;

export interface LatencyDistributionOptions {
  /** Coverage probability of the band, 0.95 unless given. */
  readonly level?: number;
}

/**
 * The latency of every press of every connection: its distribution with a confidence band, every press a tick, the mean L
 * of all valid presses beside the method's L_k, the mean of the fastest it keeps. Presses valid but not kept are short
 * ticks and stay in the curve; presses excluded by hand are crosses and do not.
 *
 * @param connections of one session, in the page's order; a connection without a valid press keeps its panel
 * @throws RangeError on an unknown option
 */
export function latencyDistribution(
  connections: readonly DrawnConnection[],
  options: LatencyDistributionOptions = {},
): Chart {
  checkOptions(options, ["level"], "latency distribution");
  return empiricalDistribution(connections, (connection) => connection.presses.map(readingOf), {
    of: "Latency",
    noun: "connection",
    readingNoun: "press",
    label: (connection) => connection.connection,
    marks: (connection) => [
      { name: "L", value: connection.latency },
      ...(connection.kept < connection.valid
        ? [{ name: `L${subscript(connection.kept)}`, value: connection.latencyKept }]
        : []),
      { name: "median", value: connection.median },
    ],
    ...(options.level === undefined ? {} : { level: options.level }),
  });
}

function readingOf(press: PressReduction): SampleReading {
  const standing = { kept: "counted", not_kept: "apart", excluded: "excluded", invalid: "excluded" } as const;
  return {
    name: `${press.key} ${press.press}`,
    value: press.latency,
    standing: standing[press.standing],
    reason: press.reason !== "" ? press.reason : press.outcome === "ok" ? "" : press.outcome,
  };
}

/** A count in subscript digits, as the method's result is written: L₁₀. */
function subscript(count: number): string {
  return [...String(count)].map((digit) => String.fromCodePoint(0x2080 + Number(digit))).join("");
}
