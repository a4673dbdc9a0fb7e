import fc from "fast-check";
import { expect, test } from "vitest";
import { parseTemplate } from "../../src/templates/parse/parse-template.js";
import { printProblems, readCases, withFrontMatter } from "./support.js";

const parse = (body: string): ReturnType<typeof parseTemplate> => parseTemplate(withFrontMatter(body), "t.md");
const codes = (body: string): readonly string[] => parse(body).problems.map(({ code }) => code);

/** Types of all tokens with what they hold, inline children in brackets. */
function outline(body: string): string {
  const show = ({ type, content, meta }: ReturnType<typeof parse>["tokens"][number]): string => {
    const index = (meta as { index?: number } | null)?.index;
    return `${type}${index === undefined ? (content === "" ? "" : `:${content}`) : `#${index}`}`;
  };
  return parse(body)
    .tokens.map((token) => (token.type === "inline" ? `[${(token.children ?? []).map(show).join(" ")}]` : show(token)))
    .join(" ");
}

for (const { title, template, expected } of readCases("parse.txt")) {
  test(title, () => {
    expect(printProblems(parseTemplate(template, "t.md").problems, template)).toBe(expected);
  });
}

test("a template without front matter says how to begin", () => {
  for (const text of ["# Title\n", "", "\n---\nsubject: unit\n---\n"]) {
    expect(parseTemplate(text, "t.md").problems).toEqual([
      {
        code: "E_FRONT_MATTER",
        severity: "error",
        file: "t.md",
        line: 1,
        column: 1,
        length: Math.max(1, text.split("\n")[0]!.length),
        message: "the template does not begin with front matter, so its subject is not known",
        hint: 'begin the file with three lines: "---", "subject: unit" (unit, archive, change, study, rig) and "---"',
      },
    ]);
  }
});

test("front matter gives subject, methods and description", () => {
  const text = "---\nsubject: archive\nmethods: [keystroke@2, latency@1]\ndescription: A catalogue\n---\n# T\n";
  const { frontMatter, problems } = parseTemplate(text, "t.md");
  expect(problems).toEqual([]);
  expect(frontMatter).toEqual({
    subject: "archive",
    methods: ["keystroke@2", "latency@1"],
    description: "A catalogue",
  });
});

test("the rest of a template is read although its front matter is wrong", () => {
  const { cells, problems } = parseTemplate("# T\n```ts work\nconst a = 1;\n```\n```ts figure\nx\n```\n", "t.md");
  expect(cells.map(({ role }) => role)).toEqual(["work", "figure"]);
  expect(problems.map(({ code, line }) => [code, line])).toEqual([
    ["E_FRONT_MATTER", 1],
    ["E_CELL_ID", 5],
  ]);
});

test("cells keep their place, id, caption and code", () => {
  const { cells } = parse(
    "Text.\n\n~~~~ts figure key-spread:  What  it shows: all\n```\n  code\n~~~~\n\n```ts work prepare\nconst a = 1;\n\n```\n",
  );
  expect(cells).toEqual([
    {
      index: 0,
      role: "figure",
      id: "key-spread",
      caption: "What  it shows: all",
      fenceLine: 6,
      firstLine: 7,
      lastLine: 8,
      source: "```\n  code",
    },
    {
      index: 1,
      role: "work",
      id: "prepare",
      caption: null,
      fenceLine: 11,
      firstLine: 12,
      lastLine: 13,
      source: "const a = 1;\n",
    },
  ]);
});

test("inline values keep the line and column of their expression", () => {
  const { inlines } = parse('é🎹 [=a=] and [=  b["=]"]  =]\n- in a list [= c =]\n\n| d | [= x | y =] |\n|--|--|\n');
  expect(inlines).toEqual([
    { index: 0, line: 4, column: 7, source: "a" },
    { index: 1, line: 4, column: 19, source: 'b["=]"]' },
    { index: 2, line: 5, column: 16, source: "c" },
    { index: 3, line: 7, column: 10, source: "x | y" },
  ]);
});

test("lines that end with CRLF or CR, and a byte order mark, count as others do", () => {
  const text = withFrontMatter("A [= x =]\n\n```ts work\nconst a = 1;\nconst b = 2;\n```\n[= y\n");
  const plain = parseTemplate(text, "t.md");
  for (const other of [text.replaceAll("\n", "\r\n"), text.replaceAll("\n", "\r"), `\uFEFF${text}`]) {
    const parsed = parseTemplate(other, "t.md");
    expect(parsed.inlines).toEqual(plain.inlines);
    expect(parsed.cells).toEqual(plain.cells);
    expect(parsed.problems).toEqual(plain.problems);
  }
});

test("cells and inline values stand among the tokens by their index", () => {
  expect(outline("# On [= a =]\n\n```ts work\nx\n```\n\n**[= b =]** and `[= c =]`, [[= d =]](x.html)")).toBe(
    "heading_open [text:On  benchfolio_value#0] heading_close benchfolio_cell#0 paragraph_open " +
      "[strong_open benchfolio_value#1 strong_close text: and  code_inline:[= c =] text:,  link_open " +
      "benchfolio_value#2 link_close] paragraph_close",
  );
});

