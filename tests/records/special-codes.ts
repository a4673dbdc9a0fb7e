import type { ProblemCode } from "../../src/records/index.js";

/** Codes that need more than another text in a file: each has a test of its own in archive-folder.test.ts. */
export const specialCodes: readonly ProblemCode[] = [
  "E_ARCHIVE_ABSENT",
  "E_FILE_UNREADABLE",
  "E_FILE_NOT_REGULAR",
  "E_FILE_CHANGED",
  "E_LINK_OUTSIDE",
  "E_LINK_REFUSED",
];
