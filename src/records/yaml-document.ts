import type { Document, Node, Pair, ParsedNode } from "yaml";
import { isAlias, isMap, isPair, isScalar, isSeq, parseDocument } from "yaml";
import type { Place } from "./problem.js";
import type { ProblemCollector } from "./problem-collector.js";
import type { SourceText } from "./source-text.js";
import { placeOf, startOf } from "./source-text.js";
import { reportYamlErrors } from "./yaml-errors.js";

/** Nesting beyond this is no description. */
const deepest = 24;

interface Spot {
  readonly key?: readonly [start: number, end: number];
  readonly value: readonly [start: number, end: number];
  /** A scalar as it is written. */
  readonly written?: string;
}

/** A YAML file as plain data, with the place of every key and value by its JSON Pointer (RFC 6901). */
export interface YamlDocument {
  readonly source: SourceText;
  /** Mappings as objects with own properties only, lists as arrays, scalars as text, number, truth value or null. */
  readonly data: unknown;
  /** Pointers of values that could not be read; what a schema says about them is no news. */
  readonly unreadable: readonly string[];
  /** The place of a value; of its key where it is empty, of the nearest thing around it where it is not there. */
  readonly placeOfValue: (pointer: string) => Place;
  readonly placeOfKey: (pointer: string) => Place;
  /** A scalar as it is written in the file; undefined for others. */
  readonly written: (pointer: string) => string | undefined;
}

/**
 * Parses one YAML 1.2 description (core schema). Undefined, with problems, where the text is not YAML. Duplicate keys,
 * anchors, aliases, tags and keys that are not text are problems too, but the rest of the file is still given.
 */
export function parseYaml(source: SourceText, problems: ProblemCollector): YamlDocument | undefined {
  const document = parseDocument(source.text, {
    version: "1.2",
    schema: "core",
    merge: false,
    uniqueKeys: false, // the library compares each key with all others; a map is enough, see `mapping` below
    prettyErrors: false,
    logLevel: "error",
  });
  if (document.errors.length > 0) {
    reportYamlErrors(source, document, deepest, problems);
    return undefined;
  }
  if (document.directives.yaml.explicit === true || /^%/.test(source.text)) {
    problems.add("E_YAML_DIRECTIVE", startOf(source.file), { found: source.text.split("\n", 1)[0]!.trim() });
    return undefined;
  }
  if (document.contents === null || (isScalar(document.contents) && document.contents.value === null)) {
    problems.add("E_FILE_EMPTY", startOf(source.file));
    return undefined;
  }
  return new Walk(source, problems).document(document);
}

/** One walk over the nodes: builds the plain data and notes the places. */
class Walk {
  readonly #source: SourceText;
  readonly #problems: ProblemCollector;
  readonly #spots = new Map<string, Spot>();
  readonly #unreadable: string[] = [];

  constructor(source: SourceText, problems: ProblemCollector) {
    this.#source = source;
    this.#problems = problems;
  }

