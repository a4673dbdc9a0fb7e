/**
 * Evidence: the graph that leads from a printed number back to raw rows, as plain data.
 *
 * A node is shared by reference, so a graph is a directed acyclic graph and not a tree. Ids are given at publication,
 * in page order; nothing here numbers anything.
 */

/** A run of lines in one file of the archive. Only `records/` makes these. */
export interface EvidenceRows {
  readonly kind: "rows";
  /** Path relative to the archive's root, with forward slashes. */
  readonly file: string;
  /** 1-based, inclusive, in the original file. */
  readonly firstLine: number;
  readonly lastLine: number;
  /** Column names of a CSV file, or the dotted path of a YAML value. */
  readonly columns: readonly string[];
}

/** A computation over other evidence. */
export interface EvidenceStep {
  readonly kind: "step";
  /** What was done, in a few words a reviewer understands: "mean of 8 keys". */
  readonly operation: string;
  readonly inputs: readonly Evidence[];
  /** Something a reviewer must know about this step, such as what was left out and why. */
  readonly note?: string;
}

export type Evidence = EvidenceRows | EvidenceStep;

/** Builds a step of evidence; repeated inputs are kept once, in order of first appearance. */
export function evidenceStep(operation: string, inputs: readonly Evidence[], note?: string): EvidenceStep {
  const unique = [...new Set(inputs)];
  return note === undefined
    ? { kind: "step", operation, inputs: unique }
    : { kind: "step", operation, inputs: unique, note };
}

/** All raw-row leaves below a node, each once, in order of first appearance. */
export function evidenceLeaves(evidence: Evidence): readonly EvidenceRows[] {
  const seen = new Set<Evidence>();
  const leaves: EvidenceRows[] = [];
  const visit = (node: Evidence): void => {
    if (seen.has(node)) return;
    seen.add(node);
    if (node.kind === "rows") leaves.push(node);
    else node.inputs.forEach(visit);
  };
  visit(evidence);
  return leaves;
}
