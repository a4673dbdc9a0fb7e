import type { Evidence } from "../../metrology/evidence.js";
import { Absent, Count, Quantity } from "../../metrology/quantity.js";
import type { Component } from "../../metrology/source.js";
import { observedSource } from "../../metrology/source.js";
import type { Direction } from "./directions.js";
import { directionsOf, moved } from "./directions.js";
import type { Shape } from "./shape.js";
import { anyCarried, isCarried } from "./shape.js";

/** Weights of the values in one carried result (its exact partial derivatives), in the values' order. */
export type Weights = readonly number[];

/** Standard error that an estimator has because its values are a sample, and its degrees of freedom. */
export interface SamplingError {
  readonly u: number;
  readonly dof: number;
}

export interface Carry {
  readonly quantities: readonly Quantity[];
  /** Places of the used items in the list given; a `position` leaf is translated by it. */
  readonly positions: readonly number[];
  readonly evaluate: (values: readonly number[]) => unknown;
  /** What is evaluated at moved values, where results without components can be left out; default `evaluate`. */
  readonly evaluateMoved?: ((values: readonly number[]) => unknown) | undefined;
  readonly shape: Shape;
  /** Symbol of a carried leaf. */
  readonly symbolOf: (leaf: string) => string;
  readonly evidence: Evidence;
  /** Exact weights by the path of the leaf ("" for a kernel that returns one number, "mean" for a property). */
  readonly weights?: Readonly<Record<string, Weights>> | undefined;
  /**
   * Sampling errors by path, the name of the sample and of a kernel that returns one number; they replace the sources of single
   * values.
   */
  readonly sampling?:
    | { readonly name: string; readonly kernel: string; readonly errors: Readonly<Record<string, SamplingError>> }
    | undefined;
}

interface Moved {
  readonly direction: Direction;
  readonly forwards: unknown;
  readonly backwards: unknown;
}

/** Evaluates a kernel at quantities and gives its result back in the stated shape, with components and evidence. */
export function carry(input: Carry): unknown {
  const values = input.quantities.map((quantity) => quantity.value);
  const { shared, own } = directionsOf(input.quantities);
  // With a sampling error the scatter already shows what moves single values, so only shared sources are added to it.
  const directions = input.sampling === undefined ? [...shared, ...own] : shared;
  const base = input.evaluate(values);
  const evaluateMoved = input.evaluateMoved ?? input.evaluate;
  const needsMoves = anyCarried(input.shape) && !hasAllWeights(input.shape, input.weights, "");
  const moves = needsMoves
    ? directions.map((direction): Moved => ({
        direction,
        forwards: evaluateMoved(moved(values, direction, 1)),
        backwards: evaluateMoved(moved(values, direction, -1)),
      }))
    : [];
  return give(input, directions, input.shape, base, moves, "");
}

function hasAllWeights(shape: Shape, weights: Carry["weights"], path: string): boolean {
  if (typeof shape === "string") return !isCarried(shape) || weights?.[path] !== undefined;
  if (Array.isArray(shape)) return !anyCarried(shape);
  return Object.entries(shape as Record<string, Shape>).every(([name, inner]) =>
    hasAllWeights(inner, weights, path === "" ? name : `${path}.${name}`),
  );
}

function give(
  input: Carry,
  directions: readonly Direction[],
  shape: Shape,
  base: unknown,
  moves: readonly Moved[],
  path: string,
): unknown {
  if (typeof shape === "string") return giveLeaf(input, directions, shape, base, moves, path);
  const at = (name: string | number): readonly Moved[] =>
    moves.map((move) => ({
      direction: move.direction,
      forwards: (move.forwards as Record<string | number, unknown> | null)?.[name],
      backwards: (move.backwards as Record<string | number, unknown> | null)?.[name],
    }));
  if (Array.isArray(shape)) {
    const inner = shape[0] as Shape;
    return Object.freeze(
      (base as readonly unknown[]).map((entry, i) => give(input, directions, inner, entry, at(i), `${path}[${i}]`)),
    );
  }
  const entries = Object.entries(shape as Record<string, Shape>).map(([name, inner]) => {
    const innerPath = path === "" ? name : `${path}.${name}`;
    const entry = (base as Record<string, unknown> | null)?.[name] ?? null;
    return [name, give(input, directions, inner, entry, at(name), innerPath)] as const;
  });
  return Object.freeze(Object.fromEntries(entries));
}

function giveLeaf(
  input: Carry,
  directions: readonly Direction[],
  leaf: string,
  base: unknown,
  moves: readonly Moved[],
  path: string,
): unknown {
  if (leaf === "count") return new Count(base as number, input.evidence);
  if (leaf === "flag" || leaf === "text" || leaf === "plain") return base;
  if (leaf === "position") return base === null ? null : input.positions[base as number];
  const symbol = leaf === "statistic" ? "1" : input.symbolOf(leaf);
  if (base === null) return new Absent(symbol, "these values do not determine it", input.evidence);
  if (typeof base !== "number") throw new RangeError(`the kernel's result ${path} is ${typeof base}, not a number`);
  if (leaf === "statistic" || leaf === "squaredLimit") return new Quantity(base, symbol, [], input.evidence);
  const weights = input.weights?.[path];
  const components = weights === undefined ? differences(moves, path) : weighted(directions, weights);
  return new Quantity(base, symbol, [...components, ...sampled(input, symbol, path)], input.evidence);
}

function differences(moves: readonly Moved[], path: string): readonly Component[] {
  return moves.flatMap(({ direction, forwards, backwards }) => {
    if (typeof forwards !== "number" || typeof backwards !== "number") {
      throw new RangeError(`the result ${path} vanishes when a value moves by its uncertainty; it cannot be carried`);
    }
    const half = (forwards - backwards) / 2;
    return direction.sources.map(({ source, share }) => ({ source, contribution: half * share }));
  });
}

function weighted(directions: readonly Direction[], weights: Weights): readonly Component[] {
  return directions.flatMap(({ steps, sources }) => {
    const move = steps.reduce((total, [index, step]) => total + weights[index]! * step, 0);
    return sources.map(({ source, share }) => ({ source, contribution: move * share }));
  });
}

function sampled(input: Carry, symbol: string, path: string): readonly Component[] {
  const error = input.sampling?.errors[path];
  if (input.sampling === undefined || error === undefined) return [];
  const { name, kernel } = input.sampling;
  const source = observedSource(
    `sample/${name}/${path === "" ? kernel : path}`,
    `Scatter of ${name}`,
    error.u,
    symbol,
    error.dof,
  );
  return [{ source, contribution: error.u }];
}
