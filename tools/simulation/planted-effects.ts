/** Effects that can be planted, each alone or with others; sizes in `effectSizes`. */
export type PlantedEffect =
  | "outlier_key"
  | "moved_force"
  | "moved_pre_travel"
  | "position_effect"
  | "unit_position_effect"
  | "first_cycle"
  | "rig_drift"
  | "operator_offset"
  | "reader_offset";

/** Where each effect is, once planted. */
export const plantedPlaces = {
  outlier_key: { unit: "u02", key: "KeyP" },
  moved_force: { unit: "u03" },
  moved_pre_travel: { unit: "u04" },
  position_effect: { row: "B", units: "all" },
  unit_position_effect: { row: "B", unit: "u01" },
  first_cycle: { units: "all" },
  rig_drift: { rig: "tester-1", from: "2026-05-05", until: "2026-06-30" },
  operator_offset: { study: "crossed-1", operator: "operator-3" },
  reader_offset: { study: "readers-1", reader: "reader-b" },
} as const satisfies Readonly<Record<PlantedEffect, object>>;
