import { createHash } from "node:crypto";
import { expect, test } from "vitest";
import { link } from "../../src/figures/link.js";
import { table } from "../../src/figures/table.js";
import { decideConformity } from "../../src/metrology/decision.js";
import { evidenceStep } from "../../src/metrology/evidence.js";
import { Absent, Count, Quantity } from "../../src/metrology/quantity.js";
import { documentOf, pageOfTables, words } from "./table-page.js";

const nowhere = evidenceStep("test", []);
const cN = (value: number): Quantity<"cN"> => new Quantity(value, "cN", [], nowhere);
const max = { max: cN(50) };
const columns = [
  { key: "unit", label: "Unit" },
  { key: "links", label: "Connections", several: true },
  { key: "force", label: "Force", symbol: "cN" },
  { key: "verdict", label: "Limits" },
];
const row = (unit: string, links: string, force: Quantity<"cN"> | Absent<"cN">) => ({
  unit: link(unit, `${unit}.html`),
  links,
  force,
  verdict: decideConformity(force, max),
});
const rows = [
  row("u10", "usb, radio", cN(60)),
  row("u2", "usb", new Absent("cN", "one key")),
  row("u1", "radio", cN(45)),
  row("u3", "", cN(45)),
];
const tooled = table(columns, rows, { finding: "F.", sortable: true, filters: ["links", "verdict"] });
const plain = table(columns, rows, { finding: "F." });
const page = pageOfTables([tooled, plain]);
const document = documentOf(page);
const [first, second] = [...document.querySelectorAll(".plate")];

test("a cell's place in its column counts from the smallest, ties share it, an absent number has none", () => {
  const places = [...first!.querySelectorAll("tbody tr")].map((each) =>
    [...each.children].map((cell) => cell.getAttribute("data-order")),
  );
  expect(places).toEqual([
    ["3", "2", "1", "0"],
    ["1", "1", null, "1"],
    ["0", "0", "0", "2"],
    ["2", null, "0", "2"],
  ]);
});

test("a filter lists each value once, parted where a column lists several, and none where a cell is empty", () => {
  const options = [...first!.querySelectorAll("select")].map((select) =>
    [...select.options].map((option) => words(option)),
  );
  expect(options).toEqual([
    ["all", "none", "radio", "usb"],
    ["all", "conforms", "does not conform", "undecided"],
  ]);
  const picks = [...first!.querySelectorAll("tbody tr")].map((each) => each.getAttribute("data-pick-0"));
  expect(picks).toEqual(["2 1", "2", "1", "0"]);
});

test("only a table that asks for tools has them", () => {
  expect(first!.querySelectorAll("thead button")).toHaveLength(4);
  expect(first!.querySelector('[role="status"]')!.textContent).toBe("4 rows");
  expect(second!.querySelectorAll("button, select, [data-order], [data-pick-0]")).toHaveLength(0);
});

test("a page with such a table carries one script, admitted by its hash; another page carries none", () => {
  const scripts = [...document.querySelectorAll("script")];
  expect(scripts).toHaveLength(1);
  const hash = createHash("sha256").update(scripts[0]!.textContent).digest("base64");
  const policy = (each: Document): string => each.querySelector("meta[http-equiv]")!.getAttribute("content")!;
  expect(policy(document)).toContain(`script-src 'sha256-${hash}';`);
  const without = documentOf(pageOfTables([plain]));
  expect(without.querySelectorAll("script")).toHaveLength(0);
  expect(policy(without)).not.toContain("script-src");
});

test("one row is not worth tools", () => {
  const single = table(columns, rows.slice(0, 1), { finding: "F.", sortable: true, filters: ["links"] });
  expect(documentOf(pageOfTables([single])).querySelectorAll("script, select, button")).toHaveLength(0);
});

test("a result in a table prints its number and verdict, and enters the schedule with a way to its cell", () => {
  const force = cN(45);
  const results = table(
    [
      { key: "key", label: "Key" },
      { key: "force", label: "Force", symbol: "cN" },
    ],
    [
      {
        key: "KeyF",
        force: { kind: "result", label: "Force of KeyF", value: force, verdict: decideConformity(force, max) },
      },
    ],
    { finding: "F." },
  );
  const made = documentOf(pageOfTables([results]));
  const [entry] = [...made.querySelectorAll(".schedule tbody tr")].filter((each) => words(each).startsWith("Force of"));
  expect(words(entry)).toBe("Force of KeyF 45 cN conforms");
  const target = made.querySelector(entry!.querySelector("a")!.getAttribute("href")!)!;
  expect(words(target.closest("td"))).toMatch(/^45 a conforms \w$/);
  expect(target.closest("tr")!.firstElementChild!.textContent).toBe("KeyF");
});

test("an option, a filter or a key that nobody knows is refused", () => {
  expect(() => table(columns, rows, { finding: "F.", sortabel: true } as never)).toThrow('did you mean "sortable"');
  expect(() => table(columns, rows, { finding: "F.", filters: ["kind"] })).toThrow('"kind", which is no column');
  expect(() => table(columns, rows, { finding: "F.", filters: ["force"] })).toThrow("holds numbers");
  expect(() => table([columns[0]!, columns[0]!], [], { finding: "F." })).toThrow("the same key");
});

test("a count sorts by its number", () => {
  const counts = [12, 2, 7].map((count) => ({ n: new Count(count) }));
  const made = documentOf(pageOfTables([table([{ key: "n", label: "N" }], counts, { finding: "F.", sortable: true })]));
  expect([...made.querySelectorAll("tbody td[data-order]")].map((cell) => cell.getAttribute("data-order"))).toEqual([
    "2",
    "0",
    "1",
  ]);
});
