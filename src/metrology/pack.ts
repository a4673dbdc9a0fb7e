import type { Evidence } from "./evidence.js";
import { Absent, Count, Quantity } from "./quantity.js";
import type { Source } from "./source.js";

/**
 * A structure of plain data, quantities, absences and counts as JSON: sources and evidence nodes stand once in tables,
 * however many quantities share them, and come back shared. Used between processes and in the store of reduced sessions.
 */
export interface Packed {
  readonly version: 1;
  readonly sources: readonly PackedSource[];
  readonly evidence: readonly PackedEvidence[];
  readonly root: unknown;
}

type PackedSource = Omit<Source, "dof"> & { readonly dof: number | null };
type PackedEvidence =
  | readonly ["r", file: string, firstLine: number, lastLine: number, columns: readonly string[]]
  | readonly ["s", operation: string, inputs: readonly number[], note?: string];

/** Marks a packed class; no plain object of ours has this key. */
const tag = "$benchfolio";

/** Packs a value made of JSON data, Quantity, Absent and Count. Throws on anything else, naming its path. */
export function pack(value: unknown): Packed {
  const sources: PackedSource[] = [];
  const sourceIndex = new Map<string, number>();
  const evidence: PackedEvidence[] = [];
  const evidenceIndex = new Map<Evidence, number>();

  const packSource = (source: Source): number => {
    let index = sourceIndex.get(source.id);
    if (index === undefined) {
      index = sources.length;
      sourceIndex.set(source.id, index);
      sources.push({ ...source, dof: Number.isFinite(source.dof) ? source.dof : null });
    }
    return index;
  };
  const packEvidence = (node: Evidence): number => {
    const known = evidenceIndex.get(node);
    if (known !== undefined) return known;
    const packed: PackedEvidence =
      node.kind === "rows"
        ? ["r", node.file, node.firstLine, node.lastLine, node.columns]
        : node.note === undefined
          ? ["s", node.operation, node.inputs.map(packEvidence)]
          : ["s", node.operation, node.inputs.map(packEvidence), node.note];
    const index = evidence.push(packed) - 1;
    evidenceIndex.set(node, index);
    return index;
  };
  const visit = (at: unknown, path: string): unknown => {
    if (at === null || typeof at === "string" || typeof at === "boolean") return at;
    if (typeof at === "number") {
      if (!Number.isFinite(at)) throw new TypeError(`cannot pack ${at} at ${path}`);
      return at;
    }
    if (at instanceof Quantity) {
      const parts = at.components.map((c) => [packSource(c.source), c.contribution]);
      return { [tag]: "quantity", v: at.value, s: at.symbol, c: parts, e: packEvidence(at.evidence) };
    }
    if (at instanceof Absent) {
      return { [tag]: "absent", s: at.symbol, r: at.reason, e: packEvidence(at.evidence) };
    }
    if (at instanceof Count) return { [tag]: "count", v: at.count, e: packEvidence(at.evidence) };
    if (Array.isArray(at)) return at.map((item, i) => visit(item, `${path}[${i}]`));
    if (typeof at === "object") {
      if (isEvidence(at)) return { [tag]: "evidence", e: packEvidence(at) };
      const prototype: unknown = Object.getPrototypeOf(at);
      if (prototype !== Object.prototype && prototype !== null) {
        throw new TypeError(`cannot pack an instance of ${at.constructor.name} at ${path}`);
      }
      return Object.fromEntries(
        Object.entries(at)
          .filter(([, item]) => item !== undefined)
          .map(([key, item]) => [key, visit(item, `${path}.${key}`)]),
      );
    }
    throw new TypeError(`cannot pack a ${typeof at} at ${path}`);
  };
  const root = visit(value, "value");
  return { version: 1, sources, evidence, root };
}

/** Restores what `pack` made; the caller states its type, as with JSON. Throws on another version. */
export function unpack(packed: Packed): unknown {
  if (packed.version !== 1) throw new RangeError(`packed data of version ${String(packed.version)}, expected 1`);
  const sources: Source[] = packed.sources.map((s) => Object.freeze({ ...s, dof: s.dof ?? Infinity }));
  const evidence: Evidence[] = [];
  for (const node of packed.evidence) {
    if (node[0] === "r") {
      evidence.push({ kind: "rows", file: node[1], firstLine: node[2], lastLine: node[3], columns: node[4] });
    } else {
      const step = { kind: "step" as const, operation: node[1], inputs: node[2].map((i) => evidence[i]!) };
      evidence.push(node[3] === undefined ? step : { ...step, note: node[3] });
    }
  }
  const visit = (at: unknown): unknown => {
    if (Array.isArray(at)) return at.map(visit);
    if (typeof at !== "object" || at === null) return at;
    const item = at as Record<string, unknown>;
    switch (item[tag]) {
      case "quantity": {
        const components = (item["c"] as [number, number][]).map(([i, contribution]) => ({
          source: sources[i]!,
          contribution,
        }));
        return new Quantity(item["v"] as number, item["s"] as string, components, evidence[item["e"] as number]!);
      }
      case "absent":
        return new Absent(item["s"] as string, item["r"] as string, evidence[item["e"] as number]!);
      case "count":
        return new Count(item["v"] as number, evidence[item["e"] as number]!);
      case "evidence":
        return evidence[item["e"] as number]!;
      default:
        return Object.fromEntries(Object.entries(item).map(([key, value]) => [key, visit(value)]));
    }
  };
  return visit(packed.root);
}

function isEvidence(value: object): value is Evidence {
  if (!("kind" in value)) return false;
  return (value.kind === "rows" && "firstLine" in value) || (value.kind === "step" && "operation" in value);
}
