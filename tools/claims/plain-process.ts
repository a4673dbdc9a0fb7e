import { runInThisContext } from "node:vm";
import { openDrawingGuard } from "../../src/templates/run/guard-drawing.js";
import type { SealedProcess } from "../../src/templates/run/seal-process.js";

/**
 * Runs cells of templates that are our own, unsealed: sealing freezes every archive and reduction in full, which costs
 * more than the cells do, and changes no number. Never for templates of others.
 */
export function openPlainProcess(): SealedProcess {
  return {
    open: () => ({
      builtins: globalThis as unknown as Readonly<Record<string, unknown>>,
      evaluate: (text, address) => runInThisContext(`"use strict";${text}`, { filename: address }) as unknown,
    }),
    framesOf: () => [],
    drawing: openDrawingGuard(),
    freeze: (value) => value,
  };
}
