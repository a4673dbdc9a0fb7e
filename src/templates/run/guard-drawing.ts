import type { ModuleExports } from "../template-modules.js";

/**
 * Stands between cells and the drawing library. While it draws, the library hands its document to functions that a mark
 * may carry (`render`, initializers, transforms, markers), and through a document everything could be reached. So every
 * function that a cell passes in is called without it, and only marks that came out of here are drawn.
 */
export interface DrawingGuard {
  /** The same exports, guarded; those of other modules as they are. */
  guard(specifier: string, exports: ModuleExports): ModuleExports;
  /** A chart with a list of marks of its own, all of them made here; null where a mark was not. */
  settle(chart: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> | null;
}

type Callable = (...values: unknown[]) => unknown;

/** Exports of the figures that hand on what they are given, or make no chart. */
const passing = new Set(["chart", "chartData", "table", "link"]);

/** How deep options may lie in options; the library reads two levels, and shapes of maps go a little deeper. */
const deepestOptions = 6;

/** Opens a guard; one serves a process. */
export function openDrawingGuard(): DrawingGuard {
  const marks = new WeakSet<object>();
  /** Functions and objects of the library itself, or composed by it of what has been guarded. */
  const own = new WeakSet<object>();
  const guarded = new WeakMap<object, unknown>();
  const done = new WeakMap<ModuleExports, ModuleExports>();

  const guardFunction = (run: Callable): unknown => {
    const known = guarded.get(run);
    if (known !== undefined) return known;
    const safe = function (this: unknown, ...values: unknown[]): unknown {
      return Reflect.apply(run, withoutDocument(this), values.map(withoutDocument));
    };
    for (const [name, value] of Object.entries(run)) Reflect.set(safe, name, guardValue(value, 1));
    guarded.set(run, safe);
    return safe;
  };
  /** Copies what is passed, whatever it inherits or computes, so that the library sees only what has been looked at. */
  const guardValue = (value: unknown, depth: number): unknown => {
    if (typeof value === "function") return own.has(value) ? value : guardFunction(value as Callable);
    if (typeof value !== "object" || value === null || own.has(value) || marks.has(value)) return value;
    if (depth > deepestOptions) return undefined;
    if (value instanceof Date) return new Date(Number(value));
    if (Symbol.iterator in value) return Array.from(value as Iterable<unknown>);
    const copy: Record<string, unknown> = {};
    for (const name in value) copy[name] = guardValue((value as Record<string, unknown>)[name], depth + 1);
    return copy;
  };
  const keepFunctions = (value: unknown, depth: number): void => {
    if (typeof value === "function") own.add(value);
    else if (isPlain(value) && depth < deepestOptions) {
      for (const inner of Object.values(value)) keepFunctions(inner, depth + 1);
    }
  };
  const keepMarks = (value: unknown): void => {
    if (Array.isArray(value)) value.forEach(keepMarks);
    // A figure may draw by a function of its own, which counts as a mark too.
    else if (value instanceof Object) marks.add(Object.freeze(value));
  };
  const guardPlot = (plot: ModuleExports): ModuleExports => {
    for (const value of Object.values(plot)) if (value instanceof Object) own.add(value);
    const entries = Object.entries(plot).map(([name, run]): [string, unknown] => {
      if (typeof run !== "function") return [name, run];
      const safe = (...values: unknown[]): unknown => {
        const result = (run as Callable)(...values.map((value) => guardValue(value, 0)));
        // `marks` hands on what it is given; everything else that is no plain object is a mark made just now.
        if (isPlain(result)) keepFunctions(result, 0);
        else if (typeof result === "function") own.add(result);
        else if (name !== "marks") keepMarks(result);
        return result;
      };
      own.add(safe);
      return [name, safe];
    });
    return Object.fromEntries(entries);
  };
  const guardFigures = (figures: ModuleExports): ModuleExports =>
    Object.fromEntries(
      Object.entries(figures).map(([name, run]): [string, unknown] => {
        if (typeof run !== "function" || passing.has(name)) return [name, run];
        const safe = (...values: unknown[]): unknown => {
          const result = (run as Callable)(...values);
          if (isPlain(result)) keepMarks(result.marks);
          return result;
        };
        return [name, safe];
      }),
    );

  return {
    guard: (specifier, exports) => {
      const known = done.get(exports);
      if (known !== undefined) return known;
      const made =
        specifier === "@observablehq/plot"
          ? guardPlot(exports)
          : specifier === "benchfolio/figures"
            ? guardFigures(exports)
            : exports;
      done.set(exports, made);
      return made;
    },
    settle: (chart) => {
      const flat = Array.from(chart.marks as Iterable<unknown>).flat(Infinity as 20);
      if (!flat.every((mark) => mark === null || mark === undefined || marks.has(mark as object))) return null;
      return Object.freeze({ ...chart, marks: Object.freeze(flat) });
    },
  };
}

function isPlain(value: unknown): value is Record<string, unknown> {
  if (typeof value !== "object" || value === null) return false;
  const parent: unknown = Object.getPrototypeOf(value);
  return parent === Object.prototype || parent === null;
}

/** What a cell's function may be given: no document, nothing that leads to one, and no further step of the drawing. */
function withoutDocument(value: unknown): unknown {
  if (typeof value === "function") return undefined;
  if (typeof value !== "object" || value === null) return value;
  return "document" in value || "ownerDocument" in value || "ownerSVGElement" in value ? undefined : value;
}
