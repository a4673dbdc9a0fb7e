import "ses";
import { closeNetwork } from "./close-network.js";
import type { DrawingGuard } from "./guard-drawing.js";
import { openDrawingGuard } from "./guard-drawing.js";
import { randomRefused } from "./run-errors.js";

/** One call on the stack of an error: a file or address, and a 1-based place in it. */
export interface Frame {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

/** A process in which nothing that comes with the language can be changed any more, and code can be run confined. */
export interface SealedProcess {
  /** A fresh place to evaluate code in; it shares nothing with other places but what cannot be changed. */
  open(): SealedPlace;
  /** The calls that led to an error, innermost first; empty for anything that is no error. */
  framesOf(error: unknown): readonly Frame[];
  /** Keeps the drawing library's document from the functions that cells give to marks. */
  readonly drawing: DrawingGuard;
  /** Freezes a value and everything that can be reached from it. */
  freeze<T>(value: T): T;
}

export interface SealedPlace {
  /** The language's own names that cells have, such as Math. */
  readonly builtins: Readonly<Record<string, unknown>>;
  /** Evaluates an expression; `address` names it in the frames of its errors. */
  evaluate(text: string, address: string): unknown;
}

/** What the confined place would hold beside the language's harmless names. */
const removed = ["Compartment", "harden", "lockdown", "assert", "Function", "eval", "Promise", "ModuleSource"];

/** Frames kept with an error: enough to reach the template through the calls of a library. */
const framesKept = 200;

/**
 * Seals this process for good: the language's own objects are frozen, the network is closed, unseeded chance throws
 * everywhere, and errors keep their calls for `framesOf` while code itself sees no stack. To be called once, after every module has been loaded.
 *
 * @throws TypeError where the process is sealed already
 */
export function sealProcess(): SealedProcess {
  Error.stackTraceLimit = framesKept;
  Math.random = () => {
    throw new Error(randomRefused);
  };
  closeNetwork();
  lockdown({
    errorTaming: "safe",
    localeTaming: "safe",
    consoleTaming: "unsafe",
    errorTrapping: "none",
    unhandledRejectionTrapping: "none",
    overrideTaming: "severe",
    reporting: "none",
  });
  const frames = new WeakMap<object, readonly Frame[]>();
  Error.prepareStackTrace = (error, sites) => {
    frames.set(
      error,
      sites.map((site) => ({
        file: site.getScriptNameOrSourceURL() ?? site.getFileName() ?? "",
        line: site.getLineNumber() ?? 0,
        column: site.getColumnNumber() ?? 0,
      })),
    );
    return "";
  };
  return {
    open: () => {
      const compartment = new Compartment({ globals: {}, __options__: true });
      const builtins = compartment.globalThis as Record<string, unknown>;
      for (const name of removed) Reflect.deleteProperty(builtins, name);
      Object.freeze(builtins);
      return { builtins, evaluate: (text, address) => compartment.evaluate(`${text}\n//# sourceURL=${address}`) as unknown };
    },
    framesOf: (error) => {
      if (!(error instanceof Error)) return [];
      // Reading the stack makes the engine prepare it.
      void error.stack;
      return frames.get(error) ?? [];
    },
    drawing: openDrawingGuard(),
    freeze: (value) => harden(value),
  };
}
