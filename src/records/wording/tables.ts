import type { Wordings } from "./wording.js";

/** CSV as such, and force.csv. */
export const tableWordings = {
  E_CSV_HEADER_ONLY: {
    explanation: "A table has a header and no row.",
    message: "the table has a header and no row",
    hint: "fill it, or remove the file if the reading was not taken",
  },
  E_CSV_HEADER_ABSENT: {
    explanation: "The first row names none of the table's columns.",
    message: "the first row names no column of this table: {found}",
    hint: "start the file with the header: {expected}",
  },
  E_CSV_DELIMITER: {
    explanation: "The fields are separated by something other than a comma.",
    message: "the fields are separated by {found}; a comma is expected",
    hint: "export the table with commas between fields and points in numbers",
  },
  E_CSV_QUOTE_UNCLOSED: {
    explanation: "A quoted field is opened and never closed; everything after it is one field.",
    message: "this quote is never closed",
    hint: "close it before the next comma; a quote inside a quoted field is doubled",
  },
  E_CSV_QUOTE_STRAY: {
    explanation: "A quote stands inside a field, where RFC 4180 does not allow it.",
    message: "a quote stands {found}",
    hint: 'put the whole field in quotes and double the ones inside: "3.5"" plate"',
  },
  E_COLUMN_MISSING: {
    explanation: "A column that the table needs is not there.",
    message: "the column `{expected}` is missing",
    hint: "add the column; where nothing was recorded and empty is allowed, leave its cells empty",
  },
  E_COLUMN_UNKNOWN: {
    explanation: "A column that the table does not have.",
    message: "unknown column `{found}`",
    hint: "columns of this table: {expected}",
  },
  E_COLUMN_TWICE: {
    explanation: "Two columns have one name.",
    message: "the column `{found}` stands here a second time",
    hint: "keep one of the two",
  },
  E_ROW_SHORT: {
    explanation: "A row has fewer fields than the header.",
    message: "row has {found}, the header has {expected}",
    hint: "the row ends early; was the export cut off?",
  },
  E_ROW_LONG: {
    explanation: "A row has more fields than the header.",
    message: "row has {found}, the header has {expected}",
    hint: "is there a decimal comma, or an unquoted comma in a text?",
  },
  W_ROW_BLANK: {
    explanation: "A blank line, or a row of empty fields, which is no reading.",
    message: "a row without any value stands here",
    hint: "remove it; check that no row was lost here",
  },
  E_CELL_EMPTY: {
    explanation: "A cell that must hold a value is empty.",
    message: "`{expected}` is empty",
    hint: "fill the cell",
  },
  E_CONTACT_VALUE: {
    explanation: "A contact reading that is neither 0, 1 nor empty.",
    message: "`{found}` is no contact reading",
    hint: "write 0 for open, 1 for closed, or leave it empty where contact was not recorded",
  },
  E_CONTACT_PARTIAL: {
    explanation: "A stroke has contact readings in some rows and none in others.",
    message: "the contact is empty here; {found} rows of this stroke state it",
    hint: "state the contact in every row of a stroke or in none",
  },
  W_CONTACT_MISSING: {
    explanation: "session.yaml names a contact source, but no row states the contact: no actuation point then.",
    message: "no row states the contact, though the contact source is `{found}`",
    hint: "fill the contact column, or set `contact_source: none`",
  },
  W_CONTACT_UNDECLARED: {
    explanation: "Rows state the contact, but session.yaml names no source for it.",
    message: "the contact is stated, though the contact source is `none`",
    hint: "set `contact_source` to `electrical` or `report`: a report comes later than the contact",
  },
  E_STROKE_DUPLICATE: {
    explanation: "One key, cycle and stroke was recorded twice.",
    message: "{found} is recorded a second time; the first starts on line {expected}",
    hint: "number the cycles anew, or remove the recording that was a trial",
  },
  E_STROKE_SPLIT: {
    explanation: "The rows of one stroke do not stand together.",
    message: "more rows of {found} stand here, apart from those that start on line {expected}",
    hint: "keep the rows of a stroke together, in the order recorded",
  },
  W_STROKE_ABSENT: {
    explanation: "A cycle has a press without a release, or a release without a press.",
    message: "{found} has no {expected} stroke",
    hint: "what needs that stroke will be absent, with this reason",
  },
  W_STROKE_SHORT: {
    explanation: "A stroke has fewer than ten rows.",
    message: "{found} has {expected}: too few to reduce",
    hint: "was the export cut off?",
  },
  E_STROKE_DIRECTIONS: {
    explanation: "Every press moves up and every release down.",
    message: "all {found} strokes move the wrong way",
    hint: "{expected}",
  },
  W_STROKE_DIRECTION: {
    explanation: "A press moves up, or a release moves down.",
    message: "{found} moves the wrong way: {expected}",
    hint: "are press and release exchanged, or does the tester count upwards?",
  },
  E_DISPLACEMENT_STILL: {
    explanation: "The displacement of a stroke never changes.",
    message: "the displacement never moves in {found}: {expected} in every row",
    hint: "was the right column exported?",
  },
  E_DISPLACEMENT_MAGNITUDE: {
    explanation: "The strokes are far too short or too long for a key: the displacement's unit of measure is wrong.",
    message: "the strokes are {found} long, which no key is",
    hint: "{expected}",
  },
  E_FORCE_FLAT: {
    explanation: "The force of a press never changes.",
    message: "the force never changes in {found}: {expected} in every row",
    hint: "was the right column exported, and did the probe touch the key?",
  },
  E_FORCE_SIGN: {
    explanation: "The force of the presses is negative.",
    message: "the force half-way down is {found}: pressing must be positive",
    hint: "the tester counts pressing as negative; export it with the other sign",
  },
  E_FORCE_MAGNITUDE: {
    explanation: "The force is tens of times too small or too large for a key: its unit of measure is wrong.",
    message: "the force half-way down is {found} (median over presses), which no key needs",
    hint: "{expected}",
  },
  W_FORCE_MAGNITUDE: {
    explanation: "The force is unusually small or large for a key: its unit of measure may be wrong.",
    message: "the force half-way down is {found} (median over presses), which few keys need",
    hint: "{expected}",
  },
  W_KEYS_FEWER: {
    explanation: "A key that the method lists was not measured.",
    message: "the method asks for {expected}; the record has no rows of {found}",
    hint: "measure the key, or state among the deviations why it was not",
  },
  W_KEYS_BELOW_MINIMUM: {
    explanation: "Fewer keys have usable cycles than the method's minimum: the unit has no mean.",
    message: "{found} of the method's keys can be used; its minimum is {expected}",
    hint: "measure more keys: under the method's minimum the unit's mean is not given",
  },
  W_KEY_EXTRA: {
    explanation: "A key was measured that the method does not list.",
    message: "{found} is not among the method's keys and does not count in the unit's mean",
    hint: "the method's keys: {expected}",
  },
  W_CYCLES_FEWER: {
    explanation: "A key has fewer cycles than the method asks for.",
    message: "{found} recorded; the method asks for {expected}",
    hint: "record the missing cycles, or state among the deviations why not",
  },
  E_EXCLUSION_NO_ROWS: {
    explanation: "session.yaml excludes a key and cycle that has no rows, so what was meant still counts.",
    message: "{found} is excluded but has no rows in force.csv",
    hint: "correct the key or the cycle; recorded are {expected}",
  },
} satisfies Wordings;
