import type { Absent, Count, Measured } from "../../metrology/quantity.js";

/**
 * What one entry of a kernel's result is, so that `lift` knows how to give it back:
 * - `same`: in the symbol of the values; `squared`: in its square; `ratio`: a pure number. These carry components.
 * - `x`, `slope`: of a trend only, in the symbol of the abscissa and in value per abscissa. These carry components.
 * - `statistic`: a pure number without components, such as a p-value or a critical value.
 * - `position`: the place of a value, which comes back as the place of its item in the list given (from 0).
 * - `squaredLimit`: in the square of the symbol, without components: a limit too costly to carry.
 * - `count`: a number of things; `flag`: a boolean; `text`: a string.
 * - `plain`: stays as the kernel gave it (an index, a list of names).
 */
export type LeafShape =
  | "same"
  | "squared"
  | "squaredLimit"
  | "ratio"
  | "x"
  | "slope"
  | "statistic"
  | "position"
  | "count"
  | "flag"
  | "text"
  | "plain";

/** Shape of a kernel's result: a leaf, a list of one shape written `[shape]`, or an object of named shapes. */
export type Shape = LeafShape | readonly [Shape] | { readonly [name: string]: Shape };

type Compound<S extends string> = S extends `${string}/${string}` | `${string}·${string}` | `${string} ${string}`
  ? true
  : false;

/** The square of a unit of measure: "cN" gives "cN²", "cN/mm" gives "(cN/mm)²", "1" stays. */
export type Squared<S extends string> = string extends S
  ? string
  : S extends "1"
    ? "1"
    : Compound<S> extends true
      ? `(${S})²`
      : `${S}²`;

/** One unit of measure per another: "cN" per "d" gives "cN/d"; two equal ones give "1". */
export type Per<Y extends string, X extends string> = string extends X | Y
  ? string
  : X extends Y
    ? "1"
    : X extends "1"
      ? Y
      : Compound<X> extends true
        ? `${Y}/(${X})`
        : `${Y}/${X}`;

/** Result of a lifted kernel: H is the shape, R the kernel's result, S the values' symbol, X the abscissa's. */
export type Lifted<H, R, S extends string, X extends string = never> = H extends "same"
  ? Measured<S>
  : H extends "squared" | "squaredLimit"
    ? Measured<Squared<S>>
    : H extends "x"
      ? Measured<X>
      : H extends "slope"
        ? Measured<Per<S, X>>
        : H extends "ratio" | "statistic"
          ? Measured<"1">
          : H extends "count"
            ? Count
            : H extends "flag"
              ? boolean | Absent<"1">
              : H extends "text"
                ? string
                : H extends "plain" | "position"
                  ? R | Absent<"1">
                  : H extends readonly [infer E]
                    ? R extends readonly (infer V)[]
                      ? readonly Lifted<E, V, S, X>[] | Absent<"1">
                      : never
                    : {
                        readonly [K in keyof H]: K extends keyof NonNullable<R>
                          ? Lifted<H[K], NonNullable<R>[K], S, X>
                          : never;
                      };

const compound = /[\s/·]/;

/** The square of a symbol, as the type `Squared` says. */
export function squaredSymbol(symbol: string): string {
  if (symbol === "1") return "1";
  return compound.test(symbol) ? `(${symbol})²` : `${symbol}²`;
}

/** One symbol per another, as the type `Per` says. */
export function perSymbol(y: string, x: string): string {
  if (x === y) return "1";
  if (x === "1") return y;
  return compound.test(x) ? `${y}/(${x})` : `${y}/${x}`;
}

/** Whether a leaf's number carries components of uncertainty. */
export function isCarried(leaf: Shape): boolean {
  return leaf === "same" || leaf === "squared" || leaf === "ratio" || leaf === "x" || leaf === "slope";
}

/** Whether any leaf of a shape carries components. */
export function anyCarried(shape: Shape): boolean {
  if (typeof shape === "string") return isCarried(shape);
  return Array.isArray(shape) ? anyCarried(shape[0]) : Object.values(shape as Record<string, Shape>).some(anyCarried);
}
