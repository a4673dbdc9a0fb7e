import type { Table, TableValue } from "../../src/figures/table.js";
import { isQuantity } from "../../src/metrology/quantity.js";
import type { Quantity } from "../../src/metrology/quantity.js";
import type { Verdict } from "../../src/metrology/verdict.js";
import { readArchive } from "../../src/records/index.js";
import type { Reports, Stated } from "../../tools/claims/open-reports.js";
import { reduceInProcess } from "../../tools/claims/reduce-in-process.js";
import type { Override } from "../records/make-archive.js";
import { withArchive } from "../records/make-archive.js";

export type Row = Table["rows"][number];

/** What a report states on the small valid archive with some files changed; refuses an archive with errors. */
export function stateOn(
  reports: Reports,
  name: string,
  overrides: Readonly<Record<string, Override>>,
  subject: string | null = null,
): Stated {
  return withArchive(overrides, (root) => stateAt(reports, name, root, subject));
}

/** The same on an archive in a folder. */
export function stateAt(reports: Reports, name: string, root: string, subject: string | null = null): Stated {
  const archive = readArchive(root);
  const error = archive.problems.find(({ severity }) => severity === "error");
  if (error !== undefined) throw new Error(`${error.file}:${error.line}: ${error.code}`);
  const reductions = reduceInProcess(archive, null);
  return reports.state(name, archive, reductions, subject === null ? null : [subject])[0]!;
}

export function rowsOf({ tables, report }: Stated, id: string): readonly Row[] {
  const table = tables.get(id);
  if (table === undefined) throw new Error(`${report} has no table "${id}"`);
  return table.rows;
}

/** The only row whose texts in these columns are these. */
export function rowWhere(stated: Stated, id: string, wanted: Readonly<Record<string, string>>): Row {
  const found = rowsOf(stated, id).filter((row) => Object.entries(wanted).every(([key, text]) => row[key] === text));
  if (found.length !== 1) throw new Error(`${found.length} rows of ${id} match ${JSON.stringify(wanted)}`);
  return found[0]!;
}

/** A cell that must hold a quantity, by itself or as a result. */
export function quantityIn(cell: TableValue | undefined): Quantity {
  const value =
    typeof cell === "object" && cell !== null && "kind" in cell && cell.kind === "result" ? cell.value : cell;
  if (typeof value !== "object" || value === null || !("absent" in value) || !isQuantity(value)) {
    throw new Error(`no quantity: ${JSON.stringify(value)}`);
  }
  return value;
}

export function countIn(value: TableValue | undefined): number {
  if (typeof value !== "object" || value === null || !("count" in value)) throw new Error("no count");
  return value.count;
}

export function outcomeOf({ criteria, report }: Stated, id: string): Verdict["outcome"] {
  const verdict = criteria.get(id);
  if (verdict === undefined) throw new Error(`${report} has no criterion "${id}"`);
  return verdict.outcome;
}

/** Questions that the report answers with yes, by what they are about. */
export function claimed(stated: Stated): readonly string[] {
  return rowsOf(stated, "claims").flatMap(({ question, about, says }) =>
    says === "yes" ? [`${question as string} ${about as string}`] : [],
  );
}
