import type { Wordings } from "./wording.js";

/** Folders and files of the archive, before anything in them is understood. */
export const fileWordings = {
  E_ARCHIVE_ABSENT: {
    explanation: "The archive's folder is not there, or is not a folder.",
    message: "the folder of the archive cannot be read: {found}",
    hint: "give the folder that holds lab.yaml, with --data DIR",
  },
  W_ARCHIVE_EMPTY: {
    explanation: "The archive holds no unit, so there is nothing to report.",
    message: "the archive holds no unit",
    hint: "add units/u01/unit.yaml for the first keyboard under test",
  },
  E_FILE_MISSING: {
    explanation: "A file that this folder or method needs is not there.",
    message: "{expected} is missing",
    hint: "add the file, or remove what asks for it",
  },
  E_FILE_EMPTY: {
    explanation: "A file holds nothing (or nothing but blank space and comments).",
    message: "the file is empty",
    hint: "fill it, or remove it if the reading was not taken; was the export cut off?",
  },
  E_FILE_HUGE: {
    explanation: "A file is larger than the tool reads.",
    message: "the file holds {found}; at most {expected} are read",
    hint: "split the record into several sessions, or thin the export",
  },
  E_FILE_BINARY: {
    explanation: "A file that should be text holds zero bytes.",
    message: "this is not a text file: {found}",
    hint: "export the table as CSV text; a workbook cannot be read",
  },
  E_FILE_UTF16: {
    explanation: "A text file is written in UTF-16.",
    message: "the text is encoded as UTF-16; UTF-8 is expected",
    hint: "save the file again as UTF-8",
  },
  E_FILE_UNREADABLE: {
    explanation: "The system refused to read a file.",
    message: "the file cannot be read: {found}",
    hint: "check that it is still there and that you may read it",
  },
  E_FILE_NOT_REGULAR: {
    explanation: "Something that is neither a file nor a folder (a device, a pipe) stands in the archive.",
    message: "{found} is neither a file nor a folder",
    hint: "remove it; an archive holds plain files only",
  },
  E_FILE_CHANGED: {
    explanation: "A raw file changed between the reading of the archive and the reading of its rows.",
    message: "the file's sha256 is {found}; it was {expected} when the archive was read",
    hint: "a record is never changed after receipt; run again once nothing writes to the archive",
  },
  E_RECEIVED_CHANGED: {
    explanation: "A file kept in `received/`, or the table made of it, is not what the note of its receipt says.",
    message: "{found}; received were {expected}",
    hint: "restore the file as it was received; a correction is received as another session",
  },
  E_RECEIVED_MISSING: {
    explanation: "A file that the note of a session's receipt names is not there.",
    message: "{expected} is missing, which this receipt names",
    hint: "restore the file as it was received; nothing else proves what the record was made from",
  },
  E_LINK_OUTSIDE: {
    explanation: "A symbolic link leads out of the archive, so its content is not part of it.",
    message: "this link leaves the archive: {found}",
    hint: "copy the file into the archive in place of the link",
  },
  E_LINK_REFUSED: {
    explanation: "A symbolic link is broken or leads to a folder.",
    message: "this link is not followed: {found}",
    hint: "put the file or folder itself here",
  },
  E_FOLDER_NAME: {
    explanation: "A folder's name cannot be an id: lower-case letters, digits and hyphens only.",
    message: "`{found}` cannot be an id",
    hint: "use lower-case letters, digits and hyphens, starting with a letter or digit, such as `u07`",
  },
  E_UTF8_INVALID: {
    explanation: "A text file holds bytes that are not UTF-8.",
    message: "byte {found} here is not UTF-8",
    hint: "save the file again as UTF-8; it was probably written in an older encoding",
  },
  W_BOM: {
    explanation: "A text file starts with a byte order mark, which is read past.",
    message: "the file starts with a byte order mark",
    hint: "save it as UTF-8 without a mark, so that every program reads the first name alike",
  },
  W_LINE_ENDS_MIXED: {
    explanation: "A file mixes kinds of line ends; each counts as one.",
    message: "this line ends with {found}; the first one ends with {expected}",
    hint: "the file was probably joined from two sources: check that both belong here",
  },
  W_FILE_UNKNOWN: {
    explanation: "A file that is no part of the archive's formats; it is listed with its sha256 and not read.",
    message: "this file is not part of an archive and is not read",
    hint: "remove it, or keep it outside the archive",
  },
  W_FILE_UNEXPECTED: {
    explanation: "A raw file that the session's kind of method does not use.",
    message: "a session of {expected} does not use this file",
    hint: "check the session's `method`, or move the file to the session it belongs to",
  },
  W_FOLDER_UNKNOWN: {
    explanation: "A folder that is no part of the archive's formats; nothing in it is read.",
    message: "this folder is not part of an archive and nothing in it is read",
    hint: "remove it, or keep it outside the archive",
  },
  W_RECEIPT_ABSENT: {
    explanation:
      "Files stand in `received/` without a note of their receipt, so that nothing shows whether they changed.",
    message: "there is no received.yaml beside this file: nothing shows that it is as it came",
    hint: "restore received.yaml; `benchfolio receive` writes one",
  },
  W_RECEIVED_UNLISTED: {
    explanation: "A file stands in `received/` that the note of the receipt does not name.",
    message: "received.yaml does not name this file",
    hint: "remove it, or receive it as a session of its own",
  },
} satisfies Wordings;
