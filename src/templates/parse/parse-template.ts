import type { Token } from "markdown-it";
import MarkdownIt from "markdown-it";
import type { Cell, Inline, TemplateProblem } from "../outcome.js";
import type { Wording } from "../problem.js";
import { problemAt, sortProblems } from "../problem.js";
import { splitLines } from "../text-lines.js";
import { findCells } from "./find-cells.js";
import type { FrontMatter } from "./front-matter.js";
import { parseFrontMatter } from "./front-matter.js";
import { scanInlineValues } from "./inline-values.js";
import { settleTokens } from "./settle-tokens.js";

/** A template taken apart; no code of it has been looked at. */
export interface ParsedTemplate {
  readonly file: string;
  readonly source: string;
  /** Without line ends; line n of the file is `lines[n - 1]`. */
  readonly lines: readonly string[];
  readonly frontMatter: FrontMatter | null;
  /** Block tokens; cells stand as `benchfolio_cell`, inline values as `benchfolio_value` (see outcome.ts). */
  readonly tokens: readonly Token[];
  readonly cells: readonly Cell[];
  readonly inlines: readonly Inline[];
  readonly problems: readonly TemplateProblem[];
}

/**
 * Takes a template apart: front matter, Markdown, cells and inline values, each with its place in the file. Markdown is
 * CommonMark with tables and strikethrough; HTML in it is text. Never throws on any text of at most the private use
 * area's variety; what is wrong is in `problems`, in the order of lines.
 *
 * @param text the file's text, any line ends
 * @param file path as given by the user, for the problems
 */
export function parseTemplate(text: string, file: string): ParsedTemplate {
  const lines = splitLines(text);
  const problems: TemplateProblem[] = [];
  const report = (line: number, column: number, length: number, said: Wording): void => {
    problems.push(problemAt(file, { line, column }, length, said));
  };
  const front = parseFrontMatter(lines, file);
  problems.push(...front.problems);
  const body = lines.map((line, index) => (index < front.lineCount ? "" : line));
  const markdown = new MarkdownIt({ html: false, linkify: false, typographer: false });
  // Links are judged afterwards, where the refusal can be reported; Markdown itself would print them as text in silence.
  markdown.validateLink = () => true;
  const scan = scanInlineValues(body, markdown.parse(body.join("\n"), {}));
  const tokens = markdown.parse(scan.lines.join("\n"), {});
  const { cells, cellOfFence } = findCells(tokens, body, report);
  const inlines = settleTokens(tokens, body, scan, cellOfFence, report);
  return {
    file,
    source: text,
    lines,
    frontMatter: front.frontMatter,
    tokens,
    cells,
    inlines,
    problems: sortProblems(problems),
  };
}
