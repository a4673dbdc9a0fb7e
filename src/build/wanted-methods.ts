import type { Archive, Method } from "../records/archive.js";
import { compareText } from "../records/problem.js";
import type { CompiledTemplate } from "../templates/compiled.js";
import type { Attention } from "./attention.js";

type MeasuringKind = Exclude<Method["kind"], "scoring">;

/** By which methods a template about units or an archive shows results. */
export interface WantedMethods {
  /** Method ids, most wanted first. */
  readonly ids: readonly string[];
  /** Kinds for which the template names methods that the archive lacks, so that the archive's own stand in. */
  readonly replaced: readonly MeasuringKind[];
}

/**
 * The methods that a template names. Of a kind for which it names none that the archive has, the archive's own methods
 * stand in, newest first and by id among those of one day: always where it names no method at all, else only for the kinds
 * of the absent ones, since leaving out a kind is a choice and naming an absent method is none. The kind of an absent
 * method is that of another version of it, else the one that its name says; where no name tells, both. A template about a
 * change, study or rig is left as it is.
 */
export function wantedMethods(
  template: Pick<CompiledTemplate, "subject" | "methods">,
  archive: Pick<Archive, "methods">,
): WantedMethods {
  const { methods: named, subject } = template;
  if (subject !== "unit" && subject !== "archive") return { ids: named, replaced: [] };
  if (named.length > 0 && named.every((id) => archive.methods.has(id))) return { ids: named, replaced: [] };
  const own = [...archive.methods.values()].sort((a, b) => compareText(b.since, a.since) || compareText(a.id, b.id));
  const covered = new Set(named.map((id) => archive.methods.get(id)?.kind));
  const asked = new Set(named.filter((id) => !archive.methods.has(id)).map((id) => kindOfAbsent(id, own)));
  const isOpen = named.length === 0 || (asked.size === 1 && asked.has(undefined) && covered.size === 1);
  const missing = kinds.filter((kind) => !covered.has(kind) && (isOpen || asked.has(kind)));
  const stand = missing.flatMap((kind) => own.filter((method) => method.kind === kind));
  return {
    ids: [...named, ...stand.map(({ id }) => id)],
    replaced: named.length === 0 ? [] : missing.filter((kind) => stand.some((method) => method.kind === kind)),
  };
}

const kinds = ["keystroke", "latency"] as const;

function kindOfAbsent(id: string, own: readonly Method[]): Method["kind"] | undefined {
  const stem = id.slice(0, id.indexOf("@"));
  return own.find((method) => method.id.startsWith(`${stem}@`))?.kind ?? kinds.find((kind) => kind === stem);
}

/** Says of each kind for which other methods stand in than a template names. */
export function methodsAttention(
  template: Pick<CompiledTemplate, "file" | "subject" | "methods">,
  archive: Pick<Archive, "methods">,
): readonly Attention[] {
  const { ids, replaced } = wantedMethods(template, archive);
  return replaced.map((kind) => {
    const used = ids.filter((id) => archive.methods.get(id)?.kind === kind);
    const text = `names no ${kind} method of this archive; ${used.join(", ")} stand${used.length === 1 ? "s" : ""} in`;
    return { kind: "retest", where: template.file, text };
  });
}
