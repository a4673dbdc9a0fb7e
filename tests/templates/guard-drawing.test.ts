import { afterAll, expect, test } from "vitest";
import { openTemplateCompiler } from "../../src/templates/compile/compile-template.js";
import { openSealedChild } from "../../src/templates/sealed/open-sealed-child.js";
import { standInModules, standInPrelude } from "../fixtures/templates/stand-in/modules.mjs";
import { demandBuild, printProblems, standInFolder, withFrontMatter } from "./support.js";

demandBuild();
const { "benchfolio/figures": standIn, ...modules } = standInModules;
void standIn;
const prelude = {
  ...standInPrelude,
  words: { ...standInPrelude.words, "benchfolio/figures": ["chart", "table", "link", "intervalChart"] },
};
const compiler = openTemplateCompiler({ modules, prelude });
const child = openSealedChild(`${standInFolder}/drawing-entry.mjs`, { readable: [standInFolder] });
afterAll(() => child.close());

/** Runs and draws figures whose marks are given as code; `reach` tells where a document led. */
async function draw(marks: Readonly<Record<string, string>>): Promise<readonly string[]> {
  const figures = Object.entries(marks).map(
    ([id, code]) => `\`\`\`ts figure ${id}: Q
const found: any = ${code};
return made(found);
\`\`\`
`,
  );
  const source = withFrontMatter(`\`\`\`ts work
import * as Plot from "@observablehq/plot";
const points = [[1, 2], [2, 3], [3, 1]] as [number, number][];
const reach = (...given: any[]): any => {
  for (const each of given) {
    const at = each?.document ?? each?.ownerDocument ?? (each?.nodeType ? each : null);
    if (at) throw new Error("REACHED " + typeof at.defaultView);
    if (typeof each === "function") throw new Error("REACHED a step of the drawing");
  }
  return null;
};
const made = (marks: any) => chart(
  { marks, x: { label: "x", domain: [0, 4] }, y: { label: "y", domain: [0, 4] } },
  { finding: "Three points.", data: { columns: [{ name: "x", label: "x" }], rows: [["a"]] } },
);
\`\`\`
${figures.join("")}`);
  const { compiled, problems } = compiler.compile(source, "t.md");
  expect(printProblems(problems, source)).toBe("");
  const told = (await child.ask({ compiled })) as string[];
  return told.slice(1);
}

test("marks and transforms of the library are drawn as ever", async () => {
  const told = await draw({
    dots: "[Plot.dot(points), Plot.line(points, { curve: 'step', stroke: (d: any, i: number) => (i ? 'red' : 'blue'), sort: (a: any, b: any) => a[0] - b[0] })]",
    bins: "[Plot.rectY(points, Plot.binX({ y: 'count' }, { x: (d: any) => d[0] }))]",
    dodge: "[Plot.dot(points, Plot.dodgeY({ x: (d: any) => d[0] }))]",
    stack: "[Plot.barY(points, Plot.stackY({ x: (d: any) => String(d[0]), y: (d: any) => d[1] }))].slice(1).concat(Plot.dot(points) as any)",
    window: "[Plot.lineY(points, Plot.windowY(2, { x: (d: any) => d[0], y: (d: any) => d[1] }))]",
    reducer: "[Plot.dot(points, Plot.groupZ({ x: (values: any) => values[0], y: 'max' }, { x: (d: any) => d[0], y: (d: any) => d[1] }))]",
    groups: "[Plot.marks(Plot.frame(), Plot.dot(points)), null, Plot.tickX([1, 2]), Plot.ruleY([1]), Plot.vector(points), Plot.arrow([1], { x1: 0, y1: 0, x2: 3, y2: 3 })]",
    markers: "[Plot.line(points, { marker: 'dot', clip: true }), Plot.dot(points, { symbol: 'star' })]",
    interval: "[Plot.dot(new Map([[1, 2], [2, 3]]), { fill: new Date(0) }), Plot.dot(new Set(points))]",
    ready: "intervalChart(unit.keys, (key) => key.actuationForce, { of: 'Force', noun: 'key' }).marks",
    limits:
      "intervalChart(unit.keys, (key) => key.actuationForce, { of: 'Force', noun: 'key', limits: [{ max: unit.nominal, source: 'Data sheet', force: 'limit', binds: 'each_key' }] as any }).marks",
  });
  expect(told.map((line) => line.replace(/^\w+: /, ""))).toEqual(told.map(() => "drawn, with shapes"));
});

