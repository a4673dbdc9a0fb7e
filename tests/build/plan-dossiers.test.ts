import { expect, test } from "vitest";
import { planDossiers } from "../../src/build/plan-dossiers.js";
import { readArchive } from "../../src/records/index.js";
import type { CompiledTemplate } from "../../src/templates/compiled.js";
import type { Subject } from "../../src/templates/subjects.js";
import { repository } from "../cli/run-benchfolio.js";

const archive = readArchive(`${repository}data`);

const template = (subject: Subject, file = "templates/my-report.md"): CompiledTemplate => ({
  file,
  source: "",
  subject,
  methods: [],
  modules: [],
  scopeNames: [],
  cells: [],
  inlines: [],
});
const pages = (subject: Subject, units: readonly string[] = []): readonly string[] =>
  planDossiers(template(subject), archive, units).map(({ page }) => page);

test("a unit template makes one page a unit, named by the template and the unit", () => {
  expect(pages("unit")).toHaveLength(18);
  expect(pages("unit", ["u07"])).toEqual(["my-report-u07.html"]);
});

test("the archive has one page, a change one for each method that replaced another, a study and a rig one each", () => {
  expect(pages("archive")).toEqual(["my-report.html"]);
  expect(pages("change")).toEqual(["my-report-keystroke-2.html"]);
  expect(pages("study")).toHaveLength(archive.studies.length);
  expect(pages("rig")).toHaveLength(archive.rigs.size);
});

test("a run that is narrowed to units makes only dossiers about units", () => {
  for (const subject of ["archive", "change", "study", "rig"] as const) expect(pages(subject, ["u01"])).toEqual([]);
});
