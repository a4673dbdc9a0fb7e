import { Absent, Quantity, evidenceStep, normalSource, observedSource } from "../../src/metrology/index.js";
import type { Component, Measured } from "../../src/metrology/index.js";

/** A source that results may share, or not. */
export interface Given {
  readonly id: string;
  readonly u: number;
  readonly dof?: number;
  /** Sign and size of the sensitivity; default 1. */
  readonly times?: number;
}

/** A quantity with stated sources; equal ids are one source. */
export function quantity<S extends string = "cN">(
  value: number,
  sources: readonly Given[] = [],
  symbol: S = "cN" as S,
): Quantity<S> {
  const components = sources.map(({ id, u, dof, times = 1 }): Component => {
    const source = dof === undefined ? normalSource(id, id, u, symbol) : observedSource(id, id, u, symbol, dof);
    return { source, contribution: u * times };
  });
  return new Quantity(value, symbol, components, evidenceStep(`test value ${value}`, []));
}

/** A quantity with one source of its own, named by `id`. */
export function own<S extends string = "cN">(
  id: string,
  value: number,
  u: number,
  options: { readonly dof?: number; readonly symbol?: S } = {},
): Quantity<S> {
  const { dof, symbol } = options;
  return quantity(value, u === 0 ? [] : [{ id, u, ...(dof === undefined ? {} : { dof }) }], symbol);
}

export function absent<S extends string = "cN">(reason: string, symbol: S = "cN" as S): Absent<S> {
  return new Absent(symbol, reason);
}

/** The quantity itself; fails the test where it is absent. */
export function present<S extends string>(measured: Measured<S>): Quantity<S> {
  if (measured.absent) throw new Error(`absent: ${measured.reason}`);
  return measured;
}
