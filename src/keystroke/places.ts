import type { Source } from "../metrology/source.js";
import { boundedSource } from "../metrology/source.js";
import type { ContactEdge } from "./contact-edge.js";
import type { TesterTerms } from "./correction.js";
import type { Estimate, Found, Place, Term } from "./estimate.js";
import { scaled, term } from "./estimate.js";
import type { Extremum } from "./extremum.js";
import type { LocalValue, Smoothing } from "./local-value.js";
import type { ReductionContext } from "./reduction-context.js";
import { sessionPath } from "./reduction-context.js";
import type { StrokeSources } from "./stroke-sources.js";

/** Latency of a report, where nothing else is known: 0 to this, rectangular (milliseconds). */
const longestReportMs = 30;

/** The way from one place to another with its terms; the rig's scale and compliance act on the difference. */
export function travelBetween(
  from: Place,
  fromForceCn: number,
  to: Place,
  toForceCn: number,
  tester: TesterTerms,
): Estimate {
  const value = to.xMm - from.xMm;
  const rig: Term[] = [];
  const { displacementScale, compliance } = tester;
  if (displacementScale.source) rig.push(term("shared", displacementScale.source, value / displacementScale.value));
  if (compliance.source) rig.push(term("shared", compliance.source, -(toForceCn - fromForceCn)));
  return { found: true, value, terms: [...to.terms, ...scaled(from.terms, -1), ...rig] };
}

/** Terms of the rig on a force: span and zero. */
export function rigForceTerms(forceCn: number, tester: TesterTerms): readonly Term[] {
  const { forceSpan, forceZero } = tester;
  const terms: Term[] = [];
  if (forceSpan.source) terms.push(term("shared", forceSpan.source, (forceCn - forceZero.value) / forceSpan.value));
  if (forceZero.source) terms.push(term("shared", forceZero.source, 1));
  return terms;
}

/** Terms of a force that was read off a local fit: noise, smoothing, resolution. The rig's are added apart. */
export function fitForceTerms(
  name: string,
  words: string,
  fit: Pick<LocalValue, "noiseCn" | "smoothingCn" | "dof">,
  forceStepCn: number,
  sources: StrokeSources,
): readonly Term[] {
  const stepU = forceStepCn / Math.sqrt(12);
  return [
    term("noise", sources.noise(`${name}-force`, `${words}: noise of the readings`, fit.noiseCn, "cN", fit.dof), 1),
    term("grid", sources.grid(`${name}-force-step`, `${words}: resolution of the force`, stepU, "cN"), 1),
    ...smoothingTerm(`${name}-force`, words, fit.smoothingCn, sources),
  ];
}

/**
 * Terms of the force of a peak or valley: those of any fitted force, but half the window's vertex is another extreme of
 * the noise, so what it changes is a `window` term; and the bias of reading an extreme.
 */
export function extremumForceTerms(
  name: "peak" | "valley",
  words: string,
  extremum: Extremum,
  forceStepCn: number,
  sources: StrokeSources,
): readonly Term[] {
  const terms = fitForceTerms(name, words, extremum, forceStepCn, sources).map((each) =>
    each.role === "smoothing" ? { ...each, role: "window" as const } : each,
  );
  if (extremum.bend === 0) return terms;
  const source = sources.session(`extreme/${name}-force`, `${words}: extreme of a noisy curve`);
  return [...terms, { role: "extreme", source, contribution: -extremum.bend / 2, place: `${name}Position` }];
}

function smoothingTerm(
  name: string,
  words: string,
  smoothing: Smoothing | null,
  sources: StrokeSources,
): readonly Term[] {
  if (smoothing === null) return [];
  const source = sources.session(`smoothing/${name}`, `${words}: smoothing`);
  return [{ role: "smoothing", source, contribution: smoothing.bias, noise: smoothing.noise }];
}

/** Place of a peak or valley with its terms: noise and smoothing. */
export function extremumPlace(name: string, words: string, extremum: Extremum, sources: StrokeSources): Place {
  const noise = sources.noise(name, `${words}: noise of the readings`, extremum.noiseMm, "mm", extremum.dof);
  return {
    xMm: extremum.xMm,
    terms: [term("noise", noise, 1), ...smoothingTerm(name, words, extremum.smoothingMm, sources)],
  };
}

/**
 * A contact edge that was learnt from the host's report is late by latency x tester speed: deeper on the press, shallower on
 * the release. The latency is subtracted with its own components; where none is known, 0 to 30 ms are taken
 * (rectangular), one source for all strokes of the session. An electrical edge is returned as it is.
 */
export function withoutReportDelay(
  edge: Found<ContactEdge>,
  direction: 1 | -1,
  context: ReductionContext,
): Found<ContactEdge> {
  if (!edge.found || context.contactSource !== "report") return edge;
  const mmPerMs = (context.pressSpeed ?? context.method.pressSpeed).value / 1000;
  const sensitivity = -direction * mmPerMs;
  const known = context.reportLatency;
  const delayMs = known?.value ?? longestReportMs / 2;
  const components =
    known?.components ??
    [assumedLatency(sessionPath(context))].map((source) => ({
      source,
      contribution: source.u,
    }));
  const terms = components.map((each) => ({
    ...each,
    role: "shared" as const,
    contribution: sensitivity * each.contribution,
  }));
  return {
    found: true,
    at: { ...edge.at, xMm: edge.at.xMm + sensitivity * delayMs, terms: [...edge.at.terms, ...terms] },
  };
}

function assumedLatency(path: string): Source {
  const label = `Report of the contact: latency taken as 0 ms to ${longestReportMs} ms`;
  return boundedSource(`${path}/report-latency`, label, longestReportMs / 2, "ms");
}

/** What the evidence says about a contact that was learnt from the host's report; empty for an electrical one. */
export function reportNote(context: ReductionContext): string {
  if (context.contactSource !== "report") return "";
  const speed = (context.pressSpeed ?? context.method.pressSpeed).value;
  return context.reportLatency === undefined
    ? `the contact was learnt from the host's report; a latency of 0 ms to ${longestReportMs} ms at ${speed} mm/s is in the budget`
    : `the contact was learnt from the host's report; its latency at ${speed} mm/s was subtracted`;
}
