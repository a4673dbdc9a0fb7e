import { renderDossier } from "../dossier/index.js";
import { drawChart } from "../figures/draw.js";
import { figureStyles } from "../figures/figure-styles.js";
import type { CompiledTemplate } from "../templates/compiled.js";
import type { TemplateProblem, TemplateRun } from "../templates/outcome.js";
import type { RunScope } from "../templates/run/run-template.js";
import { runTemplate } from "../templates/run/run-template.js";
import { sealProcess } from "../templates/run/seal-process.js";
import type { SealedSeat } from "../templates/sealed/serve-sealed.js";
import { serveSealed } from "../templates/sealed/serve-sealed.js";
import { archiveScope } from "../templates/subject/archive.js";
import { changeScope } from "../templates/subject/change.js";
import { rigScope } from "../templates/subject/rig.js";
import { studyScope } from "../templates/subject/study.js";
import { unitScope } from "../templates/subject/unit.js";
import { loadTemplateModules, templateModules } from "../templates/template-modules.js";
import type { Bundle } from "./bundle.js";
import { readBundle } from "./bundle.js";
import { pageFrame } from "./page-frame.js";

/** A dossier to build in a sealed process. */
export interface DossierRequest {
  readonly bundle: string;
  readonly template: CompiledTemplate;
  readonly subjectId: string | null;
  readonly tool: { readonly name: string; readonly version: string };
}

/** A criterion that stood on the page, for the run's summary. */
export interface CriterionOutcome {
  readonly id: string;
  readonly caption: string;
  readonly outcome: "yes" | "no" | "undecided";
  readonly statement: string;
}

export interface DossierReply {
  readonly html: string;
  readonly problems: readonly TemplateProblem[];
  readonly criteria: readonly CriterionOutcome[];
}

const modules = await loadTemplateModules(templateModules());
const sealed = sealProcess();
let bundle: { readonly path: string; readonly content: Bundle } | null = null;

serveSealed<DossierRequest, DossierReply>((request, seat) => {
  try {
    return build(request, seat);
  } catch (error) {
    throw withFrames(error);
  }
});

function build(request: DossierRequest, seat: SealedSeat): DossierReply {
  if (bundle?.path !== request.bundle) bundle = { path: request.bundle, content: readBundle(request.bundle) };
  const { archive } = bundle.content;
  const { template, subjectId } = request;
  const scope = scopeOf(bundle.content, template, subjectId);
  const run = runTemplate(template, { values: scope as RunScope["values"], modules }, sealed, {
    step: seat.step,
    stopped: seat.stopped,
  });
  const problems: TemplateProblem[] = [];
  const html = renderDossier({
    run,
    ...pageFrame(archive, { subject: template.subject, id: subjectId }, template.methods),
    tool: request.tool,
    draw: (chart, figureId, options) => {
      const name = `draw:${figureId}`;
      const stop = seat.stopped.get(name);
      if (stop !== undefined) throw new RangeError(`drawing this figure took too much ${stop.reason} and was stopped`);
      return seat.step(name, () => drawChart(chart, figureId, options));
    },
    figureStyles: figureStyles(),
    onProblem: (problem) => problems.push(problem),
  });
  return { html, problems: [...runProblems(run), ...problems], criteria: criteriaOf(run) };
}

/** A sealed process hides the stacks of errors from code, so a fault of ours must bring its own. */
function withFrames(error: unknown): Error {
  const frames = sealed.framesOf(error).map(({ file, line, column }) => `    at ${file}:${line}:${column}`);
  return new Error([error instanceof Error ? error.message : String(error), ...frames].join("\n"));
}

/** Names are read one by one as cells use them: a name that cannot be had fails the cell that asks for it. */
function scopeOf({ archive, reductions }: Bundle, template: CompiledTemplate, subjectId: string | null): object {
  switch (template.subject) {
    case "unit":
      return unitScope(archive, reductions, subjectId!, template.methods);
    case "change":
      return changeScope(archive, reductions, subjectId!, template.methods);
    case "study":
      return studyScope(archive, subjectId!);
    case "rig":
      return rigScope(archive, reductions, subjectId!);
    case "archive":
      return archiveScope(archive, reductions, template.methods);
  }
}

function runProblems(run: TemplateRun): readonly TemplateProblem[] {
  return [...run.cells, ...run.inlines].flatMap((outcome) => (outcome.status === "done" ? [] : [outcome.problem]));
}

function criteriaOf(run: TemplateRun): readonly CriterionOutcome[] {
  return run.cells.flatMap((outcome) => {
    if (outcome.status !== "done" || outcome.result?.kind !== "verdict") return [];
    const { id, caption } = outcome.cell;
    return [
      { id: id ?? "", caption: caption ?? "", outcome: outcome.result.outcome, statement: outcome.result.statement },
    ];
  });
}
