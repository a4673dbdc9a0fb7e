import { createHash } from "node:crypto";
import { JSDOM } from "jsdom";
import { expect, test } from "vitest";
import { renderDossier } from "../../src/dossier/index.js";
import { Count } from "../../src/metrology/quantity.js";
import type { TemplateProblem } from "../../src/templates/outcome.js";
import { fixtureInput, fixtureRun } from "./fixture.js";
import { expectGolden } from "./golden.js";

const page = renderDossier(fixtureInput());
const { document } = new JSDOM(page).window;
const all = (selector: string, root: ParentNode = document): Element[] => [...root.querySelectorAll(selector)];
const text = (selector: string): string =>
  (document.querySelector(selector)?.textContent ?? "").replace(/\s+/g, " ").trim();

test("the page is the one that was looked at", () => {
  expectGolden("unit-dossier", page);
});

test("the same input gives the same bytes, and rendering leaves it as it was", () => {
  const input = fixtureInput();
  const before = JSON.stringify(input.run.tokens);
  expect(renderDossier(input)).toBe(renderDossier(input));
  expect(JSON.stringify(input.run.tokens)).toBe(before);
});

test("every id is unique and every link within the page leads somewhere", () => {
  const ids = all("[id]").map((element) => element.id);
  expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
  const anchors = all('a[href^="#"]').map((link) => link.getAttribute("href")!.slice(1));
  expect(anchors.length).toBeGreaterThan(100);
  expect(anchors.filter((anchor) => !ids.includes(anchor))).toEqual([]);
  const labelled = all("[aria-labelledby]").flatMap((element) => element.getAttribute("aria-labelledby")!.split(" "));
  expect(labelled.filter((id) => !ids.includes(id))).toEqual([]);
});

test("the policy admits the one style sheet by its hash and nothing else", () => {
  const policy = document.querySelector("meta[http-equiv]")!.getAttribute("content")!;
  const sheets = all("style");
  expect(sheets).toHaveLength(1);
  const hash = createHash("sha256")
    .update(sheets[0]!.textContent ?? "")
    .digest("base64");
  expect(policy).toContain(`style-src 'sha256-${hash}'`);
  expect(policy).toMatch(/^default-src 'none';/);
  expect(policy).not.toMatch(/unsafe|script|https?:/);
  expect(all("[style], script, img, iframe, object, embed, form, link:not([rel=icon])")).toEqual([]);
});

test("the title block stands first, and says what is not yet so", () => {
  expect(document.body.firstElementChild!.className).toBe("title-block");
  expect(text(".field-number dd")).toBe("DRAFT");
  expect(text(".field-issued dd")).toBe("not issued");
  expect(text(".field-approved dd")).toBe("not approved");
  expect(text(".field-methods dd")).toContain("keystroke@2 Force-displacement of eight alphabetic keys");
  expect(text(".field-work dd")).toBe("2026-03-09 to 2026-03-11");
  expect(text("h1")).toBe("Alder 60 (u07): unit dossier");
});

test("the title block counts what is missing and leads there", () => {
  expect(text(".problem-count p")).toBe(
    "This dossier is incomplete: 2 parts are missing (1 could not be made, 1 was not run).",
  );
  const targets = all(".problem-count a").map((link) => document.querySelector(link.getAttribute("href")!)!.className);
  expect(targets).toEqual(["problem", "problem-inline"]);
});

test("a failed cell shows code, message, remedy and place in its own place, and its line in the workings", () => {
  const box = document.querySelector(".prose .problem")!;
  expect(box.id).toBe("r-connections");
  const words = box.textContent!.replace(/\s+/g, " ");
  expect(words).toContain("Table 2.1 could not be made E_CELL_THREW TypeError: connectionRow is not a function");
  expect(words).toContain("move its work cell up or correct the name");
  expect(words).toContain("templates/unit-dossier.md:76:57");
  const line = document.querySelector(box.querySelector("a")!.getAttribute("href")!)!;
  expect(line.closest(".sheet")!.id).toBe("W6");
  expect(line.textContent).toBe(
    "return table(connectionColumns, connections.map(connectionRow), { finding: finding(connections) });",
  );
});

