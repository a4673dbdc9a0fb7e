import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import type { ArchivePlan, CheckRow, RigPlan, StudyRow } from "./archive-plan.js";
import type { Raw } from "./described.js";
import { describedLatencyMethod, describedMethod } from "./described.js";
import type { LatencyTruth } from "./latency-truth.js";
import type { SessionTruth } from "./render-keystroke-session.js";
import { renderKeystrokeSession } from "./render-keystroke-session.js";
import { renderFilmSession, renderTimingSession } from "./render-latency-session.js";
import { renderCsv, renderYaml, shortNumber } from "./text.js";

/** What is true of an archive, by `unit/session`, and by `unit/session/connection`. */
export interface ArchiveTruth {
  readonly keystroke: Readonly<Record<string, SessionTruth>>;
  readonly latency: Readonly<Record<string, LatencyTruth & { readonly key: string; readonly valid: number }>>;
}

/** The texts of an archive's files by path, sorted, and its truths. Same plan, same bytes. */
export interface RenderedArchive {
  readonly files: ReadonlyMap<string, string>;
  readonly truth: ArchiveTruth;
}

const checkHeader = "date,kind,unit,characteristic,value,u,reference,symbol";
const checkRow = (c: CheckRow): readonly (string | number)[] => [
  c.date,
  c.kind,
  c.unit,
  c.characteristic,
  shortNumber(c.value, c.decimals),
  shortNumber(c.u, c.decimals + 1),
  shortNumber(c.reference, c.decimals),
  c.symbol,
];

const factors = ["unit", "key", "connection", "operator", "reader", "rig", "method", "day", "mount", "repeat"] as const;
const studyRow = (r: StudyRow): readonly string[] => [
  ...factors.map((name) => r[name] ?? ""),
  r.characteristic,
  shortNumber(r.value, r.decimals),
  r.symbol,
];

function rigOf(plan: ArchivePlan, session: Raw): RigPlan {
  const rig = plan.rigs.find((r) => r.raw["id"] === session["rig"]);
  if (rig === undefined) throw new RangeError(`the plan has no rig ${String(session["rig"])}`);
  return rig;
}

function methodOf(plan: ArchivePlan, session: Raw): Raw {
  const method = Object.values(plan.methods).find((m) => m["id"] === session["method"]);
  if (method === undefined) throw new RangeError(`the plan has no method ${String(session["method"])}`);
  return method;
}

/**
 * Renders a plan into the files of an archive.
 * @param options.truthDraws simulated presses behind each L_k (default 100 000); `truths: false` leaves truths out, which
 * makes it faster
 */
export function renderArchive(
  plan: ArchivePlan,
  options: { readonly truths?: boolean; readonly truthDraws?: number } = {},
): RenderedArchive {
  const truths = options.truths ?? true;
  const files = new Map<string, string>();
  const keystroke: Record<string, SessionTruth> = {};
  const latency: Record<string, LatencyTruth & { key: string; valid: number }> = {};
  files.set("lab.yaml", renderYaml(plan.lab));
  for (const [name, raw] of Object.entries(plan.methods)) files.set(`methods/${name}.yaml`, renderYaml(raw));
  for (const rig of plan.rigs) {
    files.set(`rigs/${String(rig.raw["id"])}/rig.yaml`, renderYaml(rig.raw));
    files.set(`rigs/${String(rig.raw["id"])}/checks.csv`, renderCsv(checkHeader, rig.checks.map(checkRow)));
  }
  for (const unit of plan.units) {
    const id = String(unit.raw["id"]);
    files.set(`units/${id}/unit.yaml`, renderYaml(unit.raw));
    for (const session of unit.sessions) {
      const name = `${id}/${String(session.raw["id"])}`;
      const put = (file: string, text: string): void => void files.set(`units/${name}/${file}`, text);
      put("session.yaml", renderYaml(session.raw));
      const rig = rigOf(plan, session.raw);
      const method = methodOf(plan, session.raw);
      if (session.kind === "keystroke") {
        const made = renderKeystrokeSession(plan.seed, unit, session, rig, describedMethod(method), truths);
        put("force.csv", made.force);
        if (made.truth) keystroke[name] = made.truth;
      } else if (session.kind === "film") {
        const draws = truths ? (options.truthDraws ?? 100_000) : 0;
        const made = renderFilmSession(plan.seed, unit, session, rig, describedLatencyMethod(method), draws);
        for (const [file, text] of Object.entries(made.files)) put(file, text);
        for (const [connection, truth] of Object.entries(made.truth)) latency[`${name}/${connection}`] = truth;
      } else {
        put("timings.csv", renderTimingSession(plan.seed, unit, session, rig, describedLatencyMethod(method)));
      }
    }
  }
  for (const study of plan.studies) {
    const folder = `studies/${String(study.raw["id"])}`;
    files.set(`${folder}/study.yaml`, renderYaml(study.raw));
    const header = [...factors, "characteristic", "value", "symbol"].join(",");
    files.set(`${folder}/readings.csv`, renderCsv(header, study.readings.map(studyRow)));
  }
  const sorted = [...files].sort(([a], [b]) => (a < b ? -1 : 1));
  return { files: new Map(sorted), truth: { keystroke, latency } };
}

/** Writes rendered files into a folder, which is emptied first. */
export function writeArchive(files: ReadonlyMap<string, string>, folder: string): void {
  rmSync(folder, { recursive: true, force: true });
  for (const [path, text] of files) {
    const file = join(folder, path);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, text);
  }
}
