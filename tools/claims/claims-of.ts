import type { TableValue } from "../../src/figures/table.js";
import type { Stated } from "./open-reports.js";

/** One claim as a report states it: the table it stands in, and the words of its row. */
export interface Claim {
  readonly report: string;
  readonly table: string;
  /** Texts of the row, joined: "Does a key stand out by its actuation force? | KeyP | Grubbs, two-sided". */
  readonly row: string;
}

/** Where reports state the claims that are controlled: a table, and the column that says yes or no. */
const controlled: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  "unit-dossier": { claims: "says" },
  "method-change": { moves: "says" },
  "variance-study": { claims: "says" },
  "rig-record": { claims: "says", rules: "shift" },
  "method-validation": { claims: "says" },
};

/** Templates that ship and state controlled claims. */
export const claimingReports: readonly string[] = Object.keys(controlled);

/**
 * The claims that a report states, read from its own tables: rows whose column says "yes", or holds a verdict of a change
 * whose outcome is yes.
 * @throws Error where the report lacks a table or column that should state claims
 */
export function claimsOf({ report, tables }: Stated): readonly Claim[] {
  const template = report.split(" ")[0]!;
  return Object.entries(controlled[template] ?? {}).flatMap(([id, column]) => {
    const found = tables.get(id);
    if (found === undefined) throw new Error(`${report} has no table "${id}", which should state its claims`);
    if (found.columns.every(({ key }) => key !== column))
      throw new Error(`table ${id} of ${report} has no column "${column}"`);
    return found.rows
      .filter((row) => saysYes(row[column]))
      .map((row): Claim => {
        const texts = Object.values(row).filter((value) => typeof value === "string");
        return { report, table: id, row: texts.join(" | ") };
      });
  });
}

function saysYes(value: TableValue | undefined): boolean {
  if (typeof value === "string") return value === "yes";
  return (
    typeof value === "object" &&
    value !== null &&
    "kind" in value &&
    value.kind === "verdict" &&
    value.outcome === "yes"
  );
}
