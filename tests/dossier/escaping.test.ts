import { JSDOM } from "jsdom";
import { expect, test } from "vitest";
import { tableScript } from "../../src/dossier/script/table-script.js";
import type { DossierInput } from "../../src/dossier/index.js";
import { renderDossier } from "../../src/dossier/index.js";
import { link } from "../../src/figures/link.js";
import type { Table } from "../../src/figures/table.js";
import { evidenceStep } from "../../src/metrology/evidence.js";
import { Absent, Count, Quantity } from "../../src/metrology/quantity.js";
import { normalSource } from "../../src/metrology/source.js";
import type { Verdict } from "../../src/metrology/verdict.js";
import type { CellOutcome, InlineOutcome, TemplateProblem } from "../../src/templates/outcome.js";
import { drawStub } from "./draw-stub.js";
import { fixtureInput } from "./fixture.js";
import { parseTemplate } from "./template-tokens.js";

const attacks = [
  `"><script>alert(1)</script><img src=x onerror=alert(1)>`,
  `'></style></title></textarea><svg onload=alert(1)>`,
  `--><a href="javascript:alert(1)">x</a><!--`,
  "</code></pre></table>]]><iframe srcdoc=x></iframe>",
  "\u202egpj.exe\u2066 \u0000\ud800",
  "$& $` ${x} {{x}} &lt; &#x3c;",
];

const prose = `# Title [= a =] <script>alert(1)</script>

<div onclick="x()"><style>*{display:none}</style></div>

Text <img src=x onerror=y> [link](javascript:alert(1)) [tab](java&#x0A;script:x) [data](data:text/html,x) [ftp](ftp://example.org/x)
![image](https://example.org/x.png "t") [good](https://example.org/?a="b&c) <https://example.org> [cell](#tab) [none](#nowhere)

| a | b |
| :-: | --: |
| <b>x</b> | [= b =] |

    <indented>

\`\`\`html" onmouseover="x
<fenced>
\`\`\`

## Heading [= c =] <script>

\`\`\`ts table tab: "><script>alert(2)</script>
const close = "</script></code>";
\`\`\`

\`\`\`ts figure fig"onload=x: "><script>alert(3)</script>
1
\`\`\`

\`\`\`ts criterion crit: '"><b>
1
\`\`\`

\`\`\`ts work
1
\`\`\`

[= d =] [= e =] [= f =]
`;

/** Everything a record or a template can say, said with `attack`. */
function hostile(attack: string): { input: DossierInput; told: TemplateProblem[] } {
  const told: TemplateProblem[] = [];
  const base = fixtureInput();
  const row = { kind: "rows", file: attack, firstLine: 2, lastLine: 9, columns: [attack] } as const;
  const evidence = evidenceStep(attack, [row, evidenceStep(`${attack} 2`, [row], attack)], attack);
  const component = { source: normalSource("s", attack, 1, attack), contribution: 1 };
  const quantity = new Quantity(45.2, attack, [component], evidence);
  const other = new Quantity(3.1, attack, [component], evidenceStep(attack, [row]));
  const absent = new Absent(attack, attack, evidenceStep(attack, [row]));
  const verdict: Verdict = {
    kind: "verdict",
    family: "criterion",
    outcome: "no",
    statement: attack,
    rule: attack,
    cites: [quantity, absent],
  };
  const table: Table = {
    kind: "table",
    columns: [
      { key: "n", label: attack, symbol: attack },
      { key: "q", label: attack, symbol: attack },
      { key: "v", label: attack },
      { key: "l", label: attack },
      { key: attack, label: attack, several: true },
      { key: "r", label: attack },
    ],
    rows: [
      { n: attack, q: quantity, v: verdict, l: link(attack, "u08.html"), [attack]: attack, r: null },
      {
        n: attack,
        q: absent,
        v: null,
        l: { kind: "link", text: attack, href: attack },
        [attack]: `${attack}, x`,
        r: { kind: "result", label: attack, value: quantity, verdict },
      },
      { n: attack, q: other, v: null, l: null, [attack]: null, r: null },
    ],
    finding: attack,
    sortable: true,
    filters: ["n", "v", "l", attack],
  };
  const problem: TemplateProblem = {
    code: attack,
    severity: "error",
    file: attack,
    line: 2,
    column: 1,
    length: 1,
    message: attack,
    hint: attack,
  };
  const { tokens, cells, inlines } = parseTemplate(prose);
  const results: readonly CellOutcome["status"][] = ["done", "done", "done", "failed"];
  const chart = {
    kind: "chart",
    marks: [],
    x: { label: attack, symbol: attack },
    y: { label: attack },
    finding: attack,
    data: {
      columns: [
        { name: attack, label: attack, symbol: attack },
        { name: "x", label: attack },
      ],
      rows: [
        [quantity, attack],
        [absent, 1],
      ],
      note: attack,
    },
  } as const;
  const values = [table, chart, verdict] as const;
  const printed = [
    attack,
    new Count(2, evidence),
    attack,
    { kind: "result", label: attack, value: quantity, verdict } as const,
    {
      kind: "phrase",
      parts: [attack, { kind: "link", text: attack, href: attack }, { kind: "reference", target: attack }],
    } as const,
  ];
  const input: DossierInput = {
    ...base,
    run: {
      file: attack,
      source: `${attack}\n${attack}`,
      frontMatter: {},
      tokens,
      cells: cells.map((cell, index): CellOutcome =>
        results[index] === "done"
          ? { cell, status: "done", result: values[index]! }
          : { cell, status: "failed", problem },
      ),
      inlines: inlines.map((inline, index): InlineOutcome => {
        const result = printed[index];
        return result === undefined
          ? { inline: { ...inline, source: attack }, status: "not_run", problem }
          : { inline: { ...inline, source: attack }, status: "done", result, workCells: [0] };
      }),
    },
    titleBlock: {
      number: attack,
      revision: attack,
      item: { name: attack, particulars: [{ label: attack, text: attack }] },
      methods: [{ id: attack, title: attack }],
      laboratory: { name: attack, address: attack, contact: attack },
      customer: attack,
      work: { start: attack, end: "x" },
      issued: attack,
      approvedBy: attack,
      amends: { number: attack, reason: attack },
    },
    statements: [{ heading: attack, text: attack }],
    deviations: [{ where: attack, text: attack, file: attack, line: 3 }],
    files: [{ path: attack, bytes: 1, sha256: attack }],
    reportItems: [
      { clause: attack, item: attack, text: attack, place: "statements" },
      { clause: attack, item: attack, text: null, place: null },
    ],
    tool: { name: attack, version: attack },
    draw: (drawn, id) => ({ ...drawStub(drawn, id), csv: attack, title: attack, description: attack }),
    onProblem: (found) => told.push(found),
  };
  return { input, told };
}

