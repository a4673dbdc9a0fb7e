import { effectSizes } from "../simulation/effect-sizes.js";
import type { PlantedEffect } from "../simulation/planted-effects.js";
import { plantedPlaces } from "../simulation/planted-effects.js";
import type { Claim } from "./claims-of.js";

/** Where an effect must be found, once planted. */
export interface SoughtEffect {
  /** The effect and its stated size. */
  readonly what: string;
  /** Report that must say so: template and, where it has several, subject. */
  readonly template: string;
  readonly subject: string | null;
  /** Units whose sessions that report rests on; null: all. */
  readonly units: readonly string[] | null;
  /** Whether a claim of that report names the effect. */
  readonly isFound: (claim: Claim) => boolean;
}

/** Rows are sentences, so that upper and lower case count alike. */
const says =
  (table: string, ...parts: readonly string[]) =>
  (claim: Claim): boolean =>
    claim.table === table && parts.every((part) => claim.row.toLowerCase().includes(part.toLowerCase()));

const unitOf = (effect: "outlier_key" | "unit_position_effect"): string => plantedPlaces[effect].unit;

/** Every effect that can be planted, with the report and the row that must claim it. */
export const soughtEffects: Readonly<Record<PlantedEffect, SoughtEffect>> = {
  outlier_key: {
    what: `${plantedPlaces.outlier_key.key} of one unit harder by ${effectSizes.outlierKeyCn} cN`,
    template: "unit-dossier",
    subject: unitOf("outlier_key"),
    units: [unitOf("outlier_key")],
    isFound: says("claims", "Actuation force", "stand out", plantedPlaces.outlier_key.key),
  },
  unit_position_effect: {
    what: `row ${plantedPlaces.unit_position_effect.row} of one unit harder by ${effectSizes.unitPositionCn} cN`,
    template: "unit-dossier",
    subject: unitOf("unit_position_effect"),
    units: [unitOf("unit_position_effect")],
    isFound: says("claims", "Actuation force", "the row"),
  },
  moved_force: {
    what: `one unit softer by ${-effectSizes.movedForceCn} cN at the retest`,
    template: "method-change",
    subject: "keystroke@2",
    units: null,
    isFound: says("moves", plantedPlaces.moved_force.unit, "Actuation force"),
  },
  moved_pre_travel: {
    what: `one unit closes ${effectSizes.movedPreTravelMm} mm later at the retest`,
    template: "method-change",
    subject: "keystroke@2",
    units: null,
    isFound: says("moves", plantedPlaces.moved_pre_travel.unit, "Pre-travel"),
  },
  position_effect: {
    what: `row ${plantedPlaces.position_effect.row} of all units harder by ${effectSizes.positionCn} cN`,
    template: "variance-study",
    subject: null,
    units: null,
    isFound: says("claims", "the row of a key", "Actuation force"),
  },
  first_cycle: {
    what: `first cycle harder by ${effectSizes.firstCycleCn} cN, halved with each cycle`,
    template: "variance-study",
    subject: null,
    units: null,
    isFound: says("claims", "first cycle", "Actuation force"),
  },
  operator_offset: {
    what: `one operator of three reads ${effectSizes.operatorCn} cN more and ${-effectSizes.operatorMm} mm less`,
    template: "variance-study",
    subject: null,
    units: null,
    isFound: says("claims", "operators"),
  },
  rig_drift: {
    what: `span of the force higher by ${(100 * effectSizes.spanRatio).toFixed(1)} % for eight weeks`,
    template: "rig-record",
    subject: plantedPlaces.rig_drift.rig,
    units: [],
    isFound: (claim) => claim.table === "claims" && /checks/.test(claim.row),
  },
  reader_offset: {
    what: `one reader of two sees the response ${effectSizes.readerFrames} frame late`,
    template: "rig-record",
    subject: "camera-1",
    units: [],
    isFound: says("claims", "readers", plantedPlaces.reader_offset.reader),
  },
};
