import type { Document, YAMLError } from "yaml";
import { isCollection, isScalar, visit } from "yaml";
import type { ProblemCollector } from "./problem-collector.js";
import type { SourceText } from "./source-text.js";
import { placeOf } from "./source-text.js";

/** The parser's codes in our words; what is not here keeps the parser's. */
const words: Readonly<Record<string, string>> = {
  BLOCK_AS_IMPLICIT_KEY: "a key stands where a value is being written",
  MULTILINE_IMPLICIT_KEY: "a key runs over several lines",
  MISSING_CHAR: "a key stands without its colon",
  BAD_INDENT: "the indentation does not fit the lines before",
  UNEXPECTED_TOKEN: "this does not belong here",
};

/**
 * Reports what the parser found wrong. A bracket, brace or quote that is never closed is reported at its opening and ends
 * the report, since everything after it is misread; so do stray tokens after another error.
 */
export function reportYamlErrors(
  source: SourceText,
  document: Pick<Document.Parsed, "errors" | "contents">,
  deepest: number,
  problems: ProblemCollector,
): void {
  const unclosed = document.errors.filter((error) => /end with a [\]}]|Missing closing/.test(error.message));
  const openings = unclosed.length > 0 ? unclosedOpenings(source, document) : [];
  for (const start of openings) {
    const found = source.text[start]!;
    const expected = found === "[" ? "`]`" : found === "{" ? "`}`" : "the same quote";
    problems.add("E_YAML_UNCLOSED", placeOf(source, start), { found: `\`${found}\``, expected });
  }
  if (openings.length > 0) return;
  const telling = document.errors.filter((error, i) => i === 0 || error.code !== "UNEXPECTED_TOKEN");
  for (const error of telling) reportError(source, error, deepest, problems);
}

function reportError(source: SourceText, error: YAMLError, deepest: number, problems: ProblemCollector): void {
  const place = placeOf(source, Math.min(error.pos[0], source.text.length), error.pos[1]);
  if (error.code === "TAB_AS_INDENT") problems.add("E_YAML_TAB", place, { found: "\t", expected: "spaces" });
  else if (error.code === "MULTIPLE_DOCS") problems.add("E_YAML_DOCUMENTS", place);
  else if (error.code === "RESOURCE_EXHAUSTION") problems.add("E_YAML_DEEP", place, { expected: String(deepest) });
  else problems.add("E_YAML_SYNTAX", place, { found: words[error.code] ?? error.message.split("\n", 1)[0]! });
}

/** Offsets of brackets, braces and quotes whose node does not end with the character that closes it. */
function unclosedOpenings(source: SourceText, document: Pick<Document.Parsed, "contents">): readonly number[] {
  const closing: Readonly<Record<string, string>> = { "[": "]", "{": "}", '"': '"', "'": "'" };
  const starts: number[] = [];
  visit(document.contents, (_, node) => {
    const isEnclosed =
      (isCollection(node) && node.flow === true) || (isScalar(node) && /^QUOTE/.test(String(node.type)));
    if (!isEnclosed || !node.range) return;
    const [start, end] = node.range;
    const close = closing[source.text[start] ?? ""];
    const isClosed = end - start > 1 && source.text[end - 1] === close;
    if (close !== undefined && !isClosed) starts.push(start);
  });
  return starts;
}
