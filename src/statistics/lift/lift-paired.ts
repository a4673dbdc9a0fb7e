import type { Measured } from "../../metrology/quantity.js";
import type { SamplingError } from "./carry.js";
import { gather } from "./gather.js";
import type { LiftedOptions } from "./lift.js";
import { evaluateLifted, nameOf, splitOptions } from "./lift.js";
import type { Lifted, Shape } from "./shape.js";

/** A kernel on two arrays of one length (pairs) or of two lengths (two samples). */
export type PairKernel<R, O extends object> = (xs: readonly number[], ys: readonly number[], options?: O) => R;

export interface PairSettings<R = unknown, O extends object = object> {
  /** Words for the evidence; default the kernel's own name without "Kernel". */
  readonly name?: string;
  /** Standard errors from sampling, by path, out of the kernel's result. */
  readonly sampling?: (result: R, options: O) => Readonly<Record<string, SamplingError>>;
}

/**
 * Turns a kernel on pairs into a function of items and two accessors, both in one unit of measure. An item is left out where
 * either value is absent. Otherwise as `lift`.
 * Of the lifted function: @throws RangeError on an empty list, on symbols that differ, and on wrong options.
 */
export function liftPaired<R, O extends object, const H extends Shape>(
  kernel: PairKernel<R, O>,
  shape: H,
  settings: PairSettings<R, O> = {},
): <T, S extends string>(
  items: readonly T[],
  x: (item: T, index: number) => Measured<S>,
  y: (item: T, index: number) => Measured<NoInfer<S>>,
  options?: O & LiftedOptions,
) => Lifted<H, R, S, S> {
  const trend = liftTrend(kernel, shape, settings);
  return (items, x, y, options) => {
    items.forEach((item, i) => {
      const [a, b] = [x(item, i).symbol, y(item, i).symbol];
      if (a === b) return;
      throw new RangeError(
        `${settings.name ?? nameOf(kernel)}: item ${i + 1} is in ${a} and in ${b}; convert one of them first`,
      );
    });
    return trend(items, x, y, options);
  };
}

/**
 * Turns a kernel on abscissae and values into a function of items and two accessors, each in its own unit of measure
 * (`x` and `slope` in the shape speak of the abscissa). An item is left out where either is absent. Otherwise as `lift`.
 */
export function liftTrend<R, O extends object, const H extends Shape>(
  kernel: PairKernel<R, O>,
  shape: H,
  settings: PairSettings<R, O> = {},
): <T, S extends string, X extends string>(
  items: readonly T[],
  x: (item: T, index: number) => Measured<X>,
  y: (item: T, index: number) => Measured<S>,
  options?: O & LiftedOptions,
) => Lifted<H, R, S, X> {
  const name = settings.name ?? nameOf(kernel);
  return <T, S extends string, X extends string>(
    items: readonly T[],
    x: (item: T, index: number) => Measured<X>,
    y: (item: T, index: number) => Measured<S>,
    options?: O & LiftedOptions,
  ) => {
    const { own, lifted } = splitOptions<O>(options);
    const gathered = gather(
      items.map((item, i) => [x(item, i), y(item, i)]),
      name,
      lifted.operation,
    );
    const n = gathered.used.length;
    const evaluate = (values: readonly number[]): R => kernel(values.slice(0, n), values.slice(n), own);
    const sampling = settings.sampling && ((values: readonly number[]) => settings.sampling!(evaluate(values), own));
    return evaluateLifted(gathered, shape, lifted, name, { evaluate, sampling }) as Lifted<H, R, S, X>;
  };
}

/**
 * Turns a kernel on two samples into a function of two lists and one accessor. Absent items are left out of each list; the
 * result is absent where one list has no value. Otherwise as `lift`.
 */
export function liftSamples<R, O extends object, const H extends Shape>(
  kernel: PairKernel<R, O>,
  shape: H,
  settings: PairSettings<R, O> = {},
): <T, S extends string>(
  first: readonly T[],
  second: readonly T[],
  accessor: (item: T, index: number) => Measured<S>,
  options?: O & LiftedOptions,
) => Lifted<H, R, S> {
  const name = settings.name ?? nameOf(kernel);
  return <T, S extends string>(
    first: readonly T[],
    second: readonly T[],
    accessor: (item: T, index: number) => Measured<S>,
    options?: O & LiftedOptions,
  ) => {
    if (first.length === 0 || second.length === 0) {
      throw new RangeError(
        `${name} needs two lists, of which ${first.length === 0 ? "the first" : "the second"} is empty`,
      );
    }
    const { own, lifted } = splitOptions<O>(options);
    const gathered = gather(
      [...first.map(accessor), ...second.map(accessor)].map((measured) => [measured]),
      name,
      lifted.operation,
    );
    const ofFirst = gathered.used.filter((i) => i < first.length).length;
    const evaluate = (values: readonly number[]): R => kernel(values.slice(0, ofFirst), values.slice(ofFirst), own);
    const sampling = settings.sampling && ((values: readonly number[]) => settings.sampling!(evaluate(values), own));
    return evaluateLifted(gathered, shape, lifted, name, { evaluate, sampling }) as Lifted<H, R, S>;
  };
}
