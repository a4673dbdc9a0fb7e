import type { Archive, Method } from "../../records/archive.js";
import type { ChangeSubject } from "./change.js";
import { changeSubject, changesOf } from "./change.js";
import type { Reductions } from "./reductions.js";
import type { StudySubject } from "./study.js";
import { studySubject } from "./study.js";
import type { UnitSubject } from "./unit.js";
import { unitSubject } from "./unit.js";
import type { LabDescription, RigView } from "./views.js";
import { labDescription } from "./views.js";

/** `benchfolio/subject/archive`: what is in scope of a template whose subject is the whole archive. */
export interface ArchiveScope {
  readonly archive: ArchiveSubject;
  readonly lab: LabDescription;
}

export interface ArchiveSubject {
  /** Every unit, by id. */
  readonly units: readonly UnitSubject[];
  /** Every method, by id. */
  readonly methods: readonly Method[];
  readonly rigs: readonly RigView[];
  /** Designed studies, their readings as quantities. */
  readonly studies: readonly StudySubject[];
  /** Every change of method, as its own template sees it. */
  readonly changes: readonly ChangeSubject[];
}

/** Builds the scope of the whole archive; `methods` are those of the template's front matter, most wanted first. */
export function archiveScope(archive: Archive, reductions: Reductions, methods: readonly string[]): ArchiveScope {
  return {
    archive: {
      units: archive.units.map((unit) => unitSubject(archive, reductions, unit, methods)),
      methods: [...archive.methods.values()],
      rigs: [...archive.rigs.values()],
      studies: archive.studies.map(studySubject),
      changes: changesOf(archive).map((id) => changeSubject(archive, reductions, id, methods)),
    },
    lab: labDescription(archive.lab),
  };
}
