import { createHash } from "node:crypto";
import { closeSync, fstatSync, openSync, readFileSync, readSync } from "node:fs";
import { join } from "node:path";
import type { ArchiveFile } from "./archive.js";
import type { ProblemCollector } from "./problem-collector.js";
import type { SourceText } from "./source-text.js";
import { placeOf, sourceText, startOf } from "./source-text.js";

/** The most that is read of one file, in bytes. */
export interface SizeLimits {
  readonly yamlBytes: number;
  readonly csvBytes: number;
}

/** A megabyte of description; 256 megabytes of readings. */
export const sizeLimits: SizeLimits = { yamlBytes: 1_000_000, csvBytes: 256_000_000 };

/** Size and sha256 of a file, read in pieces. Throws what the system throws where it cannot be read. */
export function hashFile(root: string, path: string): ArchiveFile {
  const handle = openSync(join(root, path), "r");
  try {
    const hash = createHash("sha256");
    const piece = Buffer.allocUnsafe(1 << 18);
    let bytes = 0;
    for (let read = readSync(handle, piece); read > 0; read = readSync(handle, piece)) {
      hash.update(piece.subarray(0, read));
      bytes += read;
    }
    return { path, bytes, sha256: hash.digest("hex") };
  } finally {
    closeSync(handle);
  }
}

/**
 * Reads one text file of the archive. Undefined, with a problem, where it is empty, too large, binary, not UTF-8, cannot
 * be read or, given the hash that the archive was read with, has changed since.
 */
export function readSource(
  root: string,
  file: string,
  maxBytes: number,
  problems: ProblemCollector,
  expectedSha256?: string,
): SourceText | undefined {
  const bytes = readBytes(root, file, maxBytes, problems);
  if (bytes === undefined) return undefined;
  if (expectedSha256 !== undefined) {
    const sha256 = createHash("sha256").update(bytes).digest("hex");
    if (sha256 !== expectedSha256) {
      problems.add("E_FILE_CHANGED", startOf(file), { found: brief(sha256), expected: brief(expectedSha256) });
      return undefined;
    }
  }
  return decodeSource(file, bytes, problems);
}

/** Decodes the bytes of a text file; undefined, with a problem, where they are no text or hold nothing. */
export function decodeSource(file: string, bytes: Uint8Array, problems: ProblemCollector): SourceText | undefined {
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    problems.add("E_FILE_UTF16", startOf(file));
    return undefined;
  }
  const zero = bytes.indexOf(0);
  if (zero !== -1) {
    problems.add("E_FILE_BINARY", startOf(file), { found: `byte ${zero + 1} is zero` });
    return undefined;
  }
  let text: string;
  try {
    text = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    reportInvalidUtf8(file, bytes, problems);
    return undefined;
  }
  if (text.startsWith("\ufeff")) {
    problems.add("W_BOM", startOf(file), { found: "U+FEFF" });
    text = text.slice(1);
  }
  if (text.trim() === "") {
    problems.add("E_FILE_EMPTY", startOf(file));
    return undefined;
  }
  const source = sourceText(file, text);
  reportMixedLineEnds(source, text, problems);
  return source;
}

function readBytes(root: string, file: string, maxBytes: number, problems: ProblemCollector): Uint8Array | undefined {
  try {
    const handle = openSync(join(root, file), "r");
    try {
      const { size } = fstatSync(handle);
      if (size <= maxBytes) return readFileSync(handle);
      problems.add("E_FILE_HUGE", startOf(file), { found: `${size} bytes`, expected: `${maxBytes} bytes` });
    } finally {
      closeSync(handle);
    }
  } catch (error) {
    problems.add("E_FILE_UNREADABLE", startOf(file), { found: systemReason(error) });
  }
  return undefined;
}

/** Why the system refused a file, in words, with its code. */
export function systemReason(error: unknown): string {
  const code = systemCode(error);
  const words: Readonly<Record<string, string>> = {
    ENOENT: "it is not there",
    EACCES: "it may not be read",
    EPERM: "it may not be read",
    EISDIR: "it is a folder",
  };
  return words[code] === undefined ? code : `${words[code]} (${code})`;
}

/** The system's short code of a failed call, such as ENOENT; our own mistakes are thrown on. */
export function systemCode(error: unknown): string {
  if (error instanceof Error && "code" in error && typeof error.code === "string") return error.code;
  throw error;
}

/** Enough of a sha256 to tell two apart. */
function brief(sha256: string): string {
  return sha256.slice(0, 12);
}

/** Finds the first byte that is not UTF-8: everything before it decodes. */
function reportInvalidUtf8(file: string, bytes: Uint8Array, problems: ProblemCollector): void {
  const decodes = (end: number): boolean => {
    try {
      // In a stream an incomplete last character is no mistake yet.
      new TextDecoder("utf-8", { fatal: true }).decode(bytes.subarray(0, end), { stream: true });
      return true;
    } catch {
      return false;
    }
  };
  let [low, high] = [0, bytes.length];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (decodes(middle)) low = middle;
    else high = middle - 1;
  }
  // What was decoded ends before the character that could not be completed: that character's first byte is the culprit.
  const decoder = new TextDecoder("utf-8", { ignoreBOM: true });
  const decoded = decoder.decode(bytes.subarray(0, low), { stream: true });
  const byte = bytes[Buffer.byteLength(decoded)] ?? 0;
  const before = sourceText(file, decoded.replace(/^\ufeff/, ""));
  problems.add("E_UTF8_INVALID", placeOf(before, before.text.length), {
    found: `0x${byte.toString(16).padStart(2, "0")}`,
    expected: "UTF-8",
  });
}

const lineEndNames: Readonly<Record<string, string>> = { "\n": "LF", "\r\n": "CRLF", "\r": "CR" };

/** Warns of the first line end that differs from the file's first one. */
function reportMixedLineEnds(source: SourceText, text: string, problems: ProblemCollector): void {
  if (!text.includes("\r")) return;
  let first: string | undefined;
  let line = 0;
  for (const [end] of text.matchAll(/\r\n?|\n/g)) {
    line += 1;
    first ??= end;
    if (end === first) continue;
    const start = source.lineStarts[line - 1]!;
    problems.add("W_LINE_ENDS_MIXED", placeOf(source, Math.max(start, source.lineStarts[line]! - 2)), {
      found: lineEndNames[end]!,
      expected: lineEndNames[first]!,
    });
    return;
  }
}
