/** A characteristic as the archive writes it, as code writes it, and the unit of measure in which results give it. */
export interface CharacteristicEntry {
  readonly name: string;
  readonly property: string;
  readonly symbol: string;
}

const table = {
  touch_point: "mm",
  touch_force: "cN",
  pre_travel: "mm",
  actuation_force: "cN",
  operating_force: "cN",
  peak_position: "mm",
  peak_force: "cN",
  valley_position: "mm",
  valley_force: "cN",
  tactile_ratio: "1",
  reset_point: "mm",
  reset_force: "cN",
  differential_travel: "mm",
  total_travel: "mm",
  bottom_out_force: "cN",
  stiffness: "cN/mm",
  work_to_actuate: "mJ",
  work_to_bottom: "mJ",
  hysteresis_loss: "mJ",
  latency: "ms",
  latency_kept: "ms",
} as const;

/** Canonical symbol by the archive's snake_case name, in the order of the reports. */
export const characteristicSymbols: Readonly<Record<string, string>> = table;

/** Every characteristic an archive may name, in the order of the reports. */
export const characteristics: readonly CharacteristicEntry[] = Object.entries(table).map(([name, symbol]) => ({
  name,
  property: camelCase(name),
  symbol,
}));

/** The archive's names of all characteristics. */
export const characteristicNames: readonly string[] = Object.keys(table);

const byName = new Map(characteristics.map((entry) => [entry.name, entry]));

/** The characteristic of a snake_case name; undefined where there is none. */
export function characteristicOf(name: string): CharacteristicEntry | undefined {
  return byName.get(name);
}

/** `pre_travel` to `preTravel`. */
export function camelCase(name: string): string {
  return name.replace(/_([a-z0-9])/g, (_, letter: string) => letter.toUpperCase());
}