test("code keeps its own characters: spans over lines, fences, indented blocks, longer backticks", () => {
  expect(outline("``[= a =] ` [= b =]`` [= c =]\n\n    [= d =]\n\n~~~\n[= e\n~~~\n\nx `[=\ny =]` z")).toBe(
    "paragraph_open [code_inline:[= a =] ` [= b =] text:  benchfolio_value#0] paragraph_close " +
      "code_block:[= d =]\n fence:[= e\n paragraph_open [text:x  code_inline:[= y =] text: z] paragraph_close",
  );
  expect(codes("``[= a =] ` [= b =]`` [= c =]\n\n    [= d\n\n~~~\n[= e\n~~~\n\nx `[=\ny =]` z")).toEqual([]);
});

test("a backslash makes the opening mark text, and a backtick alone opens no code", () => {
  expect(outline("\\[= a =] and \\` [= b =] ` [= c =]")).toBe(
    "paragraph_open [text:[= a =] and `  benchfolio_value#0 text: `  benchfolio_value#1] paragraph_close",
  );
});

test("an expression may hold backticks, stars, pipes and brackets", () => {
  const body = "[= `a*b*` + c[0] | d =] *e*";
  expect(parse(body).inlines[0]!.source).toBe("`a*b*` + c[0] | d");
  expect(outline(body)).toBe(
    "paragraph_open [benchfolio_value#0 text:  em_open text:e em_close] paragraph_close",
  );
});

test("HTML in Markdown is text", () => {
  const { tokens, problems } = parse("<script>alert(1)</script>\n\na <b onclick=x>b</b> &amp; &lt;i&gt;\n\n<!-- note -->\n");
  const types = tokens.flatMap(({ type, children }) => [type, ...(children ?? []).map((child) => child.type)]);
  expect(types.filter((type) => type.startsWith("html"))).toEqual([]);
  expect(tokens.map(({ content }) => content).join("|")).toContain("<script>alert(1)</script>");
  expect(problems).toEqual([]);
});

test("the characters of the placeholders may stand in a template", () => {
  const { inlines, tokens } = parse("\uE000 0 \uE001 \uE0000\uE001 [= a =]");
  expect(inlines).toHaveLength(1);
  expect(tokens[1]!.children!.map(({ type, content }) => `${type}:${content}`)).toEqual([
    "text:\uE000 0 \uE001 \uE0000\uE001 ",
    "benchfolio_value:",
  ]);
});

test("a fence with another word, or in another language, is a listing", () => {
  for (const info of ["ts", "ts title", "python work", "", "json figure x: y", "ts example figure"]) {
    const { cells, problems } = parse(`\`\`\`${info}\n}\n\`\`\`\n`);
    expect(cells).toEqual([]);
    expect(problems).toEqual([]);
  }
});

/** Characters and marks out of which Markdown, cells and inline values are made. */
const pieces = fc.constantFrom(
  ..."[= |=]|=|[|]|`|``|```|~~~|```ts work|```ts figure a: b|```ts|ts|\n|\n\n|\r\n|\r|    |\t|- |> |# |---|*|_|\\|(|)|<|>|!|: |\"|'|{|}|a|unit|é|🎹|\u2028|\uE000|\0|0| ".split(
    "|",
  ),
  "|",
);
const text = fc.array(pieces, { maxLength: 60 }).map((parts) => parts.join(""));

test("no text makes parsing throw, and every problem lies in the file", () => {
  fc.assert(
    fc.property(fc.oneof(text, text.map(withFrontMatter), fc.string({ unit: "binary", maxLength: 80 })), (source) => {
      const { lines, problems, cells, inlines } = parseTemplate(source, "t.md");
      for (const { line, column } of [...problems, ...inlines]) {
        expect(line).toBeGreaterThanOrEqual(1);
        expect(line).toBeLessThanOrEqual(lines.length);
        expect(column).toBeGreaterThanOrEqual(1);
        expect(column).toBeLessThanOrEqual(lines[line - 1]!.length + 1);
      }
      for (const { line, column, source: expression } of inlines) {
        expect(lines[line - 1]!.slice(column - 1, column - 1 + expression.length)).toBe(expression);
      }
      for (const { firstLine, lastLine, source: code } of cells) {
        expect(lines.slice(firstLine - 1, lastLine).join("\n")).toBe(code);
      }
    }),
    { seed: 20260302, numRuns: 400 },
  );
});

test("every opening mark outside code becomes a value or a problem", () => {
  fc.assert(
    fc.property(fc.array(fc.constantFrom("[= a =]", "[= ", " =]", "`", "``", "x", " ", "\n", "\\"), { maxLength: 20 }), (parts) => {
        fc.pre(!parts.join("").includes("```"));
      const { tokens, inlines, problems } = parse(parts.join(""));
      const children = tokens.flatMap((token) => token.children ?? []);
      const inCode = [...tokens, ...children]
        .filter(({ type }) => type.startsWith("code"))
        .flatMap(({ content }) => content.match(/\[=/g) ?? []).length;
      const left = children.filter(({ type }) => type === "text").flatMap(({ content }) => content.match(/\[=/g) ?? []).length;
      const all = parts.join("").match(/\[=/g)?.length ?? 0;
      const escaped = parts.join("").match(/(?<!\\)(\\\\)*\\\[=/g)?.length ?? 0;
      expect(inlines.length + inCode + left).toBe(all);
      // What is left as text was escaped, or has been reported.
      expect(left).toBeLessThanOrEqual(escaped + problems.length);
    }),
    { seed: 20260302, numRuns: 300 },
  );
});
