import type { Archive } from "../records/archive.js";
import type { Problem } from "../records/problem.js";
import { problemMessage } from "../records/index.js";
import type { Reductions } from "../templates/subject/reductions.js";
import type { CriterionOutcome } from "./dossier-child.js";

/** Something a person should look at, though the run went on. */
export interface Attention {
  /** What kind of thing it is, for a machine and for grouping. */
  readonly kind: "record" | "curve" | "latency" | "criterion" | "retest";
  /** Unit, session or page. */
  readonly where: string;
  readonly text: string;
}

/** What the archive and its reductions ask a person to look at, in a fixed order. */
export function archiveAttention(
  archive: Archive,
  reductions: Reductions,
  problems: readonly Problem[],
): readonly Attention[] {
  return [
    ...problems.map((problem): Attention => ({
      kind: "record",
      where: `${problem.file}:${problem.line}`,
      text: problemMessage(problem),
    })),
    ...[...reductions].flatMap(([where, reduction]): Attention[] =>
      reduction.kind === "keystroke"
        ? reduction.flags.map((flag) => ({
            kind: "curve",
            where: [where, flag.key, flag.cycle > 0 ? `cycle ${flag.cycle}` : ""].filter(Boolean).join(" "),
            text: flag.message,
          }))
        : [...reduction.warnings, ...reduction.connections.flatMap(({ warnings }) => warnings)].map((text) => ({
            kind: "latency",
            where,
            text,
          })),
    ),
    ...retests(archive),
  ];
}

/** Units that were measured by a replaced method and not by the one that replaced it. */
function retests(archive: Archive): readonly Attention[] {
  return [...archive.methods.values()].flatMap((method) => {
    const { replaces } = method;
    if (replaces === undefined) return [];
    return archive.units.flatMap((unit): Attention[] => {
      const by = (id: string): boolean => unit.sessions.some((session) => session.method === id);
      if (!by(replaces) || by(method.id)) return [];
      const open =
        unit.status === "held" ? "is to be measured again" : `is ${unit.status} and cannot be measured again`;
      return [{ kind: "retest", where: unit.id, text: `measured by ${replaces} and not by ${method.id}; it ${open}` }];
    });
  });
}

/** Criteria of a page that were not met or could not be decided. */
export function criteriaAttention(page: string, criteria: readonly CriterionOutcome[]): readonly Attention[] {
  return criteria
    .filter(({ outcome }) => outcome !== "yes")
    .map(({ caption, id, outcome, statement }) => ({
      kind: "criterion",
      where: page,
      text: `${caption || id}: ${outcome === "no" ? "not met" : "undecided"}, ${statement}`,
    }));
}