  document(document: Document.Parsed<ParsedNode>): YamlDocument {
    const [source, spots] = [this.#source, this.#spots];
    const data = this.#value(document.contents, "", undefined, 0);
    const spotOf = (pointer: string): Spot | undefined => {
      for (let at = pointer; at !== ""; at = at.slice(0, at.lastIndexOf("/"))) {
        const spot = spots.get(at);
        if (spot !== undefined) return spot;
      }
      return undefined;
    };
    const place = (range: readonly [number, number] | undefined): Place =>
      range === undefined ? startOf(source.file) : placeOf(source, range[0], range[1]);
    return {
      source,
      data,
      unreadable: this.#unreadable,
      placeOfValue: (pointer) => {
        const spot = spotOf(pointer);
        return place(spot && spot.value[1] > spot.value[0] ? spot.value : (spot?.key ?? spot?.value));
      },
      placeOfKey: (pointer) => {
        const spot = spotOf(pointer);
        return place(spot?.key ?? spot?.value);
      },
      written: (pointer) => spots.get(pointer)?.written,
    };
  }

  #value(node: Node | null, pointer: string, key: Spot["key"], depth: number): unknown {
    const [start, end] = node?.range ?? [key?.[1] ?? 0, key?.[1] ?? 0];
    const spot: Spot = { value: [start, end], ...(key && { key }), ...(isScalar(node) && { written: writing(node) }) };
    this.#spots.set(pointer, spot);
    if (depth > deepest) {
      this.#refuse("E_YAML_DEEP", pointer, [start, end], "", String(deepest));
      return null;
    }
    if (isAlias(node)) {
      this.#refuse("E_YAML_ALIAS", pointer, [start, end], `*${node.source}`);
      return null;
    }
    this.#checkProperties(node, pointer, start);
    if (isMap(node)) return this.#mapping(node.items, pointer, depth);
    if (isSeq(node)) {
      return node.items.map((item, i) => this.#value(item as Node | null, `${pointer}/${i}`, undefined, depth + 1));
    }
    return isScalar(node) ? scalar(node) : null;
  }

  #mapping(items: readonly Pair[], pointer: string, depth: number): unknown {
    const entries = new Map<string, unknown>();
    for (const pair of items) {
      if (!isPair(pair)) continue;
      const keyNode = pair.key as Node | null;
      const range = keyNode?.range ?? [0, 0, 0];
      if (!isScalar(keyNode) || typeof keyNode.value !== "string") {
        this.#refuse(
          "E_YAML_KEY",
          pointer,
          [range[0], range[1]],
          isScalar(keyNode) ? writing(keyNode) : "a collection",
        );
        continue;
      }
      this.#checkProperties(keyNode, pointer, range[0]);
      const name = keyNode.value;
      const inner = `${pointer}/${escapePointer(name)}`;
      const first = this.#spots.get(inner)?.key;
      if (first !== undefined) {
        const firstLine = placeOf(this.#source, first[0]).line;
        this.#refuse("E_YAML_DUPLICATE_KEY", inner, [range[0], range[1]], name, String(firstLine));
        continue;
      }
      entries.set(name, this.#value(pair.value as Node | null, inner, [range[0], range[1]], depth + 1));
    }
    return Object.fromEntries(entries); // defines own properties, so that `__proto__` is a key like any other
  }

  /** Anchors and tags stand before their node. */
  #checkProperties(node: Node | null, pointer: string, start: number): void {
    if (node === null || isAlias(node)) return;
    const anchor = isScalar(node) || isMap(node) || isSeq(node) ? node.anchor : undefined;
    if (anchor !== undefined) {
      this.#refuse("E_YAML_ALIAS", pointer, this.#before(start, `&${anchor}`), `&${anchor}`);
    }
    if (node.tag !== undefined) {
      const written = node.tag.startsWith("tag:yaml.org,2002:") ? `!!${node.tag.slice(18)}` : node.tag;
      this.#refuse("E_YAML_TAG", pointer, this.#before(start, written), written);
    }
  }

  #before(start: number, text: string): readonly [number, number] {
    const at = this.#source.text.lastIndexOf(text, start);
    return at === -1 ? [start, start + 1] : [at, at + text.length];
  }

  #refuse(
    code: "E_YAML_ALIAS" | "E_YAML_TAG" | "E_YAML_KEY" | "E_YAML_DUPLICATE_KEY" | "E_YAML_DEEP",
    pointer: string,
    range: readonly [number, number],
    found: string,
    expected = "",
  ): void {
    this.#unreadable.push(pointer);
    this.#problems.add(code, placeOf(this.#source, range[0], range[1]), { found, expected });
  }
}

/** Numbers in other notations than decimal (0x1F, 0o17) stay text, so that they are refused as numbers. */
function scalar(node: { readonly value: unknown; readonly source?: string }): unknown {
  const { value } = node;
  if (typeof value === "number" && /^[-+]?0[xo]/i.test(node.source ?? "")) return node.source;
  return typeof value === "string" || typeof value === "number" || typeof value === "boolean" ? value : null;
}

function writing(node: { readonly value: unknown; readonly source?: string }): string {
  return node.source ?? String(node.value);
}

/** A name as one step of a JSON Pointer (RFC 6901, 3). */
export function escapePointer(name: string): string {
  return name.replaceAll("~", "~0").replaceAll("/", "~1");
}
