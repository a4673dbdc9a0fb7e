import type { Evidence, EvidenceRows } from "../metrology/evidence.js";
import type { FileRows } from "./line-ranges.js";
import { rowsByFile } from "./line-ranges.js";

/** One link of a chain of evidence: sibling steps of one operation with like notes, folded. */
export interface ChainStep<R> {
  readonly kind: "step";
  /**
   * Distinct wordings with how often each occurs: "mean of 3 cycles" 7 times, "mean of 2 cycles" once. Where there are more
   * than three, the first stands for all: `alike`.
   */
  readonly operations: readonly { readonly text: string; readonly times: number; readonly alike?: true }[];
  readonly notes: readonly string[];
  readonly from: Chain<R>;
}

/** What a step rests on: further steps, what is listed elsewhere, and raw rows. */
export interface Chain<R> {
  readonly steps: readonly ChainStep<R>[];
  readonly known: readonly R[];
  readonly rows: readonly FileRows[];
}

/** Key codes and numbers, which make the same operation read differently from one sibling to the next. */
const particular = /(?:(?<=\s)[-\u2212])?\b(?:(?:Key|Digit|Arrow|Intl|Bracket)[A-Za-z0-9]+|\d+(?:[.,]\d+)*)\b/g;

/** An operation without its keys and numbers: siblings of one operation have the same. */
export function alikeWords(operation: string): string {
  return operation.replace(particular, "#");
}

/** Most wordings that are listed of one folded step, and most notes. */
const listedWordings = 3;

/**
 * Folds the graph of evidence below `roots` into a chain a person can read: siblings of one operation and like notes become
 * one link with a count, a shared node appears once on each level, and a node that `known` names is cited rather than followed.
 * Roots themselves are always followed, unless `atRoot` names them.
 *
 * @param known gives what a node is listed as elsewhere: a printed number, a trace; or null
 */
export function foldEvidence<R>(
  roots: readonly Evidence[],
  known: (node: Evidence) => R | null,
  atRoot: (node: Evidence) => R | null = () => null,
): Chain<R> {
  return fold(roots, atRoot, known);
}

function fold<R>(nodes: readonly Evidence[], cite: (node: Evidence) => R | null, below: typeof cite): Chain<R> {
  const cited = new Set<R>();
  const rows: EvidenceRows[] = [];
  const groups = new Map<string, Extract<Evidence, { kind: "step" }>[]>();
  for (const node of new Set(nodes)) {
    const number = cite(node);
    if (number !== null) cited.add(number);
    else if (node.kind === "rows") rows.push(node);
    else {
      // What is noted of one must not be read as said of all: only siblings with like notes fold.
      const alike = `${alikeWords(node.operation)}\n${alikeWords(node.note ?? "")}`;
      const group = groups.get(alike);
      if (group === undefined) groups.set(alike, [node]);
      else group.push(node);
    }
  }
  return { known: [...cited], rows: rowsByFile(rows), steps: [...groups.values()].map((group) => step(group, below)) };
}

function step<R>(
  group: readonly Extract<Evidence, { kind: "step" }>[],
  below: (node: Evidence) => R | null,
): ChainStep<R> {
  const wordings = new Map<string, number>();
  for (const node of group) wordings.set(node.operation, (wordings.get(node.operation) ?? 0) + 1);
  const all = [...wordings].map(([text, times]) => ({ text, times }));
  const operations =
    all.length <= listedWordings ? all : [{ text: all[0]!.text, times: group.length, alike: true } as const];
  const notes = [...new Set(group.flatMap((node) => (node.note === undefined ? [] : [node.note])))];
  return {
    kind: "step",
    operations,
    notes,
    from: fold(
      group.flatMap((node) => node.inputs),
      below,
      below,
    ),
  };
}

/** Whether a chain ends in raw rows or in numbers whose own grounds do. */
export function reachesRows<R>(chain: Chain<R>): boolean {
  return chain.rows.length > 0 || chain.known.length > 0 || chain.steps.some((link) => reachesRows(link.from));
}

/** What evidence ends in, without the way there: raw rows by file, and what `known` names. */
export function evidenceEnds<R>(
  root: Evidence,
  known: (node: Evidence) => R | null,
): { readonly rows: readonly FileRows[]; readonly known: readonly R[] } {
  const seen = new Set<Evidence>([root]);
  const rows: EvidenceRows[] = [];
  const cited = new Set<R>();
  const visit = (node: Evidence): void => {
    if (node.kind === "rows") {
      rows.push(node);
      return;
    }
    for (const input of node.inputs) {
      if (seen.has(input)) continue;
      seen.add(input);
      const number = known(input);
      if (number === null) visit(input);
      else cited.add(number);
    }
  };
  visit(root);
  return { rows: rowsByFile(rows), known: [...cited] };
}
