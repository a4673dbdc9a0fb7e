import * as Plot from "@observablehq/plot";
import { JSDOM } from "jsdom";
import { expect, test } from "vitest";
import { evidenceStep } from "../../src/metrology/evidence.js";
import { Absent, Quantity } from "../../src/metrology/quantity.js";
import { observedSource } from "../../src/metrology/source.js";
import { intervalChart } from "../../src/figures/kinds/interval-chart.js";
import { chart, type ChartDescription } from "../../src/figures/chart.js";
import { drawChart } from "../../src/figures/draw.js";
import { roundPx } from "../../src/figures/drawing/normalise.js";

const axes = { x: { label: "x" }, y: { label: "y" } };
const says = { finding: "It says something.", data: { columns: [{ name: "x", label: "x" }], rows: [[1]] } };

function draw(marks: ChartDescription["marks"], id = "f1"): string {
  return drawChart(chart({ marks, ...axes }, says), id, { title: "What is it?" }).svg;
}

test("ids are led by the figure's id, unique, and every reference finds its own", () => {
  const svg = draw([
    Plot.lineY([1, 2, 3], { clip: true, markerEnd: "dot" }),
    Plot.lineY([3, 2, 1], { markerEnd: "arrow", stroke: "var(--figure-first)" }),
  ]);
  const ids = [...svg.matchAll(/ id="([^"]*)"/g)].map((match) => match[1]!);
  expect(ids.length).toBeGreaterThanOrEqual(5);
  expect(new Set(ids).size).toBe(ids.length);
  expect(ids).toEqual(ids.map((_, index) => `f1-${index + 1}`));
  const references = [...svg.matchAll(/url\(#([^)]*)\)/g)].map((match) => match[1]!);
  expect(references.length).toBeGreaterThanOrEqual(3);
  for (const reference of references) expect(ids).toContain(reference);
});

test("two drawings of one page share no id", () => {
  const ids = (svg: string): string[] => [...svg.matchAll(/ id="([^"]*)"/g)].map((match) => match[1]!);
  const marks = (): ChartDescription["marks"] => [Plot.lineY([1, 2], { clip: true })];
  const [a, b] = [ids(draw(marks(), "a")), ids(draw(marks(), "b"))];
  expect(a.filter((id) => b.includes(id))).toEqual([]);
});

test("a drawing is an image with one name made of title and finding", () => {
  const svg = draw([Plot.dot([[1, 2]])]);
  expect(svg).toMatch(/^<svg xmlns="http:\/\/www.w3.org\/2000\/svg"[^>]* role="img"[^>]* aria-labelledby="f1-1 f1-2"/);
  expect(svg).toContain('<title id="f1-1">What is it?</title><desc id="f1-2">It says something.');
});

test("a mark that loads, links or runs something is refused", () => {
  expect(() => draw([Plot.image([[1, 2]], { src: () => "https://example.org/a.png" })])).toThrow(
    /may not hold <image>/,
  );
  expect(() => draw([Plot.dot([[1, 2]], { href: () => "https://example.org/" })])).toThrow(/may not hold/);
  expect(() => draw([Plot.dot([[1, 2]], { fill: "url(https://example.org/a.svg#b)" })])).toThrow(/may not hold fill/);
});

test("what the drawing library warns of is refused, since a page cannot show its warning", () => {
  const marks = [
    Plot.dot(
      [
        ["1", 2],
        ["2", 3],
      ],
      { x: "0", y: "1" },
    ),
  ];
  const warn = console.warn;
  console.warn = () => undefined;
  try {
    expect(() => draw(marks)).toThrow(/warns/);
  } finally {
    console.warn = warn;
  }
});

test("a legend of the library is refused", () => {
  const marks = [Plot.dot([[1, 2]], { fill: "0" })];
  expect(() => chart({ marks, ...axes, extra: { color: { legend: true } } }, says)).toThrow(/asks for a legend/);
});

test("an id that cannot stand in a page, an unknown option and a width out of range are refused", () => {
  const made = chart({ marks: [Plot.dot([[1, 2]])], ...axes }, says);
  expect(() => drawChart(made, "1a", { title: "t" })).toThrow(/cannot be the id/);
  expect(() => drawChart(made, 'a"b', { title: "t" })).toThrow(/cannot be the id/);
  expect(() => drawChart(made, "a", { titel: "t" } as never)).toThrow(/did you mean "title"/);
  expect(() => drawChart(made, "a", { title: "t", widthPx: 20 })).toThrow(/300 to 1200/);
});

test("numbers are rounded without negative zero and trailing zeros", () => {
  expect([1.005, -0.001, 2.5, 100, -3.14159].map(roundPx)).toEqual(["1", "0", "2.5", "100", "-3.14"]);
});

test("a chart with nothing to draw draws its words and no axes", () => {
  const empty = chart({ marks: [], ...axes, empty: "No key was measured." }, says);
  const { svg, empty: isEmpty } = drawChart(empty, "e", { title: "Which key?" });
  expect(isEmpty).toBe(true);
  expect(svg).toContain("No key was measured.");
  expect(svg.match(/<(line|path)/g)).toBeNull();
});

const hostile = [
  '<script>alert("1")</script>',
  `"><img src=x onerror=alert(1)>`,
  "a & b < c > d 'e' \"f\"",
  "]]> <!-- --> &amp; &#60;",
  "u".repeat(400),
  "لوحة المفاتيح ١",
  "\u202eyek\u202c reversed",
  "👩‍💻 key 🎹",
  "line\nbreak\u0000\u0007\ttab",
  "lone \ud800 surrogate",
];

test.each(hostile)("a label from a record is text and nothing else: %j", (label) => {
  const items = [
    { label, value: quantity(45.2, 0.5) },
    { label: "plain", value: quantity(44.1, 0.5) },
    { label: `${label} too`, value: new Absent("cN", label) },
  ];
  const made = intervalChart(items, (item) => item.value, { of: label, noun: "key" });
  const { svg, csv, description } = drawChart(made, "h", { title: label });
  const { window } = new JSDOM(`<!doctype html><body>${svg}</body>`);
  const names = new Set([...window.document.querySelectorAll("body *")].map((element) => element.localName));
  names.delete("tspan");
  expect([...names].sort()).toEqual(["circle", "desc", "g", "line", "path", "svg", "text", "title"]);
  for (const element of window.document.querySelectorAll("body *")) {
    for (const { name } of element.attributes) expect(name).not.toMatch(/^on|^style$|href/);
  }
  const xml = new window.DOMParser().parseFromString(svg, "image/svg+xml");
  expect(xml.querySelector("parsererror")).toBeNull();
  // eslint-disable-next-line no-control-regex
  expect(svg + description).not.toMatch(/[\u0000-\u0008\u202a-\u202e]/);
  expect(csv.split("\r\n")[0]!.startsWith("key,")).toBe(true);
});

test("two items whose labels are cut to the same text keep their own rows", () => {
  const long = "a keyboard whose name goes on and on, sample ";
  const items = [`${long}1`, `${long}2`].map((label, index) => ({ label, value: quantity(45 + index, 0.5) }));
  const { svg, table } = drawChart(
    intervalChart(items, (item) => item.value),
    "h",
    { title: "t" },
  );
  expect(svg.match(/…<\/tspan>/g)?.length).toBe(2);
  expect(table.rows.map((row) => row[0])).toEqual([`${long}1`, `${long}2`]);
});

test("a long curve is thinned in the drawing, and the table keeps the points it was given", () => {
  const points = Array.from({ length: 5000 }, (_, index) => [index / 1000, Math.sin(index / 700)] as const);
  const made = chart(
    { marks: [Plot.line(points)], ...axes },
    { ...says, data: { columns: [{ name: "x", label: "x" }], rows: points.map(([x]) => [x]) } },
  );
  const { svg, csv } = drawChart(made, "l", { title: "t" });
  const path = [...svg.matchAll(/ d="([^"]*)"/g)].map((match) => match[1]!).sort((a, b) => b.length - a.length)[0]!;
  expect(path.split("L").length).toBeLessThan(200);
  expect(csv.split("\r\n").length).toBe(5002);
});

test("a chart of a template's own marks has ticks with aligned decimals and true minus signs", () => {
  const { svg } = drawn({
    marks: [
      Plot.dot([
        [-0.5, 0],
        [1, 100],
      ]),
    ],
    x: { label: "Offset", symbol: "mm" },
    y: { label: "Share", symbol: "%" },
  });
  expect(svg).toContain(">Offset (mm)<");
  expect(svg).toContain(">\u22120.4<");
  expect(svg).toContain(">1.0<");
});

test("names along an axis, dates and a logarithmic axis print as they are", () => {
  const band = drawn({
    marks: [
      Plot.barY(
        [
          ["usb", 3],
          ["bluetooth", 5],
        ],
        { x: "0", y: "1" },
      ),
    ],
    x: { label: "Connection", type: "band" },
    y: { label: "n" },
  });
  expect(band.svg).toContain(">bluetooth<");
  const dates = [Date.UTC(2026, 0, 1), Date.UTC(2026, 6, 1)];
  const date = drawn({
    marks: [Plot.dot(dates, { x: (at: number) => at, y: () => 1 })],
    x: { label: "Date", type: "utc" },
    y: { label: "n" },
  });
  expect(date.svg).toContain(">2026-04-01<");
  const log = drawn({
    marks: [
      Plot.dot([
        [1, 1],
        [1000, 2],
      ]),
    ],
    x: { label: "Rate", symbol: "Hz", type: "log" },
    y: { label: "n" },
  });
  expect(log.svg).toContain(">1000<");
});

function drawn(description: ChartDescription): { svg: string } {
  return drawChart(chart(description, says), "g", { title: "t" });
}

function quantity(value: number, u: number): Quantity<"cN"> {
  const source = observedSource(`s/${value}`, "Scatter", u, "cN", 9);
  return new Quantity(value, "cN", [{ source, contribution: u }], evidenceStep("test", []));
}
