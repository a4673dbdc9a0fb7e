/** `benchfolio/words`: what a template says in its own name; in scope of every cell without import. */
export { atLeast } from "./at-least.js";
export { atMost } from "./at-most.js";
export { phrase } from "./phrase.js";
export { probability } from "./probability.js";
export { result } from "./result.js";
export type { Bound } from "./threshold.js";
