import type { Wording } from "../problem.js";
import { clock, random, sealed } from "../shared-wording.js";
import type { Frame } from "./seal-process.js";
import * as wording from "./wording.js";

/** What unseeded chance throws in a sealed process, wherever it is drawn. */
export const randomRefused = "unseeded random numbers are refused";

/** An error of a cell, with its place in the template where one of its calls stands there. */
export interface RunFault {
  readonly wording: Wording;
  readonly line: number | null;
  readonly column: number | null;
}

/**
 * Says what a cell threw, at the innermost of its calls that stands in the template.
 *
 * @param frames calls of the error, innermost first
 * @param address how the template is named in them
 * @param firstLine first and last line of the cell; a fault outside them also says from which line it was reached
 */
export function describeRunError(
  error: unknown,
  frames: readonly Frame[],
  address: string,
  firstLine: number,
  lastLine: number,
): RunFault {
  const own = frames.filter(({ file }) => file === address);
  const place = own[0] ?? null;
  const inside = (line: number): boolean => line >= firstLine && line <= lastLine;
  const reached = place === null || inside(place.line) ? null : (own.find(({ line }) => inside(line))?.line ?? null);
  const inLibrary = frames[0] !== undefined && frames[0].file !== address;
  return {
    wording: word(error, inLibrary, reached),
    line: place?.line ?? null,
    column: place?.column ?? null,
  };
}

function word(error: unknown, inLibrary: boolean, reached: number | null): Wording {
  const message = messageOf(error);
  if (message === null) return wording.threwNoError(shownValue(error));
  if (/%SharedDate%/.test(message)) return clock;
  if (/%SharedMath%|unseeded random numbers are refused/.test(message)) return random;
  if (/constructor is not a valid constructor/.test(message)) return sealed("Function");
  if (/Maximum call stack size exceeded/.test(message)) return wording.endlessCalls(reached);
  if (/is not extensible|read only property|Cannot (add|delete|redefine|assign to) property/.test(message)) {
    return wording.frozen(message);
  }
  if (/cannot be used as a bare number or text/.test(message)) return wording.lostQuantity(message);
  return wording.threw(message, inLibrary, reached);
}

/** The message of an error; code of a template may have made it anything, even something that throws when read. */
function messageOf(error: unknown): string | null {
  try {
    if (!(error instanceof Error)) return null;
    const { message } = error;
    return typeof message === "string" && message.trim() !== "" ? oneLine(message) : error.name;
  } catch {
    return null;
  }
}

function shownValue(value: unknown): string {
  if (typeof value === "string") return `the text "${oneLine(value)}"`;
  if (typeof value === "number") return `the number ${value}`;
  return value === null || value === undefined ? String(value) : `a value of the kind ${typeof value}`;
}

function oneLine(text: string): string {
  const line = text.replace(/\s+/g, " ").trim();
  return line.length > 300 ? `${line.slice(0, 297)}...` : line;
}