test("the schedule lists every result with value and verdict under its section, and sections without results", () => {
  const rows = all(".schedule tbody tr").map((row) => row.textContent!.replace(/\s+/g, " ").trim());
  expect(rows).toEqual([
    "Summary",
    "Actuation force, mean of all alphabetic keys (46.1 ± 2.2) cN",
    "Pre-travel, mean of all alphabetic keys (2.005 ± 0.018) mm",
    "Data sheet: actuation force of each key 8 undecided",
    "1 Force and travel",
    "Actuation force, standard deviation between keys (3.0 ± 1.9) cN",
    "Were the method's number of keys measured? met",
    "2 Latency",
    "Latency over cable, all valid presses (5.9 ± 1.2) ms",
    "Latency over cable, fastest 11 of 14 (5.3 ± 1.2) ms",
    "Latency over radio, all valid presses (13.4 ± 1.8) ms",
    "Is the cable faster than the radio link? moved",
    "3 What was not asked",
    "A Deviations from the methods",
    "B Statements of the laboratory",
    "C Plotted values",
    "D Traces",
    "E Raw files",
    "F Workings",
  ]);
});

test("what ± means is said once", () => {
  expect(page.match(/expanded uncertainty/g)).toHaveLength(1);
  expect(text(".coverage")).toMatch(/k from 1\.96 to 4\.30 here/);
});

test("every printed number carries a mark", () => {
  const numbers = all(".part:not(.annex) .prose .number, .part:not(.annex) .prose .absent, .plotted .number");
  expect(numbers.length).toBeGreaterThan(60);
  const without = numbers.filter((number) => !number.nextElementSibling?.matches(".mark, .working-mark"));
  expect(without.map((number) => number.parentElement!.outerHTML)).toEqual([]);
});

test("every mark leads to a ground that reaches raw rows of a listed file", () => {
  const marks = all(".prose .mark, .plotted .mark").map((mark) => mark.getAttribute("href")!);
  expect(new Set(marks).size).toBeGreaterThan(40);
  const files = new Set(all("#raw-files tbody th").map((cell) => cell.textContent));
  const reaches = (href: string, seen: Set<string>): boolean => {
    if (seen.has(href)) return false;
    seen.add(href);
    const target = document.querySelector(href)!;
    const ground = target.closest(".ground, .traces")!;
    if (ground.matches(".traces")) return all(".path", ground).some((path) => files.has(path.textContent));
    const paths = all(".chain .path, thead .path", ground).map((path) => path.textContent);
    if (paths.some((path) => files.has(path))) return true;
    return all(".chain .mark, p .mark, td .mark", ground).some((mark) => reaches(mark.getAttribute("href")!, seen));
  };
  expect([...new Set(marks)].filter((href) => !reaches(href, new Set()))).toEqual([]);
});

test("a ground of several numbers lists each number's own lines", () => {
  const rows = all("#g-1-b tbody tr").map((row) => row.textContent!.replace(/\s+/g, " ").trim());
  expect(rows[5]).toBe("1b6 KeyP 2.046 ± 0.036 0.0085 2 4.300.00780.0012 lines 24062–24863, 27270–28071");
  expect(rows).toHaveLength(8);
  expect(text("#g-1-c .legend")).toContain("u2 = 0.15 throughout, Zero of the force tester (B, normal, ν ∞)");
});

test("lines that two numbers rest on are listed once among the traces, and each ground cites them", () => {
  expect(text("#g-1-c-6")).toBe("1c6 KeyP 53.6 ± 1.6 0.38 2 4.300.310.16 T16, T17");
  expect(text("#g-1-d-6")).toBe("1d6 KeyP T16, T17");
  expect(text("#T16")).toBe("T16 force at the actuation point, local quadratic fit: lines 24062–24863");
});