test("a function of a cell never sees the document, however it gets into a mark", async () => {
  const told = await draw({
    render: "[Plot.dot(points, { render: reach as any })]",
    initializer: "[Plot.dot(points, { initializer: reach } as any)]",
    initialize: "[Plot.dot(points, Plot.initializer({}, reach as any))]",
    transform: "[Plot.dot(points, { transform: reach } as any)]",
    composed: "[Plot.dot(points, Plot.dodgeY({ x: (d: any) => d[0], render: reach } as any))]",
    marker: "[Plot.line(points, { marker: reach as any })]",
    ends: "[Plot.line(points, { markerStart: reach, markerEnd: reach } as any)]",
    inherited: "[Plot.dot(points, new (class { render = reach })() as any), Plot.dot(points, Object.create({ render: reach }))]",
    method: "[Plot.dot(points, new (class { render(...a: any[]) { return reach(...a); } })() as any)]",
    list: "[Plot.dot(points, Object.assign([], { render: reach }) as any)]",
    computed: "[Plot.dot(points, { get ['ren' + 'der']() { return reach; } } as any)]",
    proxied: "[Plot.dot(points, new Proxy({}, { has: () => true, get: (_, name) => (name === 'render' ? reach : undefined), ownKeys: () => ['render'], getOwnPropertyDescriptor: () => ({ value: reach, configurable: true, enumerable: true }) }) as any)]",
    nested: "[Plot.dot(points, { tip: { render: reach } } as any)]",
    method2: "[Plot.dot(points, { channels: { a: { value: 'x', transform: reach } } } as any)]",
    group: "[Plot.marks(Plot.dot(points, { render: reach } as any))]",
  });
  expect(told.filter((line) => line.includes("REACHED"))).toEqual([]);
  expect(told).toHaveLength(15);
});

test("a mark that the library has not made is refused", async () => {
  const refused = "E_ROLE_RESULT a figure cell returns a chart, not a chart with a mark that no function of the drawing library has made";
  const told = await draw({
    bare: "[reach]",
    shaped: "[{ initialize: () => ({}), render: reach }]",
    grouped: "[Plot.marks(reach as any)]",
    nested: "[[[reach]]]",
    subclass: "[new (class extends (Plot.dot(points).constructor as any) { render(...a: any[]) { return reach(...a); } } as any)(points, {})]",
    dressed: "[Object.setPrototypeOf({ render: reach }, Object.getPrototypeOf(Plot.dot(points)))]",
    copied: "[Object.assign(Object.create(Object.getPrototypeOf(Plot.dot(points))), Plot.dot(points), { render: reach })]",
  });
  expect(told.map((line) => line.replace(/^\w+: /, ""))).toEqual(told.map(() => refused));
});

test("a mark cannot be changed after it was made, and a list of marks is read once", async () => {
  const told = await draw({
    changed: "((mark: any) => { mark.render = reach; return [mark]; })(Plot.dot(points))",
    defined: "((mark: any) => [Object.defineProperty(mark, 'render', { value: reach })])(Plot.dot(points))",
    ready: "((mark: any) => { mark.render = reach; return [mark]; })(intervalChart(unit.keys, (key) => key.actuationForce, { of: 'Force', noun: 'key' }).marks.flat()[0])",
    shifting: "((honest: any, reads: number[]) => new Proxy([honest], { get: (list, name) => (name === '0' && reads.push(1) > 1 ? reach : Reflect.get(list, name)) }))(Plot.dot(points), [])",
  });
  expect(told.slice(0, 3).map((line) => line.replace(/^\w+: /, "").slice(0, 8))).toEqual(["E_FROZEN", "E_FROZEN", "E_FROZEN"]);
  expect(told.join("\n")).not.toContain("REACHED");
});

test("a sealed process has no network, whoever asks", async () => {
  const refused = "a sealed process has no network";
  expect(await child.ask({ network: true })).toEqual([refused, refused, "globalThis.fetch is not a function"]);
});
