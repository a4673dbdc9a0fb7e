import type { Deviation, Particular, RawFile, ReportItem, Statement, TitleBlock } from "../dossier/index.js";
import type { Subject } from "../templates/subjects.js";
import type { Archive, Method, Session, Unit } from "../records/archive.js";
import { reportItems } from "./report-items.js";

/** What stands around a template's text on the page: its title block, statements, deviations and raw files. */
export interface PageFrame {
  readonly titleBlock: TitleBlock;
  readonly statements: readonly Statement[];
  readonly deviations: readonly Deviation[];
  /** Those of the subject itself, its sessions, methods, rigs and studies. */
  readonly files: readonly RawFile[];
  /** The archive's others. */
  readonly otherFiles: readonly RawFile[];
  /** Of a unit's dossier, which is a test report. */
  readonly reportItems?: readonly ReportItem[];
}

const statementHeadings: Readonly<Record<string, string>> = {
  itemsTested: "Items tested",
  reproduction: "Reproduction",
  limitsOfUse: "What this dossier is not",
  safety: "Safety",
};

/** What a dossier is about: a kind of subject and its id, null for the whole archive. */
export interface FrameSubject {
  readonly subject: Subject;
  readonly id: string | null;
}

/** The frame of a draft about one subject. */
export function pageFrame(archive: Archive, about: FrameSubject, methods: readonly string[]): PageFrame {
  const sessions = sessionsOf(archive, about);
  const used = [...archive.methods.values()].filter(
    ({ id }) =>
      sessions.some((session) => session.method === id) || (about.subject === "archive" && methods.includes(id)),
  );
  const { lab } = archive;
  const titleBlock: TitleBlock = {
    number: null,
    revision: "none",
    item: itemOf(archive, about),
    methods: used.map(({ id, title }) => ({ id, title })),
    laboratory: { name: lab.name, address: lab.address, contact: lab.contact },
    customer: lab.customer,
    work: workDates(sessions),
    issued: null,
    approvedBy: null,
  };
  const statements = Object.entries(lab.statements).map(([name, text]) => ({
    heading: statementHeadings[name] ?? sentenceCase(name),
    text,
  }));
  const files = rawFiles(archive, about, sessions, used);
  const unit = about.subject === "unit" ? archive.units.find(({ id }) => id === about.id) : undefined;
  return {
    titleBlock,
    statements,
    ...(unit === undefined ? {} : { reportItems: reportItems(titleBlock, statements, unit) }),
    deviations: sessions.flatMap((session) => sessionDeviations(session)),
    files,
    otherFiles: [...archive.files.values()].filter((file) => !files.includes(file)),
  };
}

/** The sessions that a subject rests on; a study has none, its readings stand in its own file. */
function sessionsOf(archive: Archive, { subject, id }: FrameSubject): readonly Session[] {
  const all = archive.units.flatMap((unit) => unit.sessions);
  switch (subject) {
    case "unit":
      return all.filter((session) => session.unit === id);
    case "change": {
      const replaced = archive.methods.get(id ?? "")?.replaces;
      return all.filter((session) => session.method === id || session.method === replaced);
    }
    case "rig":
      return all.filter((session) => session.rig === id);
    case "study":
      return [];
    case "archive":
      return all;
  }
}

function itemOf(archive: Archive, { subject, id }: FrameSubject): TitleBlock["item"] {
  switch (subject) {
    case "unit":
      return unitItem(archive.units.find((unit) => unit.id === id)!);
    case "change": {
      const to = archive.methods.get(id ?? "");
      return {
        name: `Change of method, ${to?.replaces ?? ""} to ${to?.id ?? ""}`,
        particulars: [{ label: "In use since", text: to?.since ?? "not recorded" }],
      };
    }
    case "study": {
      const study = archive.studies.find((each) => each.id === id);
      return { name: study?.title ?? id ?? "", particulars: [{ label: "Study", text: id ?? "" }] };
    }
    case "rig": {
      const rig = archive.rigs.get(id ?? "");
      const particulars = [
        { label: "Rig", text: id ?? "" },
        { label: "Software", text: rig?.software ?? "not recorded" },
      ];
      return { name: rig?.description ?? id ?? "", particulars };
    }
    case "archive":
      return wholeArchive(archive);
  }
}

function unitItem(unit: Unit): TitleBlock["item"] {
  const particulars: Particular[] = [
    { label: "Unit", text: unit.id },
    { label: "Sample", text: unit.sampleNo },
    { label: "Received", text: unit.received },
    { label: "Obtained", text: unit.obtained },
    { label: "Condition", text: unit.condition },
    { label: "Status", text: unit.statusNote === "" ? unit.status : `${unit.status}: ${unit.statusNote}` },
  ];
  return { name: `${unit.maker} ${unit.model}`, particulars };
}

function wholeArchive(archive: Archive): TitleBlock["item"] {
  const models = new Set(archive.units.map(({ maker, model }) => `${maker} ${model}`));
  return {
    name: "All units of the archive",
    particulars: [
      { label: "Units", text: String(archive.units.length) },
      { label: "Models", text: String(models.size) },
    ],
  };
}

/** First and last day of measurement. */
function workDates(sessions: readonly Session[]): TitleBlock["work"] {
  const days = sessions.flatMap(({ start, end }) => [start.slice(0, 10), end.slice(0, 10)]).sort();
  return days.length === 0 ? null : { start: days[0]!, end: days.at(-1)! };
}

function sessionDeviations(session: Session): readonly Deviation[] {
  const where = `${session.unit}, session ${session.id} (${session.method})`;
  return [
    ...session.deviations.map((text) => ({ where, text, file: session.file, line: session.evidence.firstLine })),
    ...session.exclusions.map(({ key, cycle, reason, evidence }) => ({
      where: `${where}, ${key}, cycle ${cycle}`,
      text: `Excluded by hand: ${reason}`,
      file: evidence.file,
      line: evidence.firstLine,
    })),
  ];
}

/** The studies that a subject is, or has readings in. */
function studiesOf(archive: Archive, { subject, id }: FrameSubject): readonly (string | null)[] {
  if (subject === "study") return [id];
  if (subject !== "rig") return [];
  return archive.studies.filter(({ readings }) => readings.some(({ rig }) => rig === id)).map((study) => study.id);
}

/** The files that a page lists: of its units' folders and studies, of the methods and rigs they used, and the laboratory's. */
function rawFiles(
  archive: Archive,
  { subject, id }: FrameSubject,
  sessions: readonly Session[],
  methods: readonly Method[],
): readonly RawFile[] {
  const all = [...archive.files.values()];
  if (subject === "archive") return all;
  const rigs = new Set(subject === "rig" ? [id ?? ""] : sessions.map(({ rig }) => rig));
  const folders = [
    ...(subject === "unit" ? [`units/${id}`] : sessions.map(({ folder }) => folder)),
    ...studiesOf(archive, { subject, id }).map((study) => `studies/${study}`),
    ...[...rigs].map((rig) => `rigs/${rig}`),
  ];
  const described = new Set(["lab.yaml", ...methods.map(({ file }) => file)]);
  return all.filter(({ path }) => described.has(path) || folders.some((folder) => path.startsWith(`${folder}/`)));
}

function sentenceCase(name: string): string {
  const words = name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`).replaceAll("_", " ");
  return words.charAt(0).toUpperCase() + words.slice(1);
}
