import { stringify } from "yaml";
import type { Decision, Sureness } from "./decision.js";

/** Gathers the parts of a proposed columns file in their order. */
export class Proposal {
  readonly #parts: (Decision & { readonly value: unknown })[] = [];

  /** A part with one value, such as `kind: force`; null leaves the value to be written. */
  add(part: string, value: unknown, sureness: Sureness, reason: string): void {
    this.#parts.push({ part, sureness, reason, value });
  }

  get decisions(): readonly Decision[] {
    return this.#parts.map(({ part, sureness, reason }) => ({ part, sureness, reason }));
  }

  /** Parts that hold a value to be written. */
  get emptyParts(): readonly string[] {
    return this.#parts.filter(({ value }) => hasEmpty(value)).map(({ part }) => part);
  }

  /**
   * The columns file as YAML, every part below a comment that says how sure it is and why.
   * @param opening lines of the comment at its start
   * @param standIn what to write in place of an empty value of a part; default nothing
   */
  render(opening: readonly string[], standIn?: (part: string) => string): string {
    const lines = opening.map((line) => `# ${line}`);
    let group = "";
    for (const { part, sureness, reason, value } of this.#parts) {
      const name = part.slice(part.lastIndexOf(".") + 1);
      const own = linesOf(name, standIn === undefined ? value : filled(value, () => standIn(part)));
      const parent = part.includes(".") ? part.slice(0, part.indexOf(".")) : "";
      const indent = parent === "" ? "" : "  ";
      if (parent !== group || parent === "") lines.push("");
      if (parent !== group && parent !== "") lines.push(`${parent}:`);
      group = parent;
      lines.push(...[`# ${sureness}: ${reason}`, ...own].map((line) => indent + line));
    }
    return `${lines.join("\n")}\n`;
  }
}

function isMapping(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function hasEmpty(value: unknown): boolean {
  return value === null || (isMapping(value) && Object.values(value).some(hasEmpty));
}

function filled(value: unknown, standIn: () => string): unknown {
  if (value === null) return standIn();
  if (!isMapping(value)) return value;
  return Object.fromEntries(Object.entries(value).map(([name, each]) => [name, filled(each, standIn)]));
}

/** A value as YAML, with empty values left open. */
function linesOf(name: string, value: unknown): readonly string[] {
  if (value === null) return [`${name}:`];
  return stringify({ [name]: value }, { lineWidth: 0, nullStr: "" })
    .trimEnd()
    .split("\n")
    .map((line) => line.trimEnd());
}