const allowed = new Set(
  (
    "html head meta title link style body header div p h1 h2 h3 h4 h5 h6 dl dt dd span strong em i sub code ul ol li main section table caption thead " +
    "tbody tr th td a figure figcaption pre footer svg desc g line circle path text script label select option button"
  ).split(" "),
);
const allowedAttributes =
  /^(?:id|class|href|rel|download|lang|charset|content|name|http-equiv|role|tabindex|scope|colspan|start|aria-(?:label|labelledby|hidden)|type|value|data-(?:order|filter|pick-\d)|viewBox|width|height|fill|font-size|text-anchor|stroke|stroke-width|[xy][12]?|c[xy]|r|d)$/;

test.each(attacks)("no text of a record or a template leaves its place: %j", (attack) => {
  const { input, told } = hostile(attack);
  const page = renderDossier(input);
  const { document } = new JSDOM(page).window;
  const elements = [...document.querySelectorAll("*")];
  expect(elements.map((element) => element.localName).filter((name) => !allowed.has(name))).toEqual([]);
  const names = elements.flatMap((element) =>
    element.getAttributeNames().map((name) => `${element.localName} ${name}`),
  );
  expect(names.filter((name) => !allowedAttributes.test(name.split(" ")[1]!))).toEqual([]);
  expect(document.querySelectorAll("style")).toHaveLength(1);
  expect([...document.querySelectorAll("script")].map((script) => script.textContent)).toEqual([tableScript]);
  const addresses = [...document.querySelectorAll("[href]")].map((element) => element.getAttribute("href")!);
  expect(
    addresses.filter(
      (href) =>
        !/^(?:#[\w-]+|https:\/\/example\.org.*|data:,|data:(?:text\/csv|text\/markdown|application\/json);charset=utf-8,[^"'<>&#\t\r\n]*|u08\.html)$/.test(
          href,
        ),
    ),
  ).toEqual([]);
  const ids = elements.map((element) => element.id).filter((id) => id !== "");
  expect(new Set(ids).size).toBe(ids.length);
  expect(addresses.filter((href) => href.startsWith("#") && !ids.includes(href.slice(1)))).toEqual([]);
  expect(["\u0000", "\u202e", "\u2066"].filter((character) => page.includes(character))).toEqual([]);
  expect(page).not.toMatch(/[\ud800-\udbff](?![\udc00-\udfff])/);
  expect(told.map((problem) => problem.code)).toEqual(["E_LINK", "E_LINK", "E_IMAGE", "E_LINK"]);
});

test("a hostile text is shown as it was written", () => {
  const attack = attacks[0]!;
  const { document } = new JSDOM(renderDossier(hostile(attack).input)).window;
  for (const selector of [
    ".field-number dd",
    ".field-customer dd",
    ".statements dd",
    ".finding",
    "#R1 th",
    ".end strong",
  ]) {
    expect(document.querySelector(selector)!.textContent, selector).toContain(attack);
  }
  expect(document.querySelector("title")!.textContent).toContain("<script>alert(1)</script>");
});

test("raw HTML and fences in a template are text", () => {
  const { document } = new JSDOM(renderDossier(hostile("x").input)).window;
  const words = document.querySelector("main")!.textContent!;
  expect(words).toContain('<div onclick="x()"><style>*{display:none}</style></div>');
  expect(words).toContain("<fenced>");
  expect(words).toContain("<indented>");
  expect(words).toContain("[image: image]");
});

test("a refused link keeps its text and is told with the template's line; a good one says nothing of where it comes from", () => {
  const { input, told } = hostile("x");
  const { document } = new JSDOM(renderDossier(input)).window;
  expect(told[0]).toMatchObject({ code: "E_LINK", severity: "warning", line: 5 });
  expect(told[2]).toMatchObject({ code: "E_IMAGE", line: 6 });
  const outside = [...document.querySelectorAll('.prose a[href^="https"]')];
  expect(outside.map((a) => [a.textContent, a.getAttribute("rel")])).toEqual([
    ["good", "noreferrer"],
    ["https://example.org", "noreferrer"],
  ]);
  expect(document.querySelector('.prose a[href="#r-tab"]')!.textContent).toBe("cell");
});
