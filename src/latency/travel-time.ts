import { mean } from "d3-array";
import { evidenceStep } from "../metrology/evidence.js";
import { Absent, Quantity } from "../metrology/quantity.js";
import type { Measured } from "../metrology/quantity.js";
import { divisorOf } from "../metrology/source.js";
import type { Component } from "../metrology/source.js";
import type { LatencyContext, PreTravelInput } from "./context.js";
import { sessionPath } from "./context.js";
import type { ObservedPress } from "./observed-press.js";
import { plungerSpeed } from "./plunger-speed.js";
import type { ReaderOffset } from "./reader-offset.js";
import { speedEffect } from "./speed-effect.js";

/** The time from first visible contact to the actuation position of one key, and what it rests on. */
export interface TravelTime {
  readonly travel: Measured<"ms">;
  readonly speed: Measured<"mm/s">;
  /** As a clause: "pre-travel of the pressed key over the rig's speed check". */
  readonly basis: string;
  readonly warnings: readonly string[];
}

const preTravelWords: Readonly<Record<PreTravelInput["of"], string>> = {
  pressed_key: "pre-travel of the pressed key",
  mean_of_other_keys: "mean pre-travel of the other keys",
  data_sheet: "pre-travel by the data sheet",
};

/**
 * Travel time of one key in one connection (measurement model, section 4): t = (p - z) / v, with p the pre-travel, z how
 * much later film sees contact than the tester, and v the plunger's mean speed over the pre-travel under load; at 2.0 mm
 * and 100 mm/s it is 20 ms, and 5 % of v is 1 ms of it.
 *
 * Components: those of the pre-travel, as they come in, times 1/v; those of the speed; the zero offset, by default 0 ±
 * one frame's travel, rectangular; and the pre-travel at plunger speed against tester speed, type B.
 *
 * @param presses valid presses of this key and connection
 * @returns absent where the key's pre-travel or the plunger's speed is not known or not above 0
 */
export function travelTime(
  key: string,
  presses: readonly ObservedPress[],
  offset: ReaderOffset,
  context: LatencyContext,
): TravelTime {
  const path = sessionPath(context);
  const input = context.preTravel[key];
  const none = (reason: string, speed: Measured<"mm/s">): TravelTime => ({
    travel: new Absent("ms", reason, evidenceStep("travel time", [])),
    speed,
    basis: "",
    warnings: [],
  });
  if (input === undefined) {
    const reason = `no pre-travel is known for ${key}`;
    return none(reason, new Absent("mm/s", reason));
  }
  const { preTravel } = input;
  if (preTravel.absent) return none(preTravel.reason, new Absent("mm/s", preTravel.reason, preTravel.evidence));
  if (!(preTravel.value > 0)) {
    const reason = `the pre-travel of ${key} is ${preTravel.value} mm; it must be above 0`;
    return none(reason, new Absent("mm/s", reason, preTravel.evidence));
  }
  const found = plungerSpeed(presses, preTravel, offset, context);
  if (found.speed.absent) return { ...none(found.speed.reason, found.speed), warnings: found.warnings };
  const speed = found.speed;
  const warnings = [...found.warnings];
  const zeroMm = context.zeroOffset?.value.value ?? 0;
  const value = (preTravel.value - zeroMm) / speed.value;
  const travelMs = 1000 * value;
  const perMm = 1000 / speed.value;
  const effect = speedEffect(speed.value, context);
  warnings.push(...effect.warnings);
  const components: Component[] = [
    ...preTravel.components.map((c) => ({ source: c.source, contribution: perMm * c.contribution })),
    ...speed.components.map((c) => ({ source: c.source, contribution: (-travelMs / speed.value) * c.contribution })),
    zeroOffset(presses, path, perMm, context),
    { source: effect.source, contribution: travelMs * effect.decades * effect.source.u },
  ];
  const basis = `${preTravelWords[input.of]} over ${found.basis}`;
  const inputs = [preTravel.evidence, speed.evidence];
  if (context.zeroOffset !== undefined) inputs.push(context.zeroOffset.value.evidence);
  return {
    travel: new Quantity(travelMs, "ms", components, evidenceStep(`travel time of ${key}: ${basis}`, inputs)),
    speed,
    basis,
    warnings,
  };
}

/** Where nothing is stated, one frame (or timer step) of travel, whatever the speed: so it is kept in frames. */
function zeroOffset(
  presses: readonly ObservedPress[],
  path: string,
  perMm: number,
  context: LatencyContext,
): Component {
  const head = {
    id: `${path}/zero-offset`,
    label: "Zero offset between the tester's touch and contact",
    type: "B" as const,
    distribution: "rectangular" as const,
    dof: Infinity,
  };
  const stated = context.zeroOffset?.halfWidth.value;
  if (stated === undefined) {
    const u = 1 / divisorOf("rectangular");
    return { source: { ...head, u, symbol: "frame" }, contribution: -u * (mean(presses, (p) => p.stepMs) ?? 0) };
  }
  if (!(stated >= 0)) throw new RangeError(`the half-width of the zero offset is ${stated} mm; it must be at least 0`);
  const u = stated / divisorOf("rectangular");
  return { source: { ...head, u, symbol: "mm" }, contribution: -perMm * u };
}
