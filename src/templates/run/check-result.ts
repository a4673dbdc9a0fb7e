import { checkLinkAddress } from "../../figures/link.js";
import { Absent, Count, Quantity } from "../../metrology/quantity.js";
import { verdictWordings } from "../../metrology/verdict.js";
import type { Role } from "../outcome.js";
import type { Wording } from "../problem.js";
import { bareNumber, notPrintable, wrongResult } from "../shared-wording.js";

type Fields = Readonly<Record<string, unknown>>;

/**
 * Whether what a cell returned is what its role asks for. The compiler has said so already unless a cell turned a type
 * into `any`; then this is what keeps a number without evidence off the page.
 * @returns null where it is
 */
export function checkCellResult(role: Role, value: unknown): Wording | null {
  if (role === "work") return null;
  const refuse = (found: string): Wording => wrongResult(role, found);
  if (!isFields(value)) return refuse(describe(value));
  if (role === "figure") return checkChart(value, refuse);
  if (role === "table") return checkTable(value, refuse);
  const fault = verdictFault(value);
  return fault === null ? null : refuse(fault);
}

/** Whether a value may be printed in the text; `ids` are those that a reference may point to. */
export function checkPrintable(value: unknown, ids: readonly string[]): Wording | null {
  if (!isFields(value) || value.kind !== "phrase") return checkSingle(value, ids);
  if (!Array.isArray(value.parts)) return notPrintable("a phrase without parts");
  for (const part of value.parts as unknown[]) {
    const refused = checkSingle(part, ids);
    if (refused !== null) return refused;
  }
  return null;
}

function checkSingle(value: unknown, ids: readonly string[]): Wording | null {
  if (typeof value === "number" || typeof value === "bigint") return bareNumber;
  if (typeof value === "string" || isNumber(value)) return null;
  if (!isFields(value)) return notPrintable(describe(value));
  if (value.kind === "reference") {
    return ids.includes(value.target as string) ? null : notPrintable("a reference to a cell that is not there");
  }
  if (value.kind === "link") {
    const safe = typeof value.text === "string" && typeof value.href === "string" && checkLinkAddress(value.href) === null;
    return safe ? null : notPrintable("a link that leads out of the dossiers");
  }
  if (value.kind === "result") {
    if (typeof value.value === "number") return bareNumber;
    const fault = resultFault(value);
    return fault === null ? null : notPrintable(fault);
  }
  const fault = verdictFault(value);
  return fault === null ? null : notPrintable(fault);
}

function checkChart(value: Fields, refuse: (found: string) => Wording): Wording | null {
  if (value.kind !== "chart") return refuse(describe(value));
  if (!Array.isArray(value.marks)) return refuse("a chart without marks");
  if (typeof value.finding !== "string" || value.finding.trim() === "") return refuse("a chart without a finding");
  if (!isFields(value.x) || !isFields(value.y)) return refuse("a chart without its two axes");
  const { data } = value;
  if (!isFields(data) || !Array.isArray(data.columns) || !Array.isArray(data.rows)) {
    return refuse("a chart without the data that it shows");
  }
  const width = data.columns.length;
  const uneven = (data.rows as unknown[]).findIndex((row) => !Array.isArray(row) || row.length !== width);
  return uneven < 0 ? null : refuse(`a chart whose data has other than ${width} cells in row ${uneven + 1}`);
}

function checkTable(value: Fields, refuse: (found: string) => Wording): Wording | null {
  if (value.kind !== "table") return refuse(describe(value));
  if (!Array.isArray(value.columns) || !Array.isArray(value.rows)) return refuse("a table without columns or rows");
  if (typeof value.finding !== "string") return refuse("a table without a finding");
  const { filters } = value;
  if (filters !== undefined && !(Array.isArray(filters) && filters.every((key) => typeof key === "string"))) {
    return refuse("a table whose filters are no list of columns");
  }
  for (const [index, row] of (value.rows as unknown[]).entries()) {
    if (!isFields(row)) return refuse(`a table whose row ${index + 1} is ${describe(row)}`);
    for (const { key } of value.columns as { key: string }[]) {
      const cell = row[key];
      if (typeof cell === "number" || typeof cell === "bigint") {
        return { ...bareNumber, message: `row ${index + 1} of the table holds a bare number under "${key}": ${bareNumber.message}` };
      }
      const fine = cell === null || typeof cell === "string" || isNumber(cell);
      const other = fine || !isFields(cell) || cell.kind === "link" ? null : cellFault(cell);
      if (other !== null || (!fine && !isFields(cell))) {
        return refuse(`a table with ${other ?? describe(cell)} in row ${index + 1} under "${key}"`);
      }
    }
  }
  return null;
}

function cellFault(cell: Fields): string | null {
  return cell.kind === "result" ? resultFault(cell) : verdictFault(cell);
}

/** What keeps an object that says it is a result from being one; null where it is. */
function resultFault({ label, value, verdict }: Fields): string | null {
  if (typeof label !== "string" || !isNumber(value)) return "a result without label or value";
  const fault = verdict === undefined ? null : verdictFault(verdict);
  return fault === null ? null : `a result with ${fault}`;
}

/** What keeps a value from being a verdict; null where it is one. */
function verdictFault(value: unknown): string | null {
  if (!isFields(value) || value.kind !== "verdict") return describe(value);
  const { family, outcome, statement, rule, cites } = value;
  if (typeof family !== "string" || !(family in verdictWordings)) return "a verdict of no known family";
  if (outcome !== "yes" && outcome !== "no" && outcome !== "undecided") return "a verdict without an outcome";
  if (typeof statement !== "string" || typeof rule !== "string") return "a verdict without statement or rule";
  return Array.isArray(cites) && cites.every(isNumber) ? null : "a verdict that cites something else than quantities";
}

/** The three things that carry a number with its evidence. */
function isNumber(value: unknown): value is Quantity | Absent | Count {
  return value instanceof Quantity || value instanceof Absent || value instanceof Count;
}

function isFields(value: unknown): value is Fields {
  return typeof value === "object" && value !== null;
}

function describe(value: unknown): string {
  if (value === undefined) return "nothing";
  if (value === null) return "null";
  if (typeof value === "boolean") return "true or false";
  if (typeof value === "number") return "a bare number";
  if (typeof value === "string") return "a text";
  if (Array.isArray(value)) return "a list";
  if (isNumber(value)) return value instanceof Count ? "a count" : "a quantity";
  const kind = isFields(value) ? value.kind : undefined;
  return typeof kind === "string" && /^[a-z_]{1,30}$/.test(kind) ? `a ${kind}` : `a value of the kind ${typeof value}`;
}
