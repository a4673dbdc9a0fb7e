import type { Wordings } from "./wording.js";

/** YAML as such, and the keys and values of descriptions and cells. */
export const yamlWordings = {
  E_YAML_SYNTAX: {
    explanation: "The text is not YAML.",
    message: "this is not valid YAML: {found}",
    hint: "check indentation and colons here and on the line before; a text that holds a colon needs quotes",
  },
  E_YAML_UNCLOSED: {
    explanation: "A bracket, brace or quote is opened and never closed.",
    message: "this {found} is never closed",
    hint: "close it with {expected}",
  },
  E_YAML_TAB: {
    explanation: "YAML is indented with a tab, which it does not allow.",
    message: "a tab indents this line",
    hint: "indent with spaces",
  },
  E_YAML_ALIAS: {
    explanation: "An anchor or alias (`&name`, `*name`), which descriptions may not use.",
    message: "{found}: anchors and aliases are not read",
    hint: "write the value out where it is used, so that every number has a line of its own",
  },
  E_YAML_TAG: {
    explanation: "A tag (`!name`), which descriptions may not use.",
    message: "the tag `{found}` is not read",
    hint: "remove the tag; write a text in quotes and a number without",
  },
  E_YAML_KEY: {
    explanation: "A key that is not plain text.",
    message: "{found} cannot be a key",
    hint: "write the key as plain text; a number needs quotes",
  },
  E_YAML_DUPLICATE_KEY: {
    explanation: "One key stands twice in one mapping.",
    message: "`{found}` stands here a second time; the first is on line {expected}",
    hint: "keep one of the two",
  },
  E_YAML_DOCUMENTS: {
    explanation: "A file holds more than one YAML document.",
    message: "a second document starts here",
    hint: "keep one description a file; remove the `---`",
  },
  E_YAML_DIRECTIVE: {
    explanation: "A YAML directive (`%YAML`, `%TAG`), which could change what the values mean.",
    message: "directives such as `{found}` are not read",
    hint: "remove the line",
  },
  E_YAML_DEEP: {
    explanation: "Values are nested deeper than any description needs.",
    message: "values are nested deeper than {expected} levels here",
    hint: "a description needs at most five levels; is this the right file?",
  },
  E_KEY_MISSING: {
    explanation: "A key that the description needs is not there.",
    message: "the key `{expected}` is missing",
    hint: "add it; where the value is a text that nobody knows, write `not recorded`",
  },
  E_KEY_UNKNOWN: {
    explanation: "A key that the description does not have.",
    message: "unknown key `{found}`",
    hint: "known here: {expected}",
  },
  E_SUFFIX_ABSENT: {
    explanation: "A key or column of a measured value does not say its unit of measure.",
    message: "`{found}` does not say its unit of measure",
    hint: "write one of {expected}",
  },
  E_SUFFIX_UNKNOWN: {
    explanation: "A key or column ends with a unit of measure that is not known.",
    message: "`{found}` ends with an unknown unit of measure",
    hint: "write one of {expected}, and the numbers in that unit: a new name alone converts nothing",
  },
  E_SUFFIX_WRONG: {
    explanation: "A key or column ends with a unit of measure that measures something else.",
    message: "`{found}` ends with a unit of measure of another kind",
    hint: "write one of {expected}",
  },
  E_MEASURE_TWICE: {
    explanation: "One value is given in two units of measure.",
    message: "`{found}` gives again what `{expected}` gives",
    hint: "keep the one that was recorded; the other follows from it",
  },
  E_VALUE_EMPTY: {
    explanation: "A key without a value.",
    message: "the value is empty; {expected} is expected",
    hint: "give the value, or write `not recorded` where a text may say so",
  },
  E_VALUE_TYPE: {
    explanation: "A value of the wrong kind: a list where a text is expected, and the like.",
    message: "{found} stands where {expected} is expected",
    hint: "docs/formats.md lists every key with its form",
  },
  E_TEXT_UNQUOTED: {
    explanation: "A number or yes/no stands where a text is expected; as a number, 1.10 would become 1.1.",
    message: "{found} reads as a number or truth value; a text is expected",
    hint: 'put it in quotes: "{found}"',
  },
  E_TEXT_FORM: {
    explanation: "A text does not have the form that its key asks for.",
    message: "`{found}` is not {expected}",
    hint: "write it in that form",
  },
  E_VALUE_UNKNOWN: {
    explanation: "A value that is not among the ones its key or column allows.",
    message: "`{found}` is not among the values allowed here",
    hint: "allowed: {expected}",
  },
  E_NUMBER: {
    explanation: "A text stands where a number is expected.",
    message: "`{found}` is not a number",
    hint: "write digits with a decimal point and nothing else; the unit of measure belongs in the name",
  },
  E_NUMBER_NOT_FINITE: {
    explanation: "NaN or an infinity stands where a number is expected.",
    message: "`{found}` is not a finite number",
    hint: "give a number; in a table leave the cell empty where empty is allowed, or exclude the row with its reason",
  },
  E_NUMBER_RANGE: {
    explanation: "A number outside the range in which it can mean anything.",
    message: "{found} is out of range; {expected} is expected",
    hint: "check the number and its unit of measure",
  },
  E_WHOLE_NUMBER: {
    explanation: "A number with a fraction stands where a whole number is expected.",
    message: "`{found}` is not a whole number",
    hint: "counts, cycles, presses and frames are whole numbers, written without a decimal point",
  },
  E_DECIMAL_COMMA: {
    explanation: "A number is written with a decimal comma.",
    message: "`{found}` has a decimal comma",
    hint: "write it with a point: {expected}",
  },
  E_LIST_LENGTH: {
    explanation: "A list has too few or too many items.",
    message: "the list has {found}; {expected} expected",
    hint: "complete or shorten the list",
  },
  E_LIST_REPEATS: {
    explanation: "A list names one thing twice.",
    message: "the list names {found} twice",
    hint: "keep one of the two",
  },
  E_DATE_INVALID: {
    explanation: "A date that is not in the calendar, or not written as YYYY-MM-DD.",
    message: "`{found}` is not a date of the form {expected}",
    hint: "write the year first: 2026-03-09",
  },
  E_TIME_INVALID: {
    explanation: "A time that is not on the clock, or says no offset from UTC.",
    message: "`{found}` is not a time of the form {expected}",
    hint: "write date, time and offset: 2026-03-09T09:10:00Z or 2026-03-09T10:10:00+01:00",
  },
  E_KEY_CODE: {
    explanation: "A key is not named by its W3C UI Events code.",
    message: "`{found}` is not a key code",
    hint: "name the position by its W3C UI Events code: KeyF, Digit1, Space",
  },
  E_CHARACTERISTIC_UNKNOWN: {
    explanation: "A characteristic that the tool does not know.",
    message: "`{found}` is not a characteristic",
    hint: "known: {expected}",
  },
  E_SYMBOL_UNKNOWN: {
    explanation: "A unit of measure that the tool does not know.",
    message: "`{found}` is not a unit of measure",
    hint: "known: {expected}",
  },
  E_SYMBOL_WRONG: {
    explanation: "A unit of measure that does not fit the characteristic.",
    message: "`{found}` does not measure this; {expected} is expected",
    hint: "check the characteristic and its unit of measure: one of the two is wrong",
  },
} satisfies Wordings;
