/**
 * Every code that reading and checking an archive can give; `E_` is an error, `W_` a warning. The wording lives in
 * `problem-wording.ts`.
 */
export const problemCodes = [
  // folders and files
  "E_ARCHIVE_ABSENT",
  "W_ARCHIVE_EMPTY",
  "E_FILE_MISSING",
  "E_FILE_EMPTY",
  "E_FILE_HUGE",
  "E_FILE_BINARY",
  "E_FILE_UTF16",
  "E_FILE_UNREADABLE",
  "E_FILE_NOT_REGULAR",
  "E_FILE_CHANGED",
  "E_RECEIVED_CHANGED",
  "E_RECEIVED_MISSING",
  "E_LINK_OUTSIDE",
  "E_LINK_REFUSED",
  "E_FOLDER_NAME",
  "E_UTF8_INVALID",
  "W_BOM",
  "W_LINE_ENDS_MIXED",
  "W_FILE_UNKNOWN",
  "W_FILE_UNEXPECTED",
  "W_FOLDER_UNKNOWN",
  "W_RECEIPT_ABSENT",
  "W_RECEIVED_UNLISTED",
  // YAML as such
  "E_YAML_SYNTAX",
  "E_YAML_UNCLOSED",
  "E_YAML_TAB",
  "E_YAML_ALIAS",
  "E_YAML_TAG",
  "E_YAML_KEY",
  "E_YAML_DUPLICATE_KEY",
  "E_YAML_DOCUMENTS",
  "E_YAML_DIRECTIVE",
  "E_YAML_DEEP",
  // keys and values of descriptions, cells of tables
  "E_KEY_MISSING",
  "E_KEY_UNKNOWN",
  "E_SUFFIX_ABSENT",
  "E_SUFFIX_UNKNOWN",
  "E_SUFFIX_WRONG",
  "E_MEASURE_TWICE",
  "E_VALUE_EMPTY",
  "E_VALUE_TYPE",
  "E_TEXT_UNQUOTED",
  "E_TEXT_FORM",
  "E_VALUE_UNKNOWN",
  "E_NUMBER",
  "E_NUMBER_NOT_FINITE",
  "E_NUMBER_RANGE",
  "E_WHOLE_NUMBER",
  "E_DECIMAL_COMMA",
  "E_LIST_LENGTH",
  "E_LIST_REPEATS",
  "E_DATE_INVALID",
  "E_TIME_INVALID",
  "E_KEY_CODE",
  "E_CHARACTERISTIC_UNKNOWN",
  "E_SYMBOL_UNKNOWN",
  "E_SYMBOL_WRONG",
  // what descriptions say about each other
  "E_ID_PATH",
  "E_METHOD_UNKNOWN",
  "E_METHOD_KIND",
  "E_METHOD_NUMBERS",
  "E_REPLACES_UNKNOWN",
  "E_REPLACES_CIRCULAR",
  "E_REPLACES_KIND",
  "E_RIG_UNKNOWN",
  "E_RIG_KIND",
  "E_UNIT_UNKNOWN",
  "E_ROLE_UNKNOWN",
  "E_CONNECTION_UNKNOWN",
  "E_LIMIT_EMPTY",
  "E_LIMIT_ORDER",
  "E_CURVE_ORDER",
  "E_GRADES_ORDER",
  "E_WEIGHT_NO_CURVE",
  "E_DATE_ORDER",
  "E_SESSION_BEFORE_RECEIVED",
  "W_METHOD_BEFORE_SINCE",
  "W_CALIBRATION_EXPIRED",
  "W_CALIBRATION_NOT_YET",
  "W_PRESS_SPEED_UNSTATED",
  "W_PRESS_SPEED_DIFFERS",
  "W_CONNECTION_SETTINGS_ABSENT",
  // tables as such
  "E_CSV_HEADER_ONLY",
  "E_CSV_HEADER_ABSENT",
  "E_CSV_DELIMITER",
  "E_CSV_QUOTE_UNCLOSED",
  "E_CSV_QUOTE_STRAY",
  "E_COLUMN_MISSING",
  "E_COLUMN_UNKNOWN",
  "E_COLUMN_TWICE",
  "E_ROW_SHORT",
  "E_ROW_LONG",
  "W_ROW_BLANK",
  "E_CELL_EMPTY",
  // force.csv
  "E_CONTACT_VALUE",
  "E_CONTACT_PARTIAL",
  "W_CONTACT_MISSING",
  "W_CONTACT_UNDECLARED",
  "E_STROKE_DUPLICATE",
  "E_STROKE_SPLIT",
  "W_STROKE_ABSENT",
  "W_STROKE_SHORT",
  "E_STROKE_DIRECTIONS",
  "W_STROKE_DIRECTION",
  "E_DISPLACEMENT_STILL",
  "E_DISPLACEMENT_MAGNITUDE",
  "E_FORCE_FLAT",
  "E_FORCE_SIGN",
  "E_FORCE_MAGNITUDE",
  "W_FORCE_MAGNITUDE",
  "W_KEYS_FEWER",
  "W_KEYS_BELOW_MINIMUM",
  "W_KEY_EXTRA",
  "W_CYCLES_FEWER",
  "E_EXCLUSION_NO_ROWS",
  // presses.csv, films.csv, baseline.csv, timings.csv
  "E_EXCLUDED_NO_REASON",
  "E_FRAME_ABSENT",
  "E_RESPONSE_BEFORE_CONTACT",
  "E_MARK_BEFORE_CONTACT",
  "W_OUTCOME_FRAMES",
  "E_PRESS_DUPLICATE",
  "W_PRESS_READERS_DIFFER",
  "W_PRESSES_FEWER",
  "W_PRESSES_BELOW_MINIMUM",
  "W_CONNECTION_NO_PRESSES",
  "E_CLIP_UNKNOWN",
  "E_PRESS_OUTSIDE_CLIP",
  "E_FILM_DUPLICATE",
  "E_FILM_RANGE",
  "W_FRAME_RATE_DIFFERS",
  "E_BASELINE_DUPLICATE",
  "E_BASELINE_EMPTY_SHOT",
  "E_BASELINE_PART_ABSENT",
  "W_BASELINE_BLOCK_ABSENT",
  "W_BASELINE_SHOTS_FEWER",
  // studies
  "E_FACTOR_EMPTY",
  "W_FACTOR_CONSTANT",
  "W_READING_DUPLICATE",
] as const;

export type ProblemCode = (typeof problemCodes)[number];

/** Something wrong in an archive, as data; the wording lives in `problem-wording.ts`. */
export interface Problem {
  /** Stable, upper case: `E_ROW_SHORT`. */
  readonly code: ProblemCode;
  /** `error`: the archive cannot be used as it stands; `warning`: it can, and the page will say so. */
  readonly severity: "error" | "warning";
  /** Path relative to the archive's root. */
  readonly file: string;
  /** 1-based, in the original file. */
  readonly line: number;
  readonly column: number;
  /** Characters of the offending text; at least 1. */
  readonly length: number;
  readonly found: string;
  readonly expected: string;
  readonly hint: string;
  readonly notes: readonly string[];
}

/** Where a problem stands: a stretch of text on one line, 1-based. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly length: number;
}

/** Orders problems by file, line, column, then code, all by code unit. */
export function compareProblems(a: Problem, b: Problem): number {
  return compareText(a.file, b.file) || a.line - b.line || a.column - b.column || compareText(a.code, b.code);
}

/** Orders texts by code unit, whatever the locale. */
export function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
