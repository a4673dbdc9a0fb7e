import { existsSync, readFileSync, readdirSync, rmSync, statSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import writeFileAtomic from "write-file-atomic";
import { readArchive } from "../records/index.js";
import type { Archive } from "../records/archive.js";
import type { Problem } from "../records/problem.js";
import { compareText } from "../records/problem.js";
import { openTemplateCompiler } from "../templates/compile/compile-template.js";
import type { Compilation } from "../templates/compile/compile-template.js";
import type { TemplateProblem } from "../templates/outcome.js";
import type { SealedChild } from "../templates/sealed/open-sealed-child.js";
import { openSealedChild } from "../templates/sealed/open-sealed-child.js";
import type { Attention } from "./attention.js";
import { archiveAttention, criteriaAttention } from "./attention.js";
import { writeBundle } from "./bundle.js";
import { makeFolder } from "./make-folder.js";
import type { DossierReply, DossierRequest } from "./dossier-child.js";
import type { PlannedDossier } from "./plan-dossiers.js";
import { planDossiers } from "./plan-dossiers.js";
import { reduceArchive, reduceTasks } from "./reduce-archive.js";
import { openStore } from "./store.js";
import { readTool } from "./tool.js";
import { methodsAttention } from "./wanted-methods.js";

export interface DraftOptions {
  /** Folder of the archive. */
  readonly data: string;
  /** Folder that the pages are written to; the reduced sessions are kept in `.reduced` inside it. */
  readonly out: string;
  /** Template files; the templates that ship where empty. */
  readonly templates: readonly string[];
  /** Only dossiers of these units; empty: all, and the catalogue. */
  readonly units: readonly string[];
  /** Processes that work side by side, at least 1. */
  readonly workers: number;
  /** Reduces every session anew. */
  readonly fresh: boolean;
  /** Told of the stages: `Reducing sessions` of 31. */
  readonly onStage: (stage: string, total: number) => StageProgress;
}

export interface StageProgress {
  step(): void;
  done(): void;
}

/** What a run made and met. Paths of pages are relative to the output folder. */
export interface DraftResult {
  readonly pages: readonly { readonly page: string; readonly bytes: number }[];
  /** Problems of the archive, errors first; with an error nothing was written. */
  readonly archiveProblems: readonly Problem[];
  readonly templateProblems: readonly TemplateProblem[];
  readonly attention: readonly Attention[];
  readonly units: number;
  readonly sessions: { readonly reduced: number; readonly reused: number };
  /** The archive as read, for showing its problems in their place. */
  readonly archiveRoot: string;
}

/** A name in the options that nothing answers to; the caller words it for the user. */
export class UnknownName extends Error {
  readonly wanted: string;
  readonly known: readonly string[];

  constructor(message: string, wanted: string, known: readonly string[]) {
    super(message);
    this.wanted = wanted;
    this.known = known;
  }
}

const shipped = [
  "catalogue",
  "unit-dossier",
  "method-change",
  "variance-study",
  "rig-record",
  "retest-plan",
  "method-validation",
];

/** The templates that ship, in the order in which their pages are made. */
export function shippedTemplates(): readonly string[] {
  const folder = fileURLToPath(new URL("../../templates/", import.meta.url));
  return shipped.map((name) => join(folder, `${name}.md`));
}

/**
 * Drafts dossiers: reads the archive, reduces its sessions, checks the templates, runs each in a sealed process for each of
 * its subjects, and writes the pages. The same archive and templates give the same bytes with any number of workers.
 *
 * @throws UnknownName for a unit or template that is not there; UnwritableFolder for `out`
 */
export async function draft(options: DraftOptions): Promise<DraftResult> {
  const templates = options.templates.length === 0 ? shippedTemplates() : options.templates;
  checkTemplateFiles(templates);
  const archive = readArchive(options.data);
  const unknown = options.units.find((id) => archive.units.every((unit) => unit.id !== id));
  if (unknown !== undefined && archive.units.length > 0) {
    throw new UnknownName(
      `the archive has no unit "${unknown}"`,
      unknown,
      archive.units.map(({ id }) => id),
    );
  }
  if (hasErrors(archive.problems)) return refused(archive, archive.problems);
  makeFolder(options.out);
  const compiled = compileAll(templates);
  const tool = readTool();
  const sessionCount = reduceTasks(archive).length;
  const stage = options.onStage("Reducing sessions", sessionCount);
  const reduced = await reduceArchive(archive, {
    workers: options.workers,
    store: openStore(join(options.out, ".reduced"), { reuse: !options.fresh }),
    tool,
    onSession: () => stage.step(),
  }).finally(() => stage.done());
  const archiveProblems = [...archive.problems, ...reduced.problems];
  if (hasErrors(archiveProblems)) return refused(archive, archiveProblems);

  const planned = compiled.flatMap(({ compiled: template }) =>
    template === null ? [] : planDossiers(template, archive, options.units),
  );
  const bundle = writeBundle({ archive, reductions: reduced.reductions });
  const built = await buildAll(planned, options, {
    bundle: bundle.path,
    readable: [bundle.folder, resolve(options.data)],
    tool: { name: tool.name, version: tool.version },
  }).finally(() => bundle.remove());
  const pages = planned.map(({ page }, index) => {
    const { html } = built[index]!;
    writeFileAtomic.sync(join(options.out, page), html);
    return { page, bytes: Buffer.byteLength(html) };
  });
  removeStale(
    options,
    pages.map(({ page }) => page),
  );
  return {
    pages,
    archiveProblems,
    templateProblems: uniqueProblems([
      ...compiled.flatMap(({ problems }) => problems),
      ...built.flatMap(({ problems }) => problems),
    ]),
    attention: [
      ...archiveAttention(archive, reduced.reductions, archiveProblems),
      ...compiled.flatMap(({ compiled: template }) => (template === null ? [] : methodsAttention(template, archive))),
      ...planned.flatMap(({ page }, index) => criteriaAttention(page, built[index]!.criteria)),
    ],
    units: archive.units.length,
    sessions: { reduced: sessionCount - reduced.reused, reused: reduced.reused },
    archiveRoot: options.data,
  };
}

function checkTemplateFiles(files: readonly string[]): void {
  for (const file of files) {
    if (!existsSync(file)) throw new UnknownName(`there is no template file ${file}`, file, templatesIn(dirname(file)));
    if (statSync(file).isFile()) continue;
    throw new UnknownName(`${file} is a folder; a template is a Markdown file`, "", templatesIn(file));
  }
}

/** Markdown files of a folder, by its path; none where it is not there. */
function templatesIn(folder: string): readonly string[] {
  if (!existsSync(folder)) return [];
  const names = readdirSync(folder).filter((name) => name.endsWith(".md"));
  return names.sort(compareText).map((name) => join(folder, name));
}

function hasErrors(problems: readonly Problem[]): boolean {
  return problems.some(({ severity }) => severity === "error");
}

/** An archive with errors gives no page. */
function refused(archive: Archive, problems: readonly Problem[]): DraftResult {
  return {
    pages: [],
    archiveProblems: problems,
    templateProblems: [],
    attention: [],
    units: archive.units.length,
    sessions: { reduced: 0, reused: 0 },
    archiveRoot: archive.root,
  };
}

function compileAll(files: readonly string[]): readonly Compilation[] {
  const compiler = openTemplateCompiler();
  return files.map((file) => compiler.compile(readFileSync(file, "utf8"), shownPath(file)));
}

/** The path as the user would type it; for a template that ships, its name in the package. */
function shownPath(file: string): string {
  const shipped = fileURLToPath(new URL("../../templates/", import.meta.url));
  const inside = relative(shipped, resolve(file));
  return inside.startsWith("..") ? file : `templates/${inside.replaceAll("\\", "/")}`;
}

async function buildAll(
  planned: readonly PlannedDossier[],
  options: DraftOptions,
  given: { readonly bundle: string; readonly readable: readonly string[]; readonly tool: DossierRequest["tool"] },
): Promise<readonly DossierReply[]> {
  const entry = fileURLToPath(new URL("./dossier-child.js", import.meta.url));
  const stage = options.onStage("Building dossiers", planned.length);
  const children: SealedChild[] = [];
  const replies = new Array<DossierReply>(planned.length);
  let next = 0;
  const work = async (): Promise<void> => {
    const child = openSealedChild(entry, { readable: given.readable });
    children.push(child);
    for (let index = next++; index < planned.length; index = next++) {
      const { template, subjectId } = planned[index]!;
      const request: DossierRequest = { bundle: given.bundle, template, subjectId, tool: given.tool };
      replies[index] = (await child.ask(request)) as DossierReply;
      stage.step();
    }
  };
  try {
    await Promise.all(Array.from({ length: Math.min(options.workers, planned.length) }, work));
  } finally {
    for (const child of children) child.close();
    stage.done();
  }
  return replies;
}

/** Removes pages that an earlier full run of this folder wrote and this one does not, and notes what stands there now. */
function removeStale(options: DraftOptions, pages: readonly string[]): void {
  const list = join(options.out, ".pages.json");
  const partial = options.units.length > 0 || options.templates.length > 0;
  const earlier = existsSync(list) ? parsePageList(readFileSync(list, "utf8")) : [];
  const standing = partial ? [...new Set([...earlier, ...pages])] : [...pages];
  for (const page of earlier) if (!standing.includes(page)) rmSync(join(options.out, page), { force: true });
  standing.sort((a, b) => (a < b ? -1 : 1));
  writeFileAtomic.sync(list, `${JSON.stringify(standing, null, 2)}\n`);
}

/** Names of pages in this very folder; anything else in the list is not ours to remove. */
function parsePageList(text: string): readonly string[] {
  try {
    const list: unknown = JSON.parse(text);
    return Array.isArray(list) ? list.filter((name) => typeof name === "string" && /^[\w.-]+\.html$/.test(name)) : [];
  } catch {
    return [];
  }
}

/** One template's fault shows once, however many dossiers it stands in. */
function uniqueProblems(problems: readonly TemplateProblem[]): readonly TemplateProblem[] {
  const seen = new Set<string>();
  return problems.filter((problem) => {
    const key = [problem.file, problem.line, problem.column, problem.code, problem.message].join("\n");
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
