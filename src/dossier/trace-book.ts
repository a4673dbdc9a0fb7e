import type { Evidence, EvidenceStep } from "../metrology/evidence.js";
import { alikeWords } from "./chain.js";
import type { Ground, GroundBook } from "./ground-book.js";
import { isVerdict } from "./ground-book.js";
import type { FileRows } from "./line-ranges.js";
import { rowsByFile } from "./line-ranges.js";

/** A run of raw rows that several numbers rest on, named once and cited by its number. */
export interface Trace {
  readonly kind: "trace";
  /** 1-based, in page order; the mark is `T${number}`. */
  readonly number: number;
  readonly operation: string;
  readonly note: string | null;
  readonly rows: readonly FileRows[];
}

/** Traces that follow one another, read the same files and differ in no more than keys and numbers. */
export interface TraceGroup {
  readonly traces: readonly Trace[];
  /** Rows that every trace of the group has; none of them stand in `own`. */
  readonly common: readonly FileRows[];
  /** By trace: the rows that are its own. */
  readonly own: readonly (readonly FileRows[])[];
}

/**
 * Finds the last steps of the evidence, those that rest on nothing but raw rows, to which two ways or more lead from the
 * numbers of a page: from two numbers, or from one along two steps. They are then listed once, and every ground cites them in place of their files and lines.
 */
export class TraceBook {
  readonly #byNode = new Map<Evidence, Trace>();

  constructor(book: GroundBook) {
    const ways = new Map<EvidenceStep, number>();
    const reach = (node: Evidence, seen: Set<Evidence>, isRoot: boolean): void => {
      if (node.kind === "rows") return;
      if (isLastStep(node)) ways.set(node, (ways.get(node) ?? 0) + 1);
      if (seen.has(node) || (!isRoot && book.numberAt(node) !== null)) return;
      seen.add(node);
      for (const input of node.inputs) reach(input, seen, false);
    };
    for (const evidence of printedEvidence(book.all)) reach(evidence, new Set(), true);
    for (const [node, count] of ways) {
      if (count < 2 || !isLastStep(node) || book.numberAt(node) !== null) continue;
      const number = this.#byNode.size + 1;
      const rows = rowsByFile(node.inputs.filter((input) => input.kind === "rows"));
      this.#byNode.set(node, { kind: "trace", number, operation: node.operation, note: node.note ?? null, rows });
    }
  }

  /** The trace that a node is; null where it is none. */
  at(node: Evidence): Trace | null {
    return this.#byNode.get(node) ?? null;
  }

  /** All traces in groups, in page order. */
  groups(): readonly TraceGroup[] {
    const groups: Trace[][] = [];
    let open = "";
    for (const trace of this.#byNode.values()) {
      const alike = JSON.stringify([alikeWords(trace.operation), trace.note, trace.rows.map(({ file }) => file)]);
      if (alike === open) groups.at(-1)!.push(trace);
      else groups.push([trace]);
      open = alike;
    }
    return groups.map((traces) => {
      const common = traces[0]!.rows.filter((rows) =>
        traces.every((trace) => trace.rows.some((own) => sameRows(own, rows))),
      );
      const shared = traces.length === 1 ? [] : common;
      const own = traces.map(({ rows }) => rows.filter((row) => !shared.some((other) => sameRows(other, row))));
      return { traces, common: shared, own };
    });
  }
}

function printedEvidence(grounds: readonly Ground[]): readonly Evidence[] {
  const subjects = grounds.flatMap(({ entries }) => entries.map(({ subject }) => subject));
  return subjects.flatMap((subject) => (isVerdict(subject) ? [] : [subject.evidence]));
}

function isLastStep(node: EvidenceStep): boolean {
  return node.inputs.length > 0 && node.inputs.every(({ kind }) => kind === "rows");
}

function sameRows(a: FileRows, b: FileRows): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