test("a mean of printed numbers cites their grounds in place of their rows", () => {
  expect(text("#g-0-b .chain")).toBe("mean of 8 keys ← grounds 1c1 to 1c8");
});

test("a ground leads back to where its number is printed first", () => {
  for (const link of all(".ground-letter a")) {
    const place = document.querySelector(link.getAttribute("href")!)!;
    expect(place.matches(".prose a.mark")).toBe(true);
    expect(document.querySelector(place.getAttribute("href")!)!.contains(link)).toBe(true);
  }
});

test("an absence says that it is not available, and its ground says why", () => {
  expect(text("#r-key-table tbody tr td:nth-child(4)")).toBe("not available d1");
  expect(text("#g-1-d")).toContain("Not available: no local peak of at least 3 cN before actuation.");
});

test("a figure has its question as heading, its finding, a table of what was drawn and the way back", () => {
  const figure = document.querySelector("#r-key-spread")!;
  expect(figure.querySelector("h4")!.textContent).toContain(
    "Which keys differ from the others by more than their uncertainty?",
  );
  expect(figure.querySelector("figcaption")!.textContent).toContain("KeyP lies apart from the other seven");
  const [table, file] = all(".to-values a", figure);
  const plotted = document.querySelector(table!.getAttribute("href")!)!;
  expect(all("tbody tr", plotted)).toHaveLength(8);
  expect(plotted.querySelector("h3 a")!.getAttribute("href")).toBe("#r-key-spread");
  expect(file!.getAttribute("download")).toBe("key-spread.csv");
  expect(decodeURIComponent(file!.getAttribute("href")!)).toContain("key,actuation_force\r\nKeyA,44.12\r\n");
});

test("a long table of what was drawn is thinned and says so", () => {
  expect(text("#V1")).toContain("Every 2nd of 161 rows, and the last; the CSV file beside the figure holds all.");
  expect(all("#V1 tbody tr")).toHaveLength(81);
});

test("tables have heads with scope, a caption, and a region that a keyboard reaches", () => {
  for (const table of all("table.data, table.entries")) {
    expect(all("thead th", table).every((head) => head.getAttribute("scope") === "col")).toBe(true);
    const region = table.closest(".region, .sheet .region")!;
    expect(region.getAttribute("tabindex")).toBe("0");
    expect(region.getAttribute("aria-label")).not.toBe("");
  }
  expect(text("#r-key-table caption")).toBe("Table 1.1: What was measured on each key?");
});

test("workings keep the template's own line numbers and lead to what they made", () => {
  const sheet = document.querySelector("#W5")!;
  const code = sheet.querySelector("ol")!;
  expect(fixtureRun().source.split("\n")[Number(code.getAttribute("start")) - 1]).toBe(
    code.firstElementChild!.textContent,
  );
  expect(sheet.querySelector("h3 a")!.getAttribute("href")).toBe("#r-key-spread");
  expect(text("#W-text tbody tr:nth-child(3)")).toContain(
    '8:4result("Actuation force, mean of all alphabetic keys", actuation.mean) W1',
  );
});

test("the dossier ends with an end mark that names it", () => {
  expect(document.body.lastElementChild!.textContent!.replace(/\s+/g, " ").trim()).toBe(
    "End of dossier DRAFT Made by benchfolio 0.1.0.",
  );
});

