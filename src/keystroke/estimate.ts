import type { Component, Source } from "../metrology/source.js";

/**
 * How an input of uncertainty behaves when the cycles of a key are averaged: `noise` differs from stroke to stroke, `grid`
 * (a spacing of readings, a step of resolution) may or may not, `shared` is the same for all.
 */
export type TermRole = "noise" | "grid" | "shared";

/** A component of one stroke's estimate, with its role. */
export interface Term extends Component {
  readonly role: TermRole;
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
  return terms.map((each) => ({ ...each, contribution: factor * each.contribution }));
}

/** Root of the sum of squares of the contributions of the given roles. */
export function uncertaintyOf(terms: readonly Term[], ...roles: readonly TermRole[]): number {
  return Math.hypot(...terms.filter((each) => roles.includes(each.role)).map((each) => each.contribution));
}
