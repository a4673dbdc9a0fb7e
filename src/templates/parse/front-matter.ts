import type { Node, Pair, YAMLMap } from "yaml";
import { isMap, isScalar, isSeq, LineCounter, parseDocument } from "yaml";
import { nearestName } from "../../records/nearest.js";
import type { TemplateProblem } from "../outcome.js";
import type { Wording } from "../problem.js";
import { problemAt } from "../problem.js";
import type { Subject } from "../subjects.js";
import { isSubject, subjects } from "../subjects.js";
import * as wording from "./wording.js";

/** The plain data at the head of a template. */
export interface FrontMatter {
  readonly subject: Subject;
  /** Method ids, most wanted first; empty where the template names none. */
  readonly methods: readonly string[];
  /** What the template is for, in one line; empty where it does not say. */
  readonly description: string;
}

export interface FrontMatterReading {
  /** Null where the subject is not known; then nothing of the template can be checked. */
  readonly frontMatter: FrontMatter | null;
  /** Number of lines it takes at the head of the file, its marks included. */
  readonly lineCount: number;
  readonly problems: readonly TemplateProblem[];
}

const knownKeys = ["subject", "methods", "description"];
const methodId = /^[a-z][a-z0-9-]*@[1-9][0-9]*$/;

/** Reads the YAML between the two `---` lines at the head of a template; every problem points into the file. */
export function parseFrontMatter(lines: readonly string[], file: string): FrontMatterReading {
  const isMark = (line: string | undefined): boolean => line !== undefined && line.trimEnd() === "---";
  const fail = (lineCount: number, said: Wording): FrontMatterReading => ({
    frontMatter: null,
    lineCount,
    problems: [problemAt(file, { line: 1, column: 1 }, lines[0]?.trimEnd().length ?? 0, said)],
  });
  if (!isMark(lines[0])) return fail(0, wording.noFrontMatter);
  const close = lines.findIndex((line, index) => index > 0 && isMark(line));
  if (close < 0) return fail(1, wording.openFrontMatter);
  const reading = new YamlReading(lines.slice(1, close).join("\n"), file);
  return { frontMatter: reading.read(), lineCount: close + 1, problems: reading.problems };
}

class YamlReading {
  readonly problems: TemplateProblem[] = [];
  readonly #lines = new LineCounter();
  readonly #text: string;
  readonly #file: string;

  constructor(text: string, file: string) {
    this.#text = text;
    this.#file = file;
  }

  read(): FrontMatter | null {
    const document = parseDocument(this.#text, { lineCounter: this.#lines, prettyErrors: false });
    for (const fault of [...document.errors, ...document.warnings]) {
      const [from, to] = fault.pos;
      this.#report(from, to, wording.badYaml(lowerFirst(fault.message.replace(/\.$/, ""))));
    }
    if (document.errors.length > 0) return null;
    const map: unknown = document.contents;
    if (map === null) {
      this.#report(0, 1, wording.noSubject);
      return null;
    }
    if (!isMap(map)) {
      this.#report(0, 1, wording.frontMatterNoMap);
      return null;
    }
    this.#refuseUnknown(map);
    const methods = this.#methods(map);
    const description = this.#description(map);
    const subject = this.#subject(map);
    return subject === null ? null : { subject, methods, description };
  }

  #refuseUnknown(map: YAMLMap): void {
    for (const { key } of map.items as Pair<Node>[]) {
      const name = isScalar(key) ? String(key.value) : "";
      if (knownKeys.includes(name)) continue;
      this.#reportNode(key, wording.unknownKey(name, nearestName(name, knownKeys), knownKeys));
    }
  }

  #subject(map: YAMLMap): Subject | null {
    const node = map.get("subject", true);
    const found = isScalar(node) && typeof node.value === "string" ? node.value : null;
    if (found !== null && isSubject(found)) return found;
    if (!map.has("subject") || node === undefined || (isScalar(node) && node.value === null)) {
      this.#report(0, 1, wording.noSubject);
    } else {
      const text = found ?? this.#textOf(node as Node);
      this.#reportNode(node as Node, wording.unknownSubject(text, nearestName(text, subjects)));
    }
    return null;
  }

  #methods(map: YAMLMap): readonly string[] {
    const node = map.get("methods", true) as Node | undefined;
    if (node === undefined) return [];
    if (!isSeq(node)) {
      this.#reportNode(node, wording.badMethods(`"${this.#textOf(node)}"`));
      return [];
    }
    return (node.items as Node[]).flatMap((item) => {
      if (isScalar(item) && typeof item.value === "string" && methodId.test(item.value)) return [item.value];
      this.#reportNode(item, wording.badMethods(`"${this.#textOf(item)}" in it`));
      return [];
    });
  }

  #description(map: YAMLMap): string {
    const node = map.get("description", true) as Node | undefined;
    if (node === undefined) return "";
    if (isScalar(node) && typeof node.value === "string") return node.value.trim();
    this.#reportNode(node, wording.badDescription(`"${this.#textOf(node)}"`));
    return "";
  }

  #textOf(node: Node): string {
    const [from, to] = node.range ?? [0, 0];
    return this.#text.slice(from, to).trim().split("\n")[0] ?? "";
  }

  #reportNode(node: Node | null | undefined, said: Wording): void {
    const [from, to] = node?.range ?? [0, 1];
    this.#report(from, to, said);
  }

  /** Offsets count in the YAML text, whose first line is the file's second. */
  #report(from: number, to: number, said: Wording): void {
    const { line, col } = this.#lines.linePos(from);
    const firstLine = this.#text.slice(from, Math.max(to, from + 1)).split("\n")[0] ?? "";
    const place = { line: Math.max(line, 1) + 1, column: Math.max(col, 1) };
    this.problems.push(problemAt(this.#file, place, firstLine.trimEnd().length, said));
  }
}

function lowerFirst(text: string): string {
  return text.slice(0, 1).toLowerCase() + text.slice(1);
}
