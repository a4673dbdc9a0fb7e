import MarkdownIt from "markdown-it";
import type { Token } from "markdown-it";
import type { Cell, Inline, Role } from "../../src/templates/outcome.js";

/** What a template's text holds, with the tokens that the page is rendered from; front matter becomes blank lines. */
export interface ParsedTemplate {
  readonly tokens: readonly Token[];
  readonly cells: readonly Cell[];
  readonly inlines: readonly Inline[];
}

/** A small stand-in for the template floor: finds cells and inline values and leaves them as tokens. */
export function parseTemplate(source: string): ParsedTemplate {
  const body = source.replace(/^---\n[^]*?\n---\n/, (front) => front.replace(/[^\n]/g, ""));
  const engine = new MarkdownIt({ html: true });
  const cells: Cell[] = [];
  const inlines: Inline[] = [];
  engine.inline.ruler.before("link", "value", (state, silent) => {
    const match = /^\[=(.*?)=\]/.exec(state.src.slice(state.pos));
    if (match === null) return false;
    if (!silent) {
      const token = state.push("benchfolio_value", "", 0);
      token.meta = { index: inlines.length };
      inlines.push({ index: inlines.length, line: 0, column: 0, source: match[1]! });
    }
    state.pos += match[0].length;
    return true;
  });
  const tokens = engine.parse(body, {});
  for (const token of tokens) {
    const match =
      token.type === "fence" ? /^ts (work|figure|table|criterion)(?: ([^:\s]+))?(?:: (.*))?$/.exec(token.info) : null;
    if (match === null || token.map === null) continue;
    const [fenceLine, end] = [token.map[0] + 1, token.map[1]];
    cells.push({
      index: cells.length,
      role: match[1] as Role,
      id: match[2] ?? null,
      caption: match[3] ?? null,
      fenceLine,
      firstLine: fenceLine + 1,
      lastLine: end - 1,
      source: token.content,
    });
    token.type = "benchfolio_cell";
    token.meta = { index: cells.length - 1 };
  }
  return { tokens, cells, inlines: locate(body, inlines) };
}

/** Gives inline values their line and column, in the order in which they stand in the text. */
function locate(body: string, inlines: readonly Inline[]): readonly Inline[] {
  let from = 0;
  return inlines.map((inline) => {
    const at = body.indexOf(`[=${inline.source}=]`, from);
    from = at + 1;
    const before = body.slice(0, at).split("\n");
    return { ...inline, line: before.length, column: before.at(-1)!.length + 3 + inline.source.search(/\S/) };
  });
}
