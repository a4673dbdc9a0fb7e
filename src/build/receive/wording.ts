import type { Wording } from "../../records/wording/wording.js";

/** Every code that only the receipt of files gives, in the order of its stages, with its words. */
export const receiptWordings = {
  // the columns file
  E_VALUE_FROM: {
    explanation: "A value in the columns file says nowhere where it comes from, or says it twice.",
    message: "`{found}` must say in one way where it comes from: {expected}",
    hint: "keep exactly one of them",
  },
  E_NAME_PATTERN: {
    explanation: "A pattern of file names lacks its own place, or names one that is none.",
    message: "the pattern `{found}` {expected}",
    hint: "write the part of the name in braces and `*` for parts that do not matter, such as `{key}_*.csv`",
  },
  E_WORD_TWICE: {
    explanation: "One word of the source stands for two values.",
    message: "`{found}` stands for {expected} already",
    hint: "list every word once",
  },
  E_LEAVE_OUT: {
    explanation: "Lines to be left out do not exist in the files, or run backwards.",
    message: "{found}",
    hint: "correct `file`, `from_line` or `to_line`, or remove the entry",
  },
  // the files
  E_NO_FILE: {
    explanation: "A folder or device was named in place of a file.",
    message: "this is no file: {found}",
    hint: "name the exports themselves, such as exports/*.csv",
  },
  E_FILE_TWICE: {
    explanation: "Two of the files hold the same bytes.",
    message: "this file holds the same bytes as {found}",
    hint: "name it once; was one export saved under two names?",
  },
  E_FILES_HUGE: {
    explanation: "The files, or the record made of them, are larger than one record can be.",
    message: "{found}; a record holds at most {expected}",
    hint: "receive the files as several sessions",
  },
  E_ENCODING: {
    explanation: "The bytes of a file are not in the encoding that the columns file states.",
    message: "the bytes are not {expected}",
    hint: "correct `encoding` under `layout`; leave it out for UTF-8, and for UTF-16 with a byte order mark",
  },
  E_TABLE_ABSENT: {
    explanation: "Nothing is left of a file once the lines before, after and between are left out.",
    message: "the file holds no {found}",
    hint: "check `lines_before`, `lines_after_header` and `stops_at` under `layout`; was the export cut off?",
  },
  E_DELIMITER_UNSEEN: {
    explanation: "The delimiter cannot be told from the file.",
    message: "no delimiter splits these lines into equally many fields",
    hint: "state `delimiter` under `layout`, and check `lines_before`",
  },
  E_COLUMN_ABSENT: {
    explanation: "A column that the columns file names is not in a file.",
    message: "no column `{found}` in the file; its columns: {expected}",
    hint: "copy the name from the file's header, or take the column by `column_number`",
  },
  E_COLUMN_AMBIGUOUS: {
    explanation: "Several columns of a file have the name that the columns file asks for.",
    message: "{expected} columns of the file are named `{found}`",
    hint: "take it by `column_number`, counted from 1",
  },
  E_COLUMN_UNLISTED: {
    explanation: "A file has a column that the columns file neither uses nor ignores.",
    message: "the column {found} is neither used nor ignored",
    hint: "add it to {expected} in the columns file if nothing in it belongs to the record",
  },
  E_FILE_NAME: {
    explanation: "A file's name does not fit the pattern from which a value is taken.",
    message: "the name does not fit `{expected}`",
    hint: "rename the copy that is received, or correct the pattern",
  },
  // cells
  E_DECIMAL_SIGN: {
    explanation:
      "A number is written with another decimal sign, or with grouped digits that the columns file does not state.",
    message: "`{found}` does not fit a decimal {expected}",
    hint: "state `decimal` under `layout`, and `grouping` where digits are grouped",
  },
  E_UNIT_DIFFERS: {
    explanation: "The file states another unit of measure than the columns file.",
    message: "the file says {found} here; the columns file says {expected}",
    hint: "correct `unit`; where the file's own name is wrong, take the column by `column_number`, which is not compared",
  },
  E_KEY_UNMAPPED: {
    explanation: "A text that should name a key is no key code, and `codes` does not translate it.",
    message: "`{found}` names no key",
    hint: 'translate it under `codes`, such as `"{found}": {expected}`',
  },
  E_WORD_UNMAPPED: {
    explanation: "A word of the source that the columns file does not translate.",
    message: "`{found}` is not translated; translated are {expected}",
    hint: "add it to one of the lists; for strokes and outcomes `leave_out` drops such rows with a note",
  },
  // strokes
  E_STREAM_NO_PRESS: {
    explanation: "A stream that should hold both strokes holds no press.",
    message: "no press can be found in this stream: {found}",
    hint: "does `reversed` fit, are displacement and force exchanged, or is this a stream of one stroke only?",
  },
  E_STREAM_CYCLES: {
    explanation: "A stream with a stated cycle holds several presses.",
    message: "the stream of {expected} holds {found} presses",
    hint: "count the cycles instead: `cycle: { from: order }`",
  },
  E_NOTHING_TAKEN: {
    explanation: "No row of a file was taken.",
    message: "no row of this file would be taken",
    hint: "do not name the file, or check `leave_out` and `stops_at`",
  },
} satisfies Readonly<Record<string, Wording>>;

export type ReceiptCode = keyof typeof receiptWordings;
