import { expand } from "../metrology/expanded.js";
import { roundToPlaces } from "../metrology/print.js";
import type { LatencyContext } from "./context.js";
import { isSkewed } from "./latency-results.js";
import type { ConnectionLatency } from "./model.js";
import type { ObservedPress } from "./observed-press.js";
import { isValid } from "./observed-press.js";

/**
 * What a reviewer must be told beside the numbers of one connection, as whole clauses in a fixed order; empty where there
 * is nothing.
 */
export function connectionWarnings(
  result: Omit<ConnectionLatency, "warnings">,
  presses: readonly ObservedPress[],
  context: LatencyContext,
): readonly string[] {
  const { method } = context;
  const { counts, locks } = result.details;
  const warnings: string[] = [];
  if (context.settings[result.connection] === undefined) {
    warnings.push("session.yaml records no settings for this connection");
  }
  if (counts.recorded < method.presses) {
    warnings.push(`${counts.recorded} presses are recorded; the method asks for ${method.presses}`);
  } else if (counts.recorded > method.presses) {
    warnings.push(`${counts.recorded} presses are recorded, more than the method's ${method.presses}: all are used`);
  }
  for (const kind of ["missed", "double", "unreadable", "impossible", "incomplete"] as const) {
    if (counts[kind] === 0) continue;
    const numbers = presses.filter((press) => press.excluded === "" && press.fault?.kind === kind);
    warnings.push(`${faultWords[kind]}: press ${numbers.map((press) => press.press).join(", ")}`);
  }
  if (counts.valid >= method.minPresses && counts.valid !== method.presses && method.kept < method.presses) {
    warnings.push(`${result.kept} of ${counts.valid} valid presses are kept, the share that the method keeps`);
  }
  const rates = [...new Set(presses.filter((press) => press.readings.length > 0).map((press) => press.stepMs))];
  const asked = 1000 / method.frameRate.value;
  const off = method.observes === "film" ? rates.filter((step) => Math.abs(step - asked) > 0.005 * asked) : [];
  for (const step of off) {
    warnings.push(`film at ${(1000 / step).toFixed(0)} Hz; the method asks for ${method.frameRate.value} Hz`);
  }
  for (const lock of locks) {
    if (lock.status === "locked" || lock.status === "unknown") {
      const word = lock.status === "locked" ? "is locked" : "is not known to be random";
      warnings.push(
        `the phase against the ${lock.label} ${word}: ${lock.basis}; ${lock.addedMs.toFixed(2)} ms are added, undivided`,
      );
    }
  }
  if (method.observes === "film" && presses.length > 0) {
    const unstated = locks.filter((lock) => lock.status === "not_stated").map((lock) => lock.label);
    if (unstated.includes("polling interval")) {
      warnings.push("the polling rate is not recorded: a rhythm locked to it cannot be seen");
    }
  }
  warnings.push(...ofResults(result, presses));
  return warnings;
}

function ofResults(result: Omit<ConnectionLatency, "warnings">, presses: readonly ObservedPress[]): readonly string[] {
  const { latency, latencyKept, travel } = result;
  const warnings: string[] = [];
  for (const [name, value] of [
    ["the latency", latency] as const,
    ["the latency of the fastest", latencyKept] as const,
  ]) {
    if (!value.absent && value.value < 0) {
      warnings.push(`${name} is negative (${roundToPlaces(value.value, 2)} ms): more was subtracted than was observed`);
    }
  }
  if (!latency.absent && !travel.absent) {
    const { U } = expand(travel);
    if (U > Math.abs(latency.value)) {
      const sizes = `${U.toFixed(2)} ms against ${roundToPlaces(latency.value, 2)} ms`;
      warnings.push(`the travel term's U exceeds the latency itself (${sizes}): this latency is mostly travel`);
    }
  }
  const { skewness, keptBootstrap } = result.details;
  if (skewness !== null && isSkewed(skewness, result.valid) && keptBootstrap !== null) {
    warnings.push("the presses scatter skewly: read the bootstrap interval beside the mean of the fastest");
  }
  const notes = presses.filter((press) => press.notes.length > 0 && isValid(press));
  if (notes.length > 0) {
    warnings.push(`remarks on the reading of press ${notes.map((press) => press.press).join(", ")}`);
  }
  return warnings;
}

const faultWords = {
  missed: "no response",
  double: "two responses",
  unreadable: "unreadable",
  impossible: "response before contact",
  incomplete: "readings incomplete",
} as const;
