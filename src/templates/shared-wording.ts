import type { Role } from "./outcome.js";
import type { Wording } from "./problem.js";

/** What both the check of a template and its run can say. */
export const synchronous: Wording = {
  code: "E_SYNC",
  message: "cells run at once, from top to bottom; there is nothing to wait for",
  hint: "remove async, await and Promise; everything in scope is already there",
};

export function sealed(name: string): Wording {
  if (name === "Promise") return synchronous;
  if (/^Float\d+Array$/.test(name)) {
    return {
      code: "E_SEALED",
      message: `cells have no "${name}", whose bytes may differ from one machine to another`,
      hint: "use an ordinary list of numbers",
    };
  }
  return {
    code: "E_SEALED",
    message: `"${name}" is out of reach: a cell has no file, network, process, page or code of its own making`,
    hint: "use the names in scope and the modules that cells may import",
  };
}

export const clock: Wording = {
  code: "E_CLOCK",
  message: "a cell cannot read the clock: the same records must give the same dossier on any day",
  hint: 'use a date from the records, or write one, as in new Date("2026-03-02")',
};

export const random: Wording = {
  code: "E_RANDOM",
  message: "a cell cannot draw unseeded random numbers: the same records must give the same dossier",
  hint: "use seededRandom(1).uniform(), with a seed of your choice",
};

export const bareNumber: Wording = {
  code: "E_BARE_NUMBER",
  message: "a bare number has no unit of measure, no uncertainty and no evidence",
  hint: "print a quantity, or count(list) for a number of things",
};

export function notPrintable(found: string): Wording {
  return {
    code: "E_NOT_PRINTABLE",
    message: `an inline value cannot be ${found}`,
    hint: "print a quantity, a count, a text, a verdict, a result, a link, see(id) or a phrase of them",
  };
}

const expectedResults: Readonly<Record<Role, { readonly what: string; readonly how: string }>> = {
  work: { what: "nothing", how: "name the value with const" },
  figure: { what: "a chart", how: "return chart({ marks, x, y }, { finding, data }) or a ready figure" },
  table: { what: "a table", how: "return table(columns, rows, { finding })" },
  criterion: { what: "a verdict", how: "return atLeast(value, bound), atMost(value, bound) or another verdict" },
};

export function wrongResult(role: Role, found: string): Wording {
  const { what, how } = expectedResults[role];
  return { code: "E_ROLE_RESULT", message: `a ${role} cell returns ${what}, not ${found}`, hint: how };
}

export function noResult(role: Role): Wording {
  const { what, how } = expectedResults[role];
  return { code: "E_NO_RESULT", message: `this ${role} cell does not always return ${what}`, hint: how };
}
