import type { Evidence } from "../metrology/evidence.js";
import { evidenceStep } from "../metrology/evidence.js";
import type { Measured } from "../metrology/quantity.js";
import type { KeyCharacteristic, KeyCharacteristics } from "./model.js";

/** Unit of measure of each characteristic. */
export const characteristicSymbols = {
  preTravel: "mm",
  actuationForce: "cN",
  operatingForce: "cN",
  peakPosition: "mm",
  peakForce: "cN",
  valleyPosition: "mm",
  valleyForce: "cN",
  tactileRatio: "1",
  resetPoint: "mm",
  resetForce: "cN",
  differentialTravel: "mm",
  totalTravel: "mm",
  bottomOutForce: "cN",
  stiffness: "cN/mm",
  workToActuate: "mJ",
  workToBottom: "mJ",
  hysteresisLoss: "mJ",
} as const satisfies Record<KeyCharacteristic, string>;

/** What was done for each characteristic, for its evidence. */
const operations: Readonly<Record<KeyCharacteristic, string>> = {
  preTravel: "touch to the closing of the contact, along the press",
  actuationForce: "force where the contact closes",
  operatingForce: "largest force from touch to actuation",
  peakPosition: "touch to the tactile peak",
  peakForce: "force at the tactile peak",
  valleyPosition: "touch to the valley after the peak",
  valleyForce: "force in the valley after the peak",
  tactileRatio: "(peak force - valley force) / peak force",
  resetPoint: "touch to the opening of the contact, on the release",
  resetForce: "force where the contact opens",
  differentialTravel: "actuation position less reset position",
  totalTravel: "touch to bottom-out",
  bottomOutForce: "force at bottom-out",
  stiffness: "slope of the linear part of the press",
  workToActuate: "area under the press from touch to actuation",
  workToBottom: "area under the press from touch to bottom-out",
  hysteresisLoss: "area between press and release from touch to bottom-out",
};

/** Names of all characteristics, in the order in which they are shown. */
export const characteristicNames = Object.keys(characteristicSymbols) as readonly KeyCharacteristic[];

/**
 * Builds a full set of characteristics, one call a name; the caller makes each in the symbol it is given.
 * @param make must return a quantity or an absence in that symbol
 * @throws TypeError where it does not
 */
export function buildCharacteristics(make: (name: KeyCharacteristic, symbol: string) => Measured): KeyCharacteristics {
  const entries = characteristicNames.map((name) => {
    const symbol = characteristicSymbols[name];
    const measured = make(name, symbol);
    if (measured.symbol !== symbol) throw new TypeError(`${name} is in ${measured.symbol}; it must be in ${symbol}`);
    return [name, measured] as const;
  });
  return Object.fromEntries(entries) as unknown as KeyCharacteristics;
}

/** The evidence of one characteristic, from what it was computed from. */
export function characteristicEvidence(
  name: KeyCharacteristic,
  inputs: readonly Evidence[],
  note?: string | undefined,
): Evidence {
  return evidenceStep(operations[name], inputs, note);
}
