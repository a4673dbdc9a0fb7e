import type { Component, Source } from "../metrology/source.js";
import type { KeyCharacteristic } from "./model.js";

/**
 * How an input of uncertainty behaves when the cycles of a key are averaged: `noise` differs from stroke to stroke, `grid`
 * (a spacing of readings, a step of resolution) may or may not, `shared` is the same for all. `smoothing` is what a local
 * fit's window does to a curve: much the same for all keys of a unit, but seen through noise in each stroke; its
 * contribution is signed, and `noise` is the standard uncertainty of that contribution, with the sign of the sensitivity.
 * `window` is the same where half the window also picks other noise, so that it is known too badly to be taken off.
 * `extreme` is no component by itself but what an extreme's force is too large by per mm² of scatter of its `place`.
 */
export type TermRole = "noise" | "grid" | "shared" | "smoothing" | "window" | "extreme";

/** A component of one stroke's estimate, with its role. */
export interface Term extends Component {
  readonly role: TermRole;
  readonly noise?: number;
  readonly place?: KeyCharacteristic;
}

/** One characteristic of one cycle: a number with its terms, or why there is none. */
export type Estimate =
  | { readonly found: true; readonly value: number; readonly terms: readonly Term[]; readonly note?: string }
  | { readonly found: false; readonly reason: string };

/** A place on the displacement axis of a stroke (mm on the corrected scale) with the terms of its uncertainty. */
export interface Place {
  readonly xMm: number;
  readonly terms: readonly Term[];
}

/** A place, or why there is none. */
export type Found<T> = { readonly found: true; readonly at: T } | { readonly found: false; readonly reason: string };

/** An estimate that is not there. */
export function missing(reason: string): { readonly found: false; readonly reason: string } {
  return { found: false, reason };
}

/** A term from a source: its contribution is sensitivity x u. */
export function term(role: TermRole, source: Source, sensitivity: number): Term {
  return { role, source, contribution: sensitivity * source.u };
}

/** Terms with every contribution multiplied, such as a position's terms by a slope. */
export function scaled(terms: readonly Term[], factor: number): readonly Term[] {
  return terms.map((each) => ({
    ...each,
    contribution: factor * each.contribution,
    ...(each.noise === undefined ? {} : { noise: factor * each.noise }),
  }));
}

/** The components of one stroke alone: of smoothing, only what stands above its noise. */
export function componentsOf(terms: readonly Term[]): readonly Component[] {
  return terms
    .filter((each) => each.role !== "extreme")
    .map((each) => ({
      source: each.source,
      contribution: each.noise === undefined ? each.contribution : beyondNoise(each.contribution, each.noise),
    }))
    .filter((each) => each.contribution !== 0);
}

/** The root of max(0, value² - noise²), with the value's sign: the part of a difference that noise does not explain. */
export function beyondNoise(value: number, noise: number): number {
  return Math.sign(value) * Math.sqrt(Math.max(0, value ** 2 - noise ** 2));
}

/** Root of the sum of squares of the contributions of the given roles. */
export function uncertaintyOf(terms: readonly Term[], ...roles: readonly TermRole[]): number {
  return Math.hypot(...terms.filter((each) => roles.includes(each.role)).map((each) => each.contribution));
}
