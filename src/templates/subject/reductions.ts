import type { KeyCharacteristic, KeystrokeReduction } from "../../keystroke/model.js";
import type { LatencyReduction } from "../../latency/model.js";

/** What stage one made of a session. */
export type SessionReduction = KeystrokeReduction | LatencyReduction;

/** Reduced sessions by `unit/session`. */
export type Reductions = ReadonlyMap<string, SessionReduction>;

export function reductionKey(unit: string, session: string): string {
  return `${unit}/${session}`;
}

/** Every characteristic of a key, in the order in which pages list them. */
export const keyCharacteristics: readonly KeyCharacteristic[] = [
  "preTravel",
  "actuationForce",
  "operatingForce",
  "peakPosition",
  "peakForce",
  "valleyPosition",
  "valleyForce",
  "tactileRatio",
  "resetPoint",
  "resetForce",
  "differentialTravel",
  "totalTravel",
  "bottomOutForce",
  "stiffness",
  "workToActuate",
  "workToBottom",
  "hysteresisLoss",
];
