import type { KeyCharacteristic, KeystrokeReduction } from "../../keystroke/model.js";
import type { LatencyReduction } from "../../latency/model.js";

/** What stage one made of a session. */
export type SessionReduction = KeystrokeReduction | LatencyReduction;

/** Reduced sessions by `reductionKey`, and those of replaced methods once more by `anewKey`. */
export type Reductions = ReadonlyMap<string, SessionReduction>;

export function reductionKey(unit: string, session: string): string {
  return `${unit}/${session}`;
}

/** Key of a session of a replaced method, reduced as the method that replaced it says. */
export function anewKey(unit: string, session: string, method: string): string {
  return `${unit}/${session} as ${method}`;
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
