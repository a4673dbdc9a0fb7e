import { ProblemCollector } from "../../records/problem-collector.js";
import { decodeSource } from "../../records/read-source.js";
import type { SourceText } from "../../records/source-text.js";
import { sourceText, startOf } from "../../records/source-text.js";
import type { Encoding } from "./columns.js";
import type { ReceiptProblems } from "./problem.js";

/**
 * Decodes a file to be received; undefined, with a problem, where its bytes are no text in the encoding. Without an
 * encoding: UTF-16 where a byte order mark says so, else UTF-8. A byte order mark is read past and is no news.
 *
 * @param name path as the user gave it
 */
export function decodeFile(
  name: string,
  bytes: Uint8Array,
  encoding: Encoding | undefined,
  problems: ReceiptProblems,
): SourceText | undefined {
  const mark = utf16Mark(bytes);
  if (encoding === "windows-1252") return decodeAs(name, bytes, "windows-1252", problems);
  if (encoding === "utf-16" || (encoding === undefined && mark !== undefined)) {
    return decodeAs(name, bytes, mark ?? (bytes[0] === 0 ? "utf-16be" : "utf-16le"), problems);
  }
  const found = new ProblemCollector();
  const source = decodeSource(name, bytes, found);
  for (const problem of found.list()) {
    if (problem.code === "W_BOM") continue;
    const notes = problem.code === "E_UTF8_INVALID" ? [...problem.notes, otherEncoding] : problem.notes;
    problems.addProblem({ ...problem, notes });
  }
  return source;
}

const otherEncoding = "if it was, say `encoding: windows-1252` under `layout` in the columns file";

function utf16Mark(bytes: Uint8Array): "utf-16le" | "utf-16be" | undefined {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return "utf-16le";
  return bytes[0] === 0xfe && bytes[1] === 0xff ? "utf-16be" : undefined;
}

function decodeAs(
  name: string,
  bytes: Uint8Array,
  encoding: "windows-1252" | "utf-16le" | "utf-16be",
  problems: ReceiptProblems,
): SourceText | undefined {
  let text: string;
  try {
    text = new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    problems.add("E_ENCODING", startOf(name), { expected: encoding.replace(/[lb]e$/, "").toUpperCase() });
    return undefined;
  }
  const zero = text.indexOf("\0");
  if (zero !== -1) {
    problems.addRecords("E_FILE_BINARY", startOf(name), { found: `character ${zero + 1} is zero` });
    return undefined;
  }
  if (text.trim() === "") {
    problems.addRecords("E_FILE_EMPTY", startOf(name));
    return undefined;
  }
  return sourceText(name, text);
}
