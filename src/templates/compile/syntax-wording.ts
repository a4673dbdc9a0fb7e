import type { Role } from "../outcome.js";
import type { Wording } from "../problem.js";

/** Everything that reading a cell alone can say. */
const or = (near: string | undefined, otherwise: string): string => (near === undefined ? otherwise : `did you mean "${near}"?`);


export function syntax(message: string): Wording {
  return {
    code: "E_SYNTAX",
    message: `this does not parse: ${lowerFirst(message.replace(/\.$/, ""))}`,
    hint: "correct the code; each cell and each inline value is read alone",
  };
}

export function neverClosed(mark: string): Wording {
  return {
    code: "E_SYNTAX",
    message: `this "${mark}" is never closed in its cell`,
    hint: "close it before the fence ends",
  };
}

export function strayClose(mark: string): Wording {
  return {
    code: "E_SYNTAX",
    message: `this "${mark}" closes nothing in its cell`,
    hint: "remove it; a cell cannot close what stands around it",
  };
}

export const tooDeep: Wording = {
  code: "E_SYNTAX",
  message: "the code nests too deeply to be followed",
  hint: "name the inner parts with const",
};

export const noExpression: Wording = {
  code: "E_INLINE_EXPRESSION",
  message: "an inline value is one expression",
  hint: "name the value in a work cell and print the name",
};

export const inlineSemicolon: Wording = {
  code: "E_INLINE_EXPRESSION",
  message: "an inline value is an expression, not a statement",
  hint: "remove the semicolon",
};

export const inlineComment: Wording = {
  code: "E_INLINE_EXPRESSION",
  message: "a comment cannot stand in an inline value",
  hint: "move it into a work cell",
};


export const noExport: Wording = {
  code: "E_EXPORT",
  message: "a cell exports nothing",
  hint: "remove the word; every later cell sees the names of a work cell",
};

export const noDeclare: Wording = {
  code: "E_DECLARE",
  message: "a declared name has no value when the cell runs",
  hint: "give it a value with const",
};

export const dynamicImport: Wording = {
  code: "E_DYNAMIC_IMPORT",
  message: "a cell cannot load anything while it runs",
  hint: 'write import { name } from "benchfolio/..." at the top of a work cell',
};

export const importForm: Wording = {
  code: "E_IMPORT",
  message: "this form of import gives a cell nothing",
  hint: 'write import { name } from "..." or import * as name from "..."',
};

export function importPlace(role: Role | "inline"): Wording {
  return {
    code: "E_IMPORT_PLACE",
    message: `${role === "inline" ? "an inline value" : `a ${role} cell`} cannot import`,
    hint: "move the import into a work cell",
  };
}

export function unknownModule(specifier: string, near: string | undefined, known: readonly string[]): Wording {
  return {
    code: "E_IMPORT",
    message: `cells cannot import "${specifier}"`,
    hint: or(near, `import from one of ${known.join(", ")}`),
  };
}

export function withheld(name: string, specifier: string, reason: string): Wording {
  return { code: "E_WITHHELD", message: `cells do not get "${name}" of ${specifier}`, hint: reason };
}

export function notPlain(what: string): Wording {
  return {
    code: "E_NOT_ERASABLE",
    message: `${what} cannot stand in a cell, whose types are erased and whose code runs as it is written`,
    hint: "use const, function and class",
  };
}


export const notErasable: Wording = {
  code: "E_NOT_ERASABLE",
  message: "this is more than a type, so it cannot be erased",
  hint: "use a const object or a union of texts instead of an enum, a module instead of a namespace, `as` instead of <T>",
};

export function reservedName(name: string): Wording {
  return { code: "E_RESERVED_NAME", message: `the name "${name}" is kept for the tool`, hint: "choose another name" };
}

export const returnInWork: Wording = {
  code: "E_RETURN_IN_WORK",
  message: "a work cell returns nothing",
  hint: "name the value with const; later cells see the name",
};

export function letInWork(word: string): Wording {
  return {
    code: "E_LET",
    message: `"${word}" at the top of a work cell would let other cells see a value that changes`,
    hint: "use const here; let is free inside a function or a block",
  };
}

export function htmlComment(found: string): Wording {
  return {
    code: "E_TEXT_REFUSED",
    message: `the characters "${found}" may be read as an HTML comment`,
    hint: 'put a space between them, or build the text from parts, as in "--" + ">"',
  };
}

export const importInText: Wording = {
  code: "E_TEXT_REFUSED",
  message: '"import" before a parenthesis may be read as loading code, even inside a text',
  hint: 'build the text from parts, as in "imp" + "ort("',
};

export const lineSeparator: Wording = {
  code: "E_TEXT_REFUSED",
  message: "the cell holds an invisible line separator (U+2028 or U+2029)",
  hint: "write it as \\u2028 or \\u2029, or remove it",
};

export const checkTurnedOff: Wording = {
  code: "E_CHECK_OFF",
  message: "the check of a cell cannot be turned off",
  hint: "remove the comment and mend what it hides",
};

function lowerFirst(text: string): string {
  return text.slice(0, 1).toLowerCase() + text.slice(1);
}
