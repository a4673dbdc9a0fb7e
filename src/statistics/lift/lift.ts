import type { Measured } from "../../metrology/quantity.js";
import { Undetermined } from "../numeric/guards.js";
import type { SamplingError, Weights } from "./carry.js";
import { carry } from "./carry.js";
import type { Gathered } from "./gather.js";
import { absentOf, gather } from "./gather.js";
import type { Lifted, Shape } from "./shape.js";
import { perSymbol, squaredSymbol } from "./shape.js";

/** Options that every lifted function takes beside its kernel's own. */
export interface LiftedOptions {
  /** What was done, for the evidence; default "<name> of n values". */
  readonly operation?: string;
  /**
   * Name of the population that the items are a sample of, such as "keys of u07, actuation force". Given it, the result
   * estimates that population: the kernel's sampling error is added as a component, and sources that belong to one item
   * alone are left out, since the scatter already shows them. Without it, the result describes these items only. Name
   * the unit and the characteristic: one name for two data sets is refused when their results meet.
   */
  readonly sampling?: string;
}

/** What a kernel may state beside itself. */
export interface LiftSettings<O> {
  /** Words for the evidence; default the kernel's own name without "Kernel". */
  readonly name?: string;
  /** Exact partial derivatives of carried results by path; central differences are used where there are none. */
  readonly weights?: (values: readonly number[], options: O) => Readonly<Record<string, Weights>>;
  /** Standard errors from sampling, by path. */
  readonly sampling?: (values: readonly number[], options: O) => Readonly<Record<string, SamplingError>>;
}

/** A kernel: a published procedure on a plain array. */
export type Kernel<R, O extends object> = (values: readonly number[], options?: O) => R;

/**
 * Turns a kernel on a plain array into a function of items, an accessor that gives each item's measured value, and
 * options. The result has the stated shape: its numbers are quantities in the right symbol, with every source's component
 * carried through the kernel (shared sources move all values together; JCGM 100:2008, 5.1.3 note 2 and 5.2) and one step of
 * evidence over the items used. Absent items are left out and the evidence says how many and why. Where every item is
 * absent, or the kernel finds that the values do not determine a result, all of it is absent with that reason (counts 0).
 *
 * Of the lifted function: @throws RangeError on an empty list, on symbols that differ, and on wrong options.
 *
 * @example
 * const spread = lift(spreadKernel, { mean: "same", sd: "same", n: "count" });
 * spread(keys, (key) => key.actuationForce).mean; // Measured<"cN">
 */
export function lift<R, O extends object, const H extends Shape>(
  kernel: Kernel<R, O>,
  shape: H,
  settings: LiftSettings<O> = {},
): <T, S extends string>(
  items: readonly T[],
  accessor: (item: T, index: number) => Measured<S>,
  options?: O & LiftedOptions,
) => Lifted<H, R, S> {
  const name = settings.name ?? nameOf(kernel);
  return <T, S extends string>(
    items: readonly T[],
    accessor: (item: T, index: number) => Measured<S>,
    options?: O & LiftedOptions,
  ) => {
    const { own, lifted } = splitOptions<O>(options);
    const gathered = gather(
      items.map((item, i) => [accessor(item, i)]),
      name,
      lifted.operation,
    );
    return evaluateLifted(gathered, shape, lifted, name, {
      evaluate: (values) => kernel(values, own),
      weights: settings.weights && ((values) => settings.weights!(values, own)),
      sampling: settings.sampling && ((values) => settings.sampling!(values, own)),
    }) as Lifted<H, R, S>;
  };
}

/** A kernel already bound to its options and to the layout of its input. */
interface Bound {
  readonly evaluate: (values: readonly number[]) => unknown;
  readonly evaluateMoved?: ((values: readonly number[]) => unknown) | undefined;
  readonly weights?: ((values: readonly number[]) => Readonly<Record<string, Weights>>) | undefined;
  readonly sampling?: ((values: readonly number[]) => Readonly<Record<string, SamplingError>>) | undefined;
}

/** Evaluates a bound kernel over gathered columns (one after the other) and gives the result in the stated shape. */
export function evaluateLifted(
  gathered: Gathered,
  shape: Shape,
  lifted: LiftedOptions,
  name: string,
  bound: Bound,
): unknown {
  const last = gathered.symbols[gathered.symbols.length - 1]!;
  const symbolOf = symbolsOf(gathered.symbols[0]!, last);
  const { evidence } = gathered;
  if (gathered.used.length === 0) {
    return absentOf(shape, symbolOf, `${name}: every value is absent (${evidence.note})`, evidence);
  }
  const quantities = gathered.columns.flat();
  const values = quantities.map((quantity) => quantity.value);
  if (lifted.sampling !== undefined && bound.sampling === undefined) {
    throw new RangeError(`${name} states no sampling error; leave out the option sampling`);
  }
  try {
    return carry({
      quantities,
      positions: gathered.used,
      evaluate: bound.evaluate,
      evaluateMoved: bound.evaluateMoved,
      shape,
      symbolOf,
      evidence,
      weights: bound.weights?.(values),
      sampling:
        lifted.sampling === undefined
          ? undefined
          : { name: lifted.sampling, kernel: name, errors: bound.sampling?.(values) ?? {} },
    });
  } catch (error) {
    if (error instanceof Undetermined) return absentOf(shape, symbolOf, error.message, evidence);
    throw error;
  }
}

function symbolsOf(x: string, y: string): (leaf: string) => string {
  return (leaf) => {
    if (leaf === "same") return y;
    if (leaf === "squared" || leaf === "squaredLimit") return squaredSymbol(y);
    if (leaf === "x") return x;
    if (leaf === "slope") return perSymbol(y, x);
    return "1";
  };
}

/** The kernel's options without those that `lift` itself takes. */
export function splitOptions<O extends object>(
  options: (O & LiftedOptions) | undefined,
): {
  readonly own: O;
  readonly lifted: LiftedOptions;
} {
  const { operation, sampling, ...own } = (options ?? {}) as LiftedOptions & Record<string, unknown>;
  return {
    own: own as O,
    lifted: { ...(operation === undefined ? {} : { operation }), ...(sampling === undefined ? {} : { sampling }) },
  };
}

/** A kernel's name in words: `meanIntervalKernel` gives "mean interval". */
export function nameOf(kernel: { readonly name: string }): string {
  return kernel.name
    .replace(/Kernel$/, "")
    .replace(/([a-z])([A-Z])/g, "$1 $2")
    .toLowerCase();
}
