/** Text that is markup already: made by `html` or by a renderer that escapes on its own. */
export class Markup {
  readonly text: string;

  constructor(text: string) {
    this.text = text;
  }

  toString(): string {
    return this.text;
  }
}

/** What may stand in an `html` template: text is escaped, markup is not, lists are joined, null prints nothing. */
export type Content = Markup | string | number | null | readonly Content[];

const entities: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/**
 * Characters that HTML 13.2.2 forbids or that reorder the line: C0 and C1 controls, non-characters, lone surrogates and
 * the bidirectional embeddings and isolates that could make a file name read as another.
 */
const unprintable =
  // eslint-disable-next-line no-control-regex -- the controls are what is looked for
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\ufdd0-\ufdef\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** Escapes text for HTML content and for double-quoted attributes; what cannot be printed becomes U+FFFD. */
export function escapeText(text: string): string {
  return text.replace(unprintable, "\ufffd").replace(/[&<>"']/g, (character) => entities[character]!);
}

/**
 * Builds markup from a template: every interpolation is escaped unless it is `Markup` itself. Attribute values must stand
 * in double quotes. Line breaks with their indent, which the source has for its readers, become one line break each.
 *
 * @example html`<td title="${name}">${name}</td>`
 */
export function html(parts: TemplateStringsArray, ...values: readonly Content[]): Markup {
  let text = withoutIndent(parts[0]!);
  values.forEach((value, index) => {
    text += contentText(value) + withoutIndent(parts[index + 1]!);
  });
  return new Markup(text);
}

function withoutIndent(part: string): string {
  return part.replace(/\s*\n\s*/g, "\n");
}

/** Joins contents, with a separator that is escaped like any text. */
export function join(contents: readonly Content[], separator: Content = ""): Markup {
  return new Markup(contents.map(contentText).join(contentText(separator)));
}

/** Nothing to print. */
export const nothing = new Markup("");

function contentText(content: Content): string {
  if (content === null) return "";
  if (content instanceof Markup) return content.text;
  if (typeof content === "object") return content.map(contentText).join("");
  return escapeText(String(content));
}

/** A string for a style sheet's `content`: every character but plain letters, digits and spaces as a code point. */
export function styleString(text: string): string {
  const escaped = [...text.replace(unprintable, "\ufffd")].map((character) =>
    /[A-Za-z0-9 ]/.test(character) ? character : `\\${character.codePointAt(0)!.toString(16)} `,
  );
  return `"${escaped.join("")}"`;
}

/** A `data:` address for a download: the text as it stands but for what an address, or an attribute, cannot hold. */
export function dataAddress(type: "text/csv" | "text/markdown" | "application/json", text: string): string {
  const body = text
    .replace(/[\ud800-\udfff]/g, (half, at: number) => (isPaired(text, at) ? half : "\ufffd"))
    .replace(/[^A-Za-z0-9,.;:_/()=*+!?@$~^[\]{}|`\\ -]+| $/g, (run) => encodeURIComponent(run).replace(/'/g, "%27"));
  return `data:${type};charset=utf-8,${body}`;
}

function isPaired(text: string, at: number): boolean {
  const code = text.charCodeAt(at);
  if (code < 0xdc00) return /[\udc00-\udfff]/.test(text.charAt(at + 1));
  return /[\ud800-\udbff]/.test(text.charAt(at - 1));
}
