import { basename } from "node:path";
import type { Archive } from "../records/archive.js";
import type { CompiledTemplate } from "../templates/compiled.js";
import { changesOf } from "../templates/subject/change.js";
import type { Subject } from "../templates/subjects.js";
import { wantedMethods } from "./wanted-methods.js";

/** One dossier to build: which template, about what, and the name of its page. */
export interface PlannedDossier {
  readonly template: CompiledTemplate;
  /** Id of the unit, change (its new method), study or rig; null where the subject is the whole archive. */
  readonly subjectId: string | null;
  /** `unit-dossier-u07.html`, `catalogue.html`. */
  readonly page: string;
}

/**
 * The dossiers of a template: one a subject, in the archive's order, by the methods that `wantedMethods` settles on.
 * @param units only these units; empty: all
 */
export function planDossiers(
  template: CompiledTemplate,
  archive: Archive,
  units: readonly string[],
): readonly PlannedDossier[] {
  const stem = basename(template.file).replace(/\.[^.]*$/, "");
  const settled = { ...template, methods: wantedMethods(template, archive).ids };
  return subjectIds(template.subject, archive, units).map((subjectId) => ({
    template: settled,
    subjectId,
    page: subjectId === null ? `${stem}.html` : `${stem}-${subjectId.replaceAll("@", "-")}.html`,
  }));
}

/** A run that is narrowed to units makes only dossiers about units. */
function subjectIds(subject: Subject, archive: Archive, units: readonly string[]): readonly (string | null)[] {
  if (subject === "unit")
    return archive.units.map(({ id }) => id).filter((id) => units.length === 0 || units.includes(id));
  if (units.length > 0) return [];
  if (subject === "change") return changesOf(archive);
  if (subject === "study") return archive.studies.map(({ id }) => id);
  if (subject === "rig") return [...archive.rigs.keys()];
  return [null];
}