test("an issued dossier bears its number on every printed sheet, an amendment what it changes", () => {
  const { titleBlock } = fixtureInput();
  const amends = { number: "BH-2026-003", reason: "calibration of tester-1 corrected" };
  const issued = renderDossier(
    fixtureInput({
      titleBlock: {
        ...titleBlock,
        number: "BH-2026-004",
        issued: "2026-04-02",
        approvedBy: "Head of the laboratory",
        amends,
      },
    }),
  );
  expect(issued).toContain('@top-left { content: "Dossier BH\\2d 2026\\2d 004\\2c  u07\\2c  Alder 60"');
  expect(issued).toContain("Amendment to dossier BH-2026-003: calibration of tester-1 corrected");
  expect(issued).toContain("End of dossier BH-2026-004");
  expect(issued).not.toContain("not approved");
});

test("a chart that cannot be drawn stands as a problem in its place and is told", () => {
  const told: TemplateProblem[] = [];
  const broken = renderDossier(
    fixtureInput({
      draw: () => {
        throw new RangeError("the y axis has no domain");
      },
      onProblem: (problem) => told.push(problem),
    }),
  );
  expect(told.map(({ code, line }) => [code, line])).toEqual([
    ["E_DRAW", 26],
    ["E_DRAW", 64],
    ["E_DRAW", 79],
  ]);
  expect(broken).toContain("5 parts are missing");
  expect(broken).toContain("the chart could not be drawn: the y axis has no domain");
});

test.each([
  "<svg><script>1</script></svg>",
  '<svg onload="x"></svg>',
  '<svg><a href="https://x"/></svg>',
  '<svg style="x"/>',
  '<svg><use href="x.svg#a"/></svg>',
])("a drawing with %j is refused", (svg) => {
  const bad = renderDossier(fixtureInput({ draw: () => ({ svg, csv: "", title: "", description: "" }) }));
  expect(bad).not.toContain(svg);
  expect(bad).toContain("which a page may not");
});

test("a template without sections or title still gives a dossier", () => {
  const run = fixtureRun("Only [= count =] words.\n");
  const inlines = run.inlines.map(
    (outcome) => ({ inline: outcome.inline, status: "done", result: new Count(3), workCells: [0] }) as const,
  );
  const plain = new JSDOM(renderDossier(fixtureInput({ run: { ...run, inlines } }))).window.document;
  expect(plain.querySelector("h1")!.textContent).toBe("u07, Alder 60");
  expect(plain.querySelector(".schedule tbody")!.textContent!.trim()).toBe("Findings");
  expect(plain.querySelector(".part .prose")!.textContent!.trim()).toBe("Only 3 W1 words.");
});

test("work cells alone before the first heading make no part of their own", () => {
  const source = "# T\n\n```ts work\n1\n```\n\n## One\n\nWords.\n";
  const plain = new JSDOM(renderDossier(fixtureInput({ run: fixtureRun(source) }))).window.document;
  expect([...plain.querySelectorAll(".schedule tbody:first-of-type a")].map((link) => link.textContent)).toEqual([
    "One",
  ]);
  expect(plain.querySelectorAll(".part:not(.annex)")).toHaveLength(1);
});

test("ids of drawings and of cells keep apart, whatever the cells are called", () => {
  const source = "```ts figure curve: A\n1\n```\n\n```ts figure curve-1: B\n1\n```\n\n```ts figure curve: C\n1\n```\n";
  const run = fixtureRun(source);
  const [first] = fixtureRun().cells.flatMap((outcome) => (outcome.cell.id === "curve" ? [outcome] : []));
  const cells = run.cells.map((outcome) => ({ ...first!, cell: outcome.cell }));
  const plain = new JSDOM(renderDossier(fixtureInput({ run: { ...run, cells } }))).window.document;
  const ids = [...plain.querySelectorAll("[id]")].map((element) => element.id);
  expect(plain.querySelectorAll("figure")).toHaveLength(3);
  expect(new Set(ids).size).toBe(ids.length);
});

test("the figures' rules may not close the style element", () => {
  expect(() => renderDossier(fixtureInput({ figureStyles: "a{}</style>" }))).toThrow("plain rules");
});

test("the page is small", () => {
  expect(Buffer.byteLength(page)).toBeLessThan(160_000);
});
