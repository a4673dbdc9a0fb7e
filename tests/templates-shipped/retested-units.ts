import type { Override } from "../records/make-archive.js";
import { forceTable, validArchive } from "../records/make-archive.js";

/** A unit that keystroke@1 measured on KeyF in January and, unless `isPending`, keystroke@2 on two keys in March 2026. */
export interface RetestedUnit {
  readonly id: string;
  /** Of the press force, in both sessions; tells units apart. */
  readonly offsetCn: number;
  /** Of the press force in the second session alone. */
  readonly movedCn?: number;
  readonly note?: string;
  readonly kind?: "tactile" | "clicky";
  readonly firmware?: readonly [before: string, after: string];
  readonly isPending?: boolean;
}

/** Files of such units, in place of the small archive's own unit `u01`, which is left without sessions. */
export function retestedUnits(units: readonly RetestedUnit[]): Record<string, Override> {
  const valid = validArchive();
  const gone = Object.keys(valid).filter((path) => /^(units|studies)\//.test(path));
  const session = (unit: string, id: string, method: string, day: string, firmware: string): string =>
    valid["units/u01/s1/session.yaml"]!.replace("id: s1\nunit: u01", `id: ${id}\nunit: ${unit}`)
      .replace("keystroke@2", method)
      .replaceAll("2026-03-09", day)
      .replace('firmware: "1.4"', `firmware: ${firmware}`)
      .replace(/exclusions: .*/, "exclusions: []");
  const shifted = (keys: readonly string[], byCn: number): string =>
    forceTable(keys, [1, 2]).replace(/^(Key.,\d,\w+,[\d.]+,)([\d.]+)/gm, (_, head: string, force: string) =>
      Number(force) === 0 ? `${head}${force}` : `${head}${(Number(force) + byCn).toFixed(2)}`,
    );
  const files = units.flatMap(({ id, offsetCn, movedCn = 0, note = "", kind = "tactile", firmware, isPending }) => {
    const [before, after] = firmware ?? ['"1.4"', '"1.4"'];
    const unit = valid["units/u01/unit.yaml"]!.replace("id: u01", `id: ${id}`)
      .replace("received: 2026-02-11", "received: 2025-12-01")
      .replace('status_note: ""', `status_note: "${note}"`)
      .replace("kind: tactile", `kind: ${kind}`);
    const second = [
      [`units/${id}/s2/session.yaml`, session(id, "s2", "keystroke@2", "2026-03-09", after)],
      [`units/${id}/s2/force.csv`, shifted(["KeyF", "KeyA"], offsetCn + movedCn)],
    ] as const;
    return [
      [`units/${id}/unit.yaml`, unit] as const,
      [`units/${id}/s1/session.yaml`, session(id, "s1", "keystroke@1", "2026-01-15", before)] as const,
      [`units/${id}/s1/force.csv`, shifted(["KeyF"], offsetCn)] as const,
      ...(isPending === true ? [] : second),
    ];
  });
  const checks = (text: string): string =>
    text
      .split("\n")
      .filter((line) => !line.includes("check_standard"))
      .join("\n");
  return {
    ...Object.fromEntries(gone.map((path) => [path, null])),
    "rigs/tester-1/checks.csv": checks,
    ...Object.fromEntries(files),
  };
}
