import type { EvidenceRows } from "../metrology/evidence.js";
import { convertDecimal, symbolOfSuffix } from "../metrology/units.js";
import type { Stated } from "./archive.js";
import { acceptedSuffixes, namesOf } from "./measure-names.js";
import type { Place } from "./problem.js";
import type { YamlDocument } from "./yaml-document.js";
import { escapePointer } from "./yaml-document.js";

/** What a text reads as where the file does not state it. */
export const notRecorded = "not recorded";

/**
 * A mapping of a description that fits its schema, read key by key. Whoever asks for a key the schema does not promise,
 * or for another type, gets a TypeError: that is a mistake of ours and not the file's.
 */
export class YamlView {
  readonly #document: YamlDocument;
  readonly #pointer: string;
  readonly #data: Readonly<Record<string, unknown>>;

  constructor(document: YamlDocument, pointer = "", data: unknown = document.data) {
    if (typeof data !== "object" || data === null || Array.isArray(data)) {
      throw new TypeError(`${document.source.file}: ${pointer || "the file"} is no mapping`);
    }
    this.#document = document;
    this.#pointer = pointer;
    this.#data = data as Readonly<Record<string, unknown>>;
  }

  get file(): string {
    return this.#document.source.file;
  }

  get keys(): readonly string[] {
    return Object.keys(this.#data);
  }

  has(name: string): boolean {
    return Object.hasOwn(this.#data, name);
  }

  text(name: string, otherwise?: string): string {
    const value = this.#own(name) ?? otherwise;
    if (typeof value !== "string") throw this.#mistake(name, "a text");
    return value;
  }

  /** A text among the schema's few; the schema has made sure of it. */
  choice<T extends string>(name: string, otherwise?: T): T {
    return this.text(name, otherwise) as T;
  }

  number(name: string): number {
    const value = this.#own(name);
    if (typeof value !== "number") throw this.#mistake(name, "a number");
    return value;
  }

  flag(name: string): boolean {
    const value = this.#own(name);
    if (typeof value !== "boolean") throw this.#mistake(name, "a truth value");
    return value;
  }

  texts(name: string): readonly string[] {
    return this.#list(name) as readonly string[];
  }

  numbers(name: string): readonly number[] {
    return this.#list(name) as readonly number[];
  }

  /** A list of lists, whose form the schema knows. */
  lists(name: string): readonly (readonly unknown[])[] {
    return this.#list(name) as readonly (readonly unknown[])[];
  }

  /** A mapping of texts, in the file's order. */
  textMap(name: string): Readonly<Record<string, string>> {
    return (this.#own(name) ?? {}) as Readonly<Record<string, string>>;
  }

  child(name: string): YamlView | undefined {
    const value = this.#own(name);
    return value === undefined ? undefined : new YamlView(this.#document, this.#at(name), value);
  }

  children(name: string): readonly YamlView[] {
    return this.#list(name).map((item, i) => new YamlView(this.#document, `${this.#at(name)}/${i}`, item));
  }

  /** The name under which a measured value is given; undefined where it is not. */
  measureName(stem: string, symbol: string): string | undefined {
    return namesOf({ stem, suffixes: acceptedSuffixes(symbol) }).find((name) => this.has(name));
  }

  /** A measured value, converted exactly into `symbol`; undefined where it is not given. */
  stated<S extends string>(stem: string, symbol: S): Stated<S> | undefined {
    const name = this.measureName(stem, symbol);
    if (name === undefined) return undefined;
    return { value: this.converted(name, stem, symbol), symbol, evidence: this.evidenceOf(name) };
  }

  /** As `stated`, for values that the schema requires. */
  required<S extends string>(stem: string, symbol: S): Stated<S> {
    const stated = this.stated(stem, symbol);
    if (stated === undefined) throw this.#mistake(stem, `a value in ${symbol}`);
    return stated;
  }

  /** The number written at `name` or at a pointer below it, from the unit of measure in the name into `symbol`. */
  converted(name: string, stem: string, symbol: string, below = ""): number {
    const from = symbolOfSuffix.get(name.slice(stem.length + 1));
    const written = this.#document.written(`${this.#at(name)}${below}`);
    if (from === undefined || written === undefined) throw this.#mistake(name, "a number with its unit of measure");
    return convertDecimal(written, from, symbol);
  }

  /** The lines of a value, with its dotted path. */
  evidenceOf(name: string): EvidenceRows {
    const { line } = this.#document.placeOfKey(this.#at(name));
    return { kind: "rows", file: this.file, firstLine: line, lastLine: line, columns: [dotted(this.#at(name))] };
  }

  /** The first line of this mapping, with its dotted path; the whole file at the top. */
  get evidence(): EvidenceRows {
    if (this.#pointer === "") return wholeFile(this.#document);
    const { line } = this.#document.placeOfValue(this.#pointer);
    return { kind: "rows", file: this.file, firstLine: line, lastLine: line, columns: [dotted(this.#pointer)] };
  }

  /** The place of a value, or of what a pointer names below it. */
  placeOf(name: string, below = ""): Place {
    return this.#document.placeOfValue(`${this.#at(name)}${below}`);
  }

  placeOfKey(name: string): Place {
    return this.#document.placeOfKey(this.#at(name));
  }

  get place(): Place {
    return this.#document.placeOfValue(this.#pointer);
  }

  #own(name: string): unknown {
    return this.has(name) ? this.#data[name] : undefined;
  }

  #list(name: string): readonly unknown[] {
    const value = this.#own(name) ?? [];
    if (!Array.isArray(value)) throw this.#mistake(name, "a list");
    return value;
  }

  #at(name: string): string {
    return `${this.#pointer}/${escapePointer(name)}`;
  }

  #mistake(name: string, wanted: string): TypeError {
    return new TypeError(`${this.file}: ${dotted(this.#at(name))} is not ${wanted}, though its schema says so`);
  }
}

/** A JSON Pointer as a dotted path. */
function dotted(pointer: string): string {
  return pointer
    .slice(1)
    .split("/")
    .map((step) => step.replaceAll("~1", "/").replaceAll("~0", "~"))
    .join(".");
}

/** The whole of a description. */
function wholeFile({ source }: YamlDocument): EvidenceRows {
  const lines = source.text.replace(/\n+$/, "").split("\n").length;
  return { kind: "rows", file: source.file, firstLine: 1, lastLine: lines, columns: [] };
}
