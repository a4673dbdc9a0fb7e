import type { Measured } from "../../metrology/quantity.js";
import { gather } from "./gather.js";
import type { LiftedOptions } from "./lift.js";
import { evaluateLifted, nameOf, splitOptions } from "./lift.js";
import type { PairSettings } from "./lift-paired.js";
import type { Lifted, Shape } from "./shape.js";

/** Levels of each factor, one a value: `{ key: ["KeyF", "KeyJ", ...], operator: [...] }`. */
export type Factors = Readonly<Record<string, readonly string[]>>;

/** A kernel on values and the levels of the factors that they were measured at. */
export type FactorKernel<R, O extends object> = (values: readonly number[], factors: Factors, options?: O) => R;

export interface FactorSettings<O> extends PairSettings {
  /** Options of the kernel at values moved by their uncertainty, where it may leave out what carries no components. */
  readonly moved?: Partial<O>;
}

/** What gives the levels of an item: one function a factor. */
export type FactorAccessors<T> = Readonly<Record<string, (item: T, index: number) => string>>;

/**
 * Turns a kernel on values and factors into a function of items, the accessor of the value and one accessor of the level for
 * each factor. Absent items are left out, with their levels. Otherwise as `lift`.
 */
export function liftFactors<R, O extends object, const H extends Shape>(
  kernel: FactorKernel<R, O>,
  shape: H,
  settings: FactorSettings<O> = {},
): <T, S extends string>(
  items: readonly T[],
  accessor: (item: T, index: number) => Measured<S>,
  factors: FactorAccessors<T>,
  options?: O & LiftedOptions,
) => Lifted<H, R, S> {
  const name = settings.name ?? nameOf(kernel);
  return <T, S extends string>(
    items: readonly T[],
    accessor: (item: T, index: number) => Measured<S>,
    factors: FactorAccessors<T>,
    options?: O & LiftedOptions,
  ) => {
    const { own, lifted } = splitOptions<O>(options);
    const gathered = gather(
      items.map((item, i) => [accessor(item, i)]),
      name,
      lifted.operation,
    );
    const levels: Factors = Object.fromEntries(
      Object.entries(factors).map(([factor, levelOf]) => [factor, gathered.used.map((i) => levelOf(items[i]!, i))]),
    );
    return evaluateLifted(gathered, shape, lifted, name, {
      evaluate: (values) => kernel(values, levels, own),
      evaluateMoved: settings.moved && ((values) => kernel(values, levels, { ...own, ...settings.moved })),
    }) as Lifted<H, R, S>;
  };
}
