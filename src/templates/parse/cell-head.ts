import { nearestName } from "../../records/nearest.js";
import type { Role } from "../outcome.js";
import type { Place } from "../text-lines.js";
import type { Wording } from "../problem.js";
import * as wording from "./wording.js";

export const roles: readonly Role[] = ["work", "figure", "table", "criterion"];

/** Words that people use for a role; they count as misspellings only where an id and a colon follow. */
const otherWords: Readonly<Record<string, Role>> = {
  chart: "figure",
  plot: "figure",
  graph: "figure",
  check: "criterion",
  test: "criterion",
  assert: "criterion",
  setup: "work",
  code: "work",
};

export interface CellHead {
  readonly role: Role;
  readonly id: string | null;
  readonly caption: string | null;
  /** 1-based column of the role's word, and of the id where there is one. */
  readonly roleColumn: number;
  readonly idColumn: number;
}

export interface HeadReading {
  /** Null: a listing, or a fence whose role cannot be told. */
  readonly head: CellHead | null;
  readonly problems: readonly { readonly column: number; readonly length: number; readonly wording: Wording }[];
}

const pattern = /^(\s*(?:`{3,}|~{3,})[ \t]*)([^\s`]+)([ \t]+)(\S+?)(:?)(?=\s|$)(.*)$/;

/**
 * Reads the opening line of a fence: `ts ROLE [ID][: CAPTION]`. A fence in another language, or without a word after
 * `ts`, is a listing. A word near a role is taken for a misspelling and reported.
 */
export function parseCellHead(line: string): HeadReading {
  const match = pattern.exec(line);
  if (match === null) return { head: null, problems: [] };
  const [, lead = "", language = "", gap = "", word = "", colon = "", rest = ""] = match;
  const roleColumn = lead.length + language.length + gap.length + 1;
  const role = roles.find((each) => each === word);
  if (language !== "ts") {
    if (role === undefined || !/^(typescript|tsx|js|javascript|jsx|mjs|mts|TS|Ts)$/.test(language)) {
      return { head: null, problems: [] };
    }
    const said = wording.wrongLanguage(language, role);
    return { head: null, problems: [{ column: lead.length + 1, length: language.length, wording: said }] };
  }
  if (role === undefined) {
    const near = nearestName(word, roles) ?? (/^\s+\S+:/.test(rest) ? otherWords[word.toLowerCase()] : undefined);
    if (near === undefined) return { head: null, problems: [] };
    return {
      head: null,
      problems: [{ column: roleColumn, length: word.length, wording: wording.unknownRole(word, near) }],
    };
  }
  return parseIdAndCaption(role, roleColumn, colon + rest, roleColumn + word.length);
}

/** @param column 1-based column of the first character of `rest` */
function parseIdAndCaption(role: Role, roleColumn: number, rest: string, column: number): HeadReading {
  const problems: { column: number; length: number; wording: Wording }[] = [];
  const [, space = "", id = "", after = ""] = /^(\s*)([^\s:]*)(.*)$/.exec(rest)!;
  const idColumn = column + space.length;
  if (id === "" && role !== "work") {
    problems.push({ column: roleColumn, length: role.length, wording: wording.noId(role) });
  } else if (id !== "" && !/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/.test(id)) {
    problems.push({ column: idColumn, length: id.length, wording: wording.badId(id) });
  }
  const tail = after.trim();
  if (tail !== "" && !tail.startsWith(":")) {
    const tailColumn = idColumn + id.length + (after.length - after.trimStart().length);
    problems.push({ column: tailColumn, length: tail.length, wording: wording.badFence(tail) });
  }
  const caption = tail.startsWith(":") ? tail.slice(1).trim() : "";
  const head = { role, id: id === "" ? null : id, caption: caption === "" ? null : caption, roleColumn, idColumn };
  return { head, problems };
}

/** The role's word in a cell's opening line: where everything stands that concerns the cell as a whole. */
export function roleOnFence(line: string, role: Role, fenceLine: number): { place: Place; length: number } {
  const column = parseCellHead(line).head?.roleColumn ?? 1;
  return { place: { line: fenceLine, column }, length: role.length };
}
