import type { Phrase } from "../outcome.js";

/**
 * Sets texts, quantities and other values one after another as one inline value, so that a sentence that stands only
 * sometimes is written as a whole. Nothing is put between them; spaces belong to the texts.
 *
 * @param parts what an inline value may be, but no phrase
 * @example `[= median === null ? "" : phrase("The median is ", median, ".") =]`
 */
export function phrase(...parts: Phrase["parts"]): Phrase {
  return { kind: "phrase", parts };
}
