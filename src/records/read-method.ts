import type { KeystrokeMethod, LatencyMethod, Method, MethodHead, ScoringMethod } from "./archive.js";
import type { ProblemCollector } from "./problem-collector.js";
import type { Described, ReadingContext } from "./read-description.js";
import { checkId, fitDescription, openDescription } from "./read-description.js";
import { readScoring } from "./read-scoring.js";
import { anyMethodSchema, methodSchemas } from "./schemas/methods.js";
import type { YamlView } from "./yaml-view.js";

/** The id that a method file's name stands for: `methods/keystroke-2.yaml` is `keystroke@2`. */
export function methodIdOf(file: string): string {
  return file
    .replace(/^.*\//, "")
    .replace(/\.yaml$/, "")
    .replace(/-(\d+)$/, "@$1");
}

/** Reads one method file of any kind; undefined, with problems, where it does not fit its kind's schema. */
export function readMethod(context: ReadingContext, file: string): Described<Method> | undefined {
  const document = openDescription(context, file);
  if (document === undefined) return undefined;
  const kind = kindOf(document.data);
  const view = fitDescription(context, document, kind === undefined ? anyMethodSchema : methodSchemas[kind]);
  if (view === undefined || kind === undefined) return undefined;
  checkId(context, view, methodIdOf(file));
  return { value: methodOf(view, context.problems), view };
}

function kindOf(data: unknown): Method["kind"] | undefined {
  const kind = typeof data === "object" && data !== null && "kind" in data ? data.kind : undefined;
  return kind === "keystroke" || kind === "latency" || kind === "scoring" ? kind : undefined;
}

function methodOf(view: YamlView, problems: ProblemCollector): Method {
  const kind = view.choice<Method["kind"]>("kind");
  if (kind === "keystroke") return keystrokeMethod(view, problems);
  return kind === "latency" ? latencyMethod(view, problems) : scoringMethod(view, problems);
}

function head(view: YamlView): MethodHead {
  return {
    id: view.text("id"),
    title: view.text("title"),
    ...(view.has("replaces") && { replaces: view.text("replaces") }),
    since: view.text("since"),
    notes: view.texts("notes"),
    file: view.file,
    evidence: view.evidence,
  };
}

function keystrokeMethod(view: YamlView, problems: ProblemCollector): KeystrokeMethod {
  const method: KeystrokeMethod = {
    kind: "keystroke",
    ...head(view),
    keys: view.texts("keys"),
    minKeys: view.number("min_keys"),
    conditioningStrokes: view.number("conditioning_strokes"),
    cycles: view.number("cycles"),
    cyclesUsed: view.numbers("cycles_used"),
    pressSpeed: view.required("press_speed", "mm/s"),
    smoothingWindow: view.required("smoothing_window", "mm"),
    prominence: view.required("prominence", "cN"),
    bottomOutSlope: view.required("bottom_out_slope", "cN/mm"),
    touchDeviations: view.number("touch_deviations"),
    touchForce: view.required("touch_force", "cN"),
  };
  atMost(view, "min_keys", method.minKeys, method.keys.length, `${method.keys.length} keys`, problems);
  const last = Math.max(...method.cyclesUsed);
  atMost(view, "cycles_used", last, method.cycles, `cycles: ${method.cycles}`, problems);
  return method;
}

function latencyMethod(view: YamlView, problems: ProblemCollector): LatencyMethod {
  const method: LatencyMethod = {
    kind: "latency",
    ...head(view),
    observes: view.choice<LatencyMethod["observes"]>("observes"),
    presses: view.number("presses"),
    kept: view.number("kept"),
    minPresses: view.number("min_presses"),
    subtract: view.texts("subtract") as LatencyMethod["subtract"],
    subtractTravel: view.flag("subtract_travel"),
    baselineShots: view.number("baseline_shots"),
    frameRate: view.required("frame_rate", "Hz"),
    compares: view.choice<LatencyMethod["compares"]>("compares"),
  };
  const presses = `presses: ${method.presses}`;
  atMost(view, "kept", method.kept, method.presses, presses, problems);
  atMost(view, "min_presses", method.minPresses, method.presses, presses, problems);
  return method;
}

function scoringMethod(view: YamlView, problems: ProblemCollector): ScoringMethod {
  return { kind: "scoring", ...head(view), ...readScoring(view, problems) };
}

function atMost(
  view: YamlView,
  name: string,
  value: number,
  most: number,
  expected: string,
  problems: ProblemCollector,
): void {
  if (value <= most) return;
  problems.add("E_METHOD_NUMBERS", view.placeOf(name), { found: `${name}: ${value}`, expected: `\`${expected}\`` });
}
