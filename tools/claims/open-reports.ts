import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Table } from "../../src/figures/table.js";
import type { Verdict } from "../../src/metrology/verdict.js";
import type { Archive } from "../../src/records/archive.js";
import { planDossiers } from "../../src/build/plan-dossiers.js";
import { openTemplateCompiler } from "../../src/templates/compile/compile-template.js";
import type { CompiledTemplate } from "../../src/templates/compiled.js";
import type { TemplateRun } from "../../src/templates/outcome.js";
import { parseTemplate } from "../../src/templates/parse/parse-template.js";
import { runTemplate, stepId } from "../../src/templates/run/run-template.js";
import { archiveScope } from "../../src/templates/subject/archive.js";
import { changeScope } from "../../src/templates/subject/change.js";
import type { Reductions } from "../../src/templates/subject/reductions.js";
import { rigScope } from "../../src/templates/subject/rig.js";
import { studyScope } from "../../src/templates/subject/study.js";
import { unitScope } from "../../src/templates/subject/unit.js";
import type { ModuleExports } from "../../src/templates/template-modules.js";
import { loadTemplateModules, templateModules } from "../../src/templates/template-modules.js";
import { openPlainProcess } from "./plain-process.js";

/** What a report states: its tables and criteria by their ids. */
export interface Stated {
  /** `unit-dossier u02`, `variance-study`. */
  readonly report: string;
  readonly tables: ReadonlyMap<string, Table>;
  readonly criteria: ReadonlyMap<string, Verdict>;
}

export interface Reports {
  /**
   * Runs the work, table and criterion cells of a report; figures and prose state no claim of their own and are left out.
   * @param name `unit-dossier`, a template that ships
   * @param subjects ids of subjects; null: all
   * @throws Error where a cell fails
   */
  state(name: string, archive: Archive, reductions: Reductions, subjects: readonly string[] | null): readonly Stated[];
}

/** The package's own modules come from its sources, so that templates and reduction share their classes. */
const ownModules: Readonly<Record<string, () => Promise<ModuleExports>>> = {
  "benchfolio/keystroke": () => import("../../src/keystroke/index.js"),
  "benchfolio/latency": () => import("../../src/latency/index.js"),
  "benchfolio/statistics": () => import("../../src/statistics/index.js"),
  "benchfolio/comparison": () => import("../../src/comparison/index.js"),
  "benchfolio/metrology": () => import("../../src/metrology/index.js"),
  "benchfolio/figures": () => import("../../src/figures/index.js"),
  "benchfolio/words": () => import("../../src/templates/words/index.js"),
};

/**
 * Compiles templates that ship, once, with the declarations of the last build.
 * @param names `unit-dossier`
 * @throws Error where a template does not pass its check
 */
export async function openReports(names: readonly string[]): Promise<Reports> {
  const compiler = openTemplateCompiler();
  const templates = new Map(names.map((name) => [name, compileShipped(compiler, name)]));
  const wanted = new Set([...templates.values()].flatMap(({ modules }) => modules));
  const modules: Record<string, ModuleExports> = {};
  for (const specifier of wanted) {
    const own = ownModules[specifier];
    if (own === undefined) Object.assign(modules, await loadTemplateModules(templateModules(), [specifier]));
    else modules[specifier] = { ...(await own()) };
  }
  const process = openPlainProcess();
  const run = (template: CompiledTemplate, scope: object): TemplateRun =>
    runTemplate(template, { values: { ...scope }, modules }, process, { stopped: leftOut(template) });
  return {
    state: (name, archive, reductions, subjects) => {
      const template = templates.get(name);
      if (template === undefined) throw new RangeError(`the report ${name} was not compiled`);
      return planDossiers(template, archive, [])
        .filter(({ subjectId }) => subjects === null || subjectId === null || subjects.includes(subjectId))
        .map(({ subjectId }) => {
          const report = subjectId === null ? name : `${name} ${subjectId}`;
          return statedBy(report, run(template, scopeOf(template, archive, reductions, subjectId)));
        });
    },
  };
}

function compileShipped(compiler: ReturnType<typeof openTemplateCompiler>, name: string): CompiledTemplate {
  const file = fileURLToPath(new URL(`../../templates/${name}.md`, import.meta.url));
  const { compiled, problems } = compiler.compile(readFileSync(file, "utf8"), `templates/${name}.md`);
  const [first] = problems;
  if (first !== undefined || compiled === null) {
    throw new Error(`${file}:${first?.line ?? 1}: ${first?.message ?? "no known subject"} (is the build current?)`);
  }
  return compiled;
}

/** Figures and inline values, as slots that a run is told not to run. */
function leftOut({
  source,
  file,
  inlines,
}: CompiledTemplate): ReadonlyMap<string, { reason: "time"; limitMs: number }> {
  const figures = parseTemplate(source, file).cells.filter(({ role }) => role === "figure");
  const ids = [
    ...figures.map(({ index }) => stepId("cell", index)),
    ...inlines.map(({ index }) => stepId("inline", index)),
  ];
  return new Map(ids.map((id) => [id, { reason: "time", limitMs: 0 }]));
}

function scopeOf(template: CompiledTemplate, archive: Archive, reductions: Reductions, id: string | null): object {
  switch (template.subject) {
    case "unit":
      return unitScope(archive, reductions, id!, template.methods);
    case "change":
      return changeScope(archive, reductions, id!, template.methods);
    case "study":
      return studyScope(archive, id!);
    case "rig":
      return rigScope(archive, reductions, id!);
    case "archive":
      return archiveScope(archive, reductions, template.methods);
  }
}

function statedBy(report: string, { cells, file }: TemplateRun): Stated {
  const tables = new Map<string, Table>();
  const criteria = new Map<string, Verdict>();
  for (const outcome of cells) {
    const { role, id } = outcome.cell;
    if (role === "figure") continue;
    if (outcome.status !== "done") {
      throw new Error(`${report}: ${file}:${outcome.problem.line}: ${outcome.problem.message}`);
    }
    if (outcome.result?.kind === "table") tables.set(id!, outcome.result);
    if (outcome.result?.kind === "verdict") criteria.set(id!, outcome.result);
  }
  return { report, tables, criteria };
}
