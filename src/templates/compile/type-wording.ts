import type { Wording } from "../problem.js";

/** Everything that checking names and types can say. */
const or = (near: string | undefined, otherwise: string): string => (near === undefined ? otherwise : `did you mean "${near}"?`);
const shown = (names: readonly string[], most = 8): string =>
  names.slice(0, most).join(", ") + (names.length > most ? ` and ${names.length - most} more` : "");



export function unknownName(name: string, near: string | undefined): Wording {
  return {
    code: "E_UNKNOWN_NAME",
    message: `the name "${name}" is not known here`,
    hint: or(near, "declare it in a work cell, or import it there"),
  };
}




export function usedBefore(name: string, line: number): Wording {
  return {
    code: "E_USED_BEFORE",
    message: `"${name}" is declared only later, in line ${line}`,
    hint: "work cells run from top to bottom: move its declaration above this line",
  };
}

export function repeatedName(name: string): Wording {
  return {
    code: "E_NAME_REPEATED",
    message: `the name "${name}" is declared twice; all work cells share their names`,
    hint: "give one of them another name",
  };
}

export function readOnly(name: string): Wording {
  return {
    code: "E_READ_ONLY",
    message: `"${name}" cannot be changed`,
    hint: "make a new value under a name of its own; copy a list with [...list] before sorting it",
  };
}

/** @param kind what the owner is, where its properties are the language's own and would tell nothing */
export function unknownProperty(
  name: string,
  owner: string,
  near: string | undefined,
  known: readonly string[],
  kind?: string,
): Wording {
  const has = kind !== undefined ? `it is ${kind}` : known.length === 0 ? "it has none" : `it has ${shown(known, 16)}`;
  return { code: "E_UNKNOWN_PROPERTY", message: `${owner} has no property "${name}"`, hint: or(near, has) };
}

export function unknownOption(name: string, near: string | undefined, known: readonly string[]): Wording {
  return {
    code: "E_UNKNOWN_OPTION",
    message: `"${name}" is not one of the names expected here`,
    hint: or(near, known.length === 0 ? "none is expected" : `expected are ${shown(known)}`),
  };
}

export function missingProperties(missing: readonly string[]): Wording {
  return {
    code: "E_MISSING_PROPERTY",
    message: `this misses ${missing.map((name) => `"${name}"`).join(", ")}`,
    hint: "add what is missing",
  };
}

/** @param alike whether `known` are only those that share a word with the name */
export function unknownExport(
  name: string,
  specifier: string,
  near: string | undefined,
  known: readonly string[],
  alike: boolean,
): Wording {
  return {
    code: "E_UNKNOWN_EXPORT",
    message: `"${specifier}" has no "${name}"`,
    hint: or(near, `${alike ? "alike:" : "it has"} ${shown(known, 12)}; docs/names.md lists all`),
  };
}

export function unknownReference(id: string, near: string | undefined, ids: readonly string[]): Wording {
  return {
    code: "E_UNKNOWN_REFERENCE",
    message: `no figure, table or criterion of this template has the id "${id}"`,
    hint: or(near, ids.length === 0 ? "give a cell an id first" : `the ids are ${shown(ids, 20)}`),
  };
}

export function unknownWord(found: string, near: string | undefined, known: readonly string[]): Wording {
  return {
    code: "E_UNKNOWN_WORD",
    message: `"${found}" is not one of the words expected here`,
    hint: or(near, `expected are ${known.map((word) => `"${word}"`).join(", ")}`),
  };
}



export function quantityArithmetic(operation: string, remedy: string): Wording {
  return {
    code: "E_QUANTITY_ARITHMETIC",
    message: `a quantity in "${operation}" would lose its uncertainty and evidence`,
    hint: remedy,
  };
}

export const quantityInText: Wording = {
  code: "E_QUANTITY_TEXT",
  message: "a quantity put into a text would lose its uncertainty and evidence",
  hint: "print it as an inline value of its own, [= name =]",
};

export function quantityAsNumber(name: string): Wording {
  return {
    code: "E_QUANTITY_ARITHMETIC",
    message: "a quantity stands where a bare number is expected",
    hint: `carry its uncertainty with derive([${name}], ([x]) => ..., "symbol"), or pass ${name}.value where none is needed`,
  };
}

export function wrongSymbol(found: string, expected: string): Wording {
  return {
    code: "E_SYMBOL",
    message: `a quantity in ${found} stands where one in ${expected} is expected`,
    hint: `use a quantity in ${expected}, or combine both with derive and say the symbol of the result`,
  };
}

export function mayBeAbsent(name: string): Wording {
  return {
    code: "E_ABSENT",
    message: `"${name}" may be absent, and then it has no value`,
    hint: `test isQuantity(${name}) first, or use derive, which carries the absence and its reason`,
  };
}

export function mayBeUndefined(name: string): Wording {
  return {
    code: "E_MAYBE_UNDEFINED",
    message: `"${name}" may be undefined`,
    hint: "test it first, or say what stands in its place with ??",
  };
}




export function mismatch(found: string, expected: string): Wording {
  return { code: "E_TYPE", message: `${found} stands where ${expected} is expected`, hint: `pass ${expected}` };
}

const ofColumn = (column: string | null): string => (column === null ? "a cell of the table" : `column "${column}"`);

export function numberInTable(column: string | null): Wording {
  return {
    code: "E_BARE_NUMBER",
    message: `${ofColumn(column)} holds a bare number, without unit of measure, uncertainty and evidence`,
    hint: "give a quantity, count(list) for a number of things, or a text where it is a name",
  };
}

export function missingInTable(column: string | null): Wording {
  return {
    code: "E_MAYBE_UNDEFINED",
    message: `${ofColumn(column)} may hold undefined`,
    hint: "say null for none, as in value ?? null",
  };
}

export function notInTable(column: string | null, found: string): Wording {
  return {
    code: "E_NOT_PRINTABLE",
    message: `${ofColumn(column)} holds ${found}, which no table can print`,
    hint: "a cell holds a quantity, a count, a text, a verdict, a result, a link or null",
  };
}

export const rowsNoRecords: Wording = {
  code: "E_TYPE",
  message: "the rows of a table are plain records, one value a column",
  hint: "make them with rows.map((each) => ({ key: each.key, force: each.actuationForce }))",
};

export function otherFault(message: string, number: number): Wording {
  return {
    code: "E_TYPE",
    message: lowerFirst(message.replace(/\.$/, "")),
    hint: `the compiler's number for this is TS${number}`,
  };
}

function lowerFirst(text: string): string {
  return text.slice(0, 1).toLowerCase() + text.slice(1);
}
