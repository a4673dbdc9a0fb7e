import MarkdownIt from "markdown-it";
import type { Token } from "markdown-it";
import type { TemplateProblem } from "../templates/outcome.js";
import { judgeAddress } from "./links.js";
import { escapeText, html } from "./markup.js";
import type { Page } from "./page-state.js";
import { tokenIndex } from "./plan-page.js";
import { renderCell } from "./render-cell.js";
import { renderValue, valueText } from "./render-value.js";

/** Turns tokens of one page into markup; `text` gives the plain words of an inline token for titles and the schedule. */
export interface ProseRenderer {
  readonly block: (tokens: readonly Token[]) => string;
  readonly inline: (token: Token) => string;
  readonly text: (token: Token) => string;
}

/**
 * Our own rules over markdown-it's renderer: raw HTML is shown as text, no attribute passes but those listed here, links
 * lead to anchors of this page, to other dossiers or to http, https and mailto addresses, images are refused (a page loads
 * nothing), and tables stand in regions that scroll.
 */
export function proseRenderer(page: Page): ProseRenderer {
  const engine = new MarkdownIt({ html: false });
  const { rules } = engine.renderer;
  const inlines = new Map(page.input.run.inlines.map((outcome) => [outcome.inline.index, outcome]));
  const lines = inlineLines(page.input.run.tokens);
  let tables = 0;

  rules["benchfolio_cell"] = (tokens, at) => {
    const place = page.plan.places.get(tokenIndex(tokens[at]!));
    return place === undefined ? "" : renderCell(page, place).text;
  };
  rules["benchfolio_value"] = (tokens, at) => {
    const outcome = inlines.get(tokenIndex(tokens[at]!));
    return outcome === undefined ? "" : renderValue(page, outcome).text;
  };
  rules["heading_open"] = (tokens, at) => {
    const token = tokens[at]!;
    const planned = page.plan.headings.get(token);
    if (planned === undefined) return `<${headingTag(token)}>`;
    const number = html`<span class="heading-number">${planned.number}</span> `;
    return `<${headingTag(token)} id="${escapeText(planned.anchor)}">${number.text}`;
  };
  rules["heading_close"] = (tokens, at) => `</${headingTag(tokens[at]!)}>\n`;
  rules["html_block"] = (tokens, at) => html`<pre class="listing"><code>${tokens[at]!.content}</code></pre>`.text;
  rules["html_inline"] = (tokens, at) => escapeText(tokens[at]!.content);
  rules["text"] = (tokens, at) => escapeText(tokens[at]!.content);
  rules["code_inline"] = (tokens, at) => html`<code>${tokens[at]!.content}</code>`.text;
  const listing = (tokens: readonly Token[], at: number): string =>
    html`<pre class="listing"><code>${tokens[at]!.content}</code></pre> `.text;
  rules["fence"] = listing;
  rules["code_block"] = listing;
  rules["image"] = (tokens, at) => {
    const token = tokens[at]!;
    if (token.attrGet("src") !== "") {
      warn(page, lines.get(token), "E_IMAGE", "a dossier loads no image", "draw it in a figure cell, or link to it");
    }
    return html`<span class="refused">[image: ${token.content}]</span>`.text;
  };
  let refused = false;
  rules["link_open"] = (tokens, at) => {
    const opening = openLink(page, tokens[at]!, lines);
    refused = opening === "";
    return opening;
  };
  rules["link_close"] = () => (refused ? "" : "</a>");
  rules["table_open"] = () =>
    `<div class="region" role="region" tabindex="0" aria-label="Table in the text ${++tables}"><table class="data">\n`;
  rules["table_close"] = () => "</table></div>\n";
  rules["th_open"] = (tokens, at) => `<th scope="col"${alignment(tokens[at]!)}>`;
  rules["td_open"] = (tokens, at) => `<td${alignment(tokens[at]!)}>`;
  rules["ordered_list_open"] = (tokens, at) => {
    const start = Number(tokens[at]!.attrGet("start") ?? 1);
    return start === 1 ? "<ol>\n" : `<ol start="${start}">\n`;
  };

  const words = (token: Token): string => {
    if (token.type === "benchfolio_value") {
      const outcome = inlines.get(tokenIndex(token));
      return outcome === undefined ? "" : valueText(page, outcome);
    }
    if (token.type === "softbreak" || token.type === "hardbreak") return " ";
    return token.children === null || token.children.length === 0 ? token.content : token.children.map(words).join("");
  };
  return {
    block: (tokens) => engine.renderer.render([...tokens], engine.options, {}).replace(blankParagraphs, ""),
    inline: (token) => engine.renderer.renderInline(token.children ?? [], engine.options, {}),
    text: words,
  };
}

/** Paragraphs whose inline values print nothing. */
const blankParagraphs = /<p>\s*<\/p>\n?/g;

/** The template's line of every inline token. */
function inlineLines(tokens: readonly Token[]): ReadonlyMap<Token, number> {
  const lines = new Map<Token, number>();
  for (const token of tokens) {
    let line = (token.map?.[0] ?? 0) + 1;
    for (const child of token.children ?? []) {
      lines.set(child, line);
      if (child.type === "softbreak" || child.type === "hardbreak") line++;
    }
  }
  return lines;
}

/** A heading of the first level within the page stands on the second: the page's title is the only first. */
function headingTag(token: Token): string {
  return token.tag === "h1" ? "h2" : token.tag;
}

/** The opening tag of a link; empty where its address may not stand, or was taken out when the template was parsed. */
function openLink(page: Page, token: Token, lines: ReadonlyMap<Token, number>): string {
  const address = String(token.attrGet("href") ?? "");
  if (address === "") return "";
  const safe = judgeAddress(address);
  if (safe?.kind === "outside") return `<a rel="noreferrer" href="${escapeText(safe.href)}">`;
  if (safe?.kind === "dossier") return `<a href="${escapeText(safe.href)}">`;
  const place = safe?.kind === "anchor" ? page.plan.byId.get(safe.id) : undefined;
  if (place !== undefined) return `<a href="#${escapeText(place.anchor)}">`;
  const message = `the link to ${JSON.stringify(address)} may not stand in a dossier; its text stands alone`;
  warn(
    page,
    lines.get(token),
    "E_LINK",
    message,
    "use https://, mailto:, another dossier's .html, or # with a cell's id",
  );
  return "";
}

function warn(page: Page, line: number | undefined, code: string, message: string, hint: string): void {
  const problem: TemplateProblem = {
    code,
    severity: "warning",
    file: page.input.run.file,
    line: line ?? 1,
    column: 1,
    length: 1,
    message,
    hint,
  };
  page.input.onProblem?.(problem);
}

function alignment(token: Token): string {
  return /text-align:\s*right/.test(String(token.attrGet("style") ?? "")) ? ' class="numeric"' : "";
}
