import type { PlantedEffect } from "../simulation/planted-effects.js";
import { plantedPlaces } from "../simulation/planted-effects.js";
import type { Claim } from "./claims-of.js";

/** Where an effect must be found, once planted. */
export interface SoughtEffect {
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
    template: "unit-dossier",
    subject: unitOf("outlier_key"),
    units: [unitOf("outlier_key")],
    isFound: says("claims", "Actuation force", "stand out", plantedPlaces.outlier_key.key),
  },
  unit_position_effect: {
    template: "unit-dossier",
    subject: unitOf("unit_position_effect"),
    units: [unitOf("unit_position_effect")],
    isFound: says("claims", "Actuation force", "the row"),
  },
  moved_force: {
    template: "method-change",
    subject: "keystroke@2",
    units: null,
    isFound: says("moves", plantedPlaces.moved_force.unit, "Actuation force"),
  },
  moved_pre_travel: {
    template: "method-change",
    subject: "keystroke@2",
    units: null,
    isFound: says("moves", plantedPlaces.moved_pre_travel.unit, "Pre-travel"),
  },
  position_effect: {
    template: "variance-study",
    subject: null,
    units: null,
    isFound: says("claims", "the row of a key", "Actuation force"),
  },
  first_cycle: {
    template: "variance-study",
    subject: null,
    units: null,
    isFound: says("claims", "first cycle", "Actuation force"),
  },
  operator_offset: {
    template: "variance-study",
    subject: null,
    units: null,
    isFound: says("claims", "operators"),
  },
  rig_drift: {
    template: "rig-record",
    subject: plantedPlaces.rig_drift.rig,
    units: [],
    isFound: (claim) => claim.table === "claims" && /checks/.test(claim.row),
  },
  reader_offset: {
    template: "rig-record",
    subject: "camera-1",
    units: [],
    isFound: says("claims", "readers", plantedPlaces.reader_offset.reader),
  },
};
