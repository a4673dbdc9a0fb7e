import type { Role } from "../outcome.js";
import type { Wording } from "../problem.js";

/** Everything that only the run of a template can say. */
const what = (role: Role | "inline"): string => (role === "inline" ? "this inline value" : `this ${role} cell`);
const reached = (line: number | null): string => (line === null ? "" : `; this line was reached from line ${line}`);

export function threw(message: string, inLibrary: boolean, reachedFrom: number | null): Wording {
  const remedy = /of (undefined|null) \(|is not iterable|undefined is not/.test(message)
    ? "something on this line is undefined or null: test for it, or say what stands in its place with ??"
    : inLibrary
      ? "the function called here says so: mend what it is given"
      : "mend this line, or test for the case before it";
  return { code: "E_CELL_THREW", message, hint: remedy + reached(reachedFrom) };
}

export function endlessCalls(reachedFrom: number | null): Wording {
  return {
    code: "E_CELL_THREW",
    message: "functions call each other without end",
    hint: `give the function that calls itself a case in which it stops${reached(reachedFrom)}`,
  };
}

export function threwNoError(shown: string): Wording {
  return {
    code: "E_CELL_THREW",
    message: `the cell threw ${shown}, which is no error and has no place`,
    hint: 'throw new Error("what is wrong")',
  };
}

export function frozen(message: string): Wording {
  return {
    code: "E_FROZEN",
    message: `${message.slice(0, 1).toLowerCase()}${message.slice(1)}: records, values of work cells and what comes with the language never change`,
    hint: "make a new value; copy a list with [...list] before sorting or adding to it",
  };
}

export function lostQuantity(message: string): Wording {
  return {
    code: "E_QUANTITY_ARITHMETIC",
    message,
    hint: "use derive, or print the quantity as an inline value of its own",
  };
}

export function notRun(names: readonly string[], line: number): Wording {
  const list = names.map((name) => `\`${name}\``);
  const needs = list.length < 2 ? list.join("") : `${list.slice(0, -1).join(", ")} and ${list.at(-1)}`;
  return {
    code: "E_NOT_RUN",
    message: `not run: needs ${needs}, line ${line} failed`,
    hint: `mend line ${line} first`,
  };
}

export function outOfTime(role: Role | "inline", limitMs: number): Wording {
  return {
    code: "E_TIME",
    message: `${what(role)} was stopped after ${limitMs / 1000} s`,
    hint: "look for a loop that never ends, or for work that grows with the square of the number of rows",
  };
}

export function outOfMemory(role: Role | "inline", limitMb: number): Wording {
  return {
    code: "E_MEMORY",
    message: `${what(role)} was stopped when it needed more than ${limitMb} MB of memory`,
    hint: "look for a list or a text that grows without end",
  };
}
