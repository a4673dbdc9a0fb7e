import { Quantity } from "../../metrology/quantity.js";
import type { Archive, Study, StudyReading } from "../../records/archive.js";
import type { LabDescription } from "./views.js";
import { labDescription } from "./views.js";

/** `benchfolio/subject/study`: what is in scope of a template whose subject is a designed study. */
export interface StudyScope {
  readonly study: StudySubject;
  readonly lab: LabDescription;
}

export interface StudySubject extends Omit<Study, "readings"> {
  /** Every reading with its factors and its value as a quantity (no components: their scatter is the question). */
  readonly readings: readonly StudyValue[];
  /** Readings of one characteristic. */
  of(characteristic: string): readonly StudyValue[];
  /** Characteristics in order of first appearance. */
  readonly characteristics: readonly string[];
}

export interface StudyValue extends Omit<StudyReading, "value" | "symbol"> {
  readonly value: Quantity;
}

/** Builds the scope of one study. @throws RangeError where the archive has no such study */
export function studyScope(archive: Archive, studyId: string): StudyScope {
  const study = archive.studies.find(({ id }) => id === studyId);
  if (study === undefined) throw new RangeError(`the archive has no study "${studyId}"`);
  return { study: studySubject(study), lab: labDescription(archive.lab) };
}

/** A study as templates see it, on its own or among those of an archive or a rig. */
export function studySubject(study: Study): StudySubject {
  const readings = study.readings.map((reading): StudyValue => {
    const { value, symbol, ...factors } = reading;
    return { ...factors, value: new Quantity(value, symbol, [], reading.evidence) };
  });
  return {
    ...study,
    readings,
    characteristics: [...new Set(readings.map(({ characteristic }) => characteristic))],
    of: (characteristic) => readings.filter((reading) => reading.characteristic === characteristic),
  };
}
