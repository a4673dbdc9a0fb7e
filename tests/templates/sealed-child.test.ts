import { afterEach, expect, test } from "vitest";
import type { SealedChild, SealedChildOptions } from "../../src/templates/sealed/open-sealed-child.js";
import { SealedFault } from "../../src/templates/sealed/open-sealed-child.js";
import { permissionFlags } from "../../src/templates/sealed/permission-flags.js";
import { openStandInChild, runIn } from "./sealed-support.js";
import { openStandInCompiler, standInFolder, withFrontMatter } from "./support.js";

const compiler = openStandInCompiler();
const open: SealedChild[] = [];

function openChild(options: SealedChildOptions): SealedChild {
  const child = openStandInChild(options);
  open.push(child);
  return child;
}

afterEach(() => {
  for (const child of open.splice(0)) child.close();
});

const compile = (body: string): NonNullable<ReturnType<typeof compiler.compile>["compiled"]> => {
  const { compiled, problems } = compiler.compile(withFrontMatter(body), "t.md");
  expect(problems).toEqual([]);
  return compiled!;
};

const plain = compile("[= unit.name =]");

test("the child can read what it is given and nothing else, write nothing, start nothing, and knows no environment", async () => {
  const child = openChild({});
  expect(await child.ask({ probe: "/etc/hostname" })).toEqual({
    read: "ERR_ACCESS_DENIED",
    write: "ERR_ACCESS_DENIED",
    process: "ERR_ACCESS_DENIED",
    worker: "ERR_ACCESS_DENIED",
    environment: "LC_ALL TZ",
    zone: 0,
  });
  const readable = (await child.ask({ probe: `${standInFolder}/unit.mjs` })) as { read: string; write: string };
  expect(Number(readable.read)).toBeGreaterThan(100);
  expect(readable.write).toBe("ERR_ACCESS_DENIED");
});

test("a folder that may be read does not open its namesakes", () => {
  const flags = permissionFlags([standInFolder]);
  expect(flags).toContain(`--allow-fs-read=${standInFolder}/`);
  expect(flags.filter((flag) => /^--allow-fs-read=.*[^/]$/.test(flag) && !/\.[a-z]+$/.test(flag))).toEqual([]);
});

test("a path that does not exist is refused before any process starts", () => {
  expect(() => openChild({ readable: ["/nowhere/at/all"] })).toThrow(/\/nowhere\/at\/all does not exist/);
});

test("a step over its time is stopped, and the request runs again without it", async () => {
  const child = openChild({ stepLimitMs: 300 });
  const run = await runIn(
    child,
    compile(
      "```ts work\nconst on = unit.keys.length > 0;\n```\n```ts figure f: F\nwhile (on);\nreturn null as never;\n```\n[= unit.name =]\n```ts criterion c: C\nwhile (on);\nreturn null as never;\n```\n",
    ),
  );
  expect(run.cells.map(({ status }) => status)).toEqual(["done", "failed", "failed"]);
  expect(run.cells[1]!.problem).toEqual({
    code: "E_TIME",
    severity: "error",
    file: "t.md",
    line: 7,
    column: 7,
    length: 6,
    message: "this figure cell was stopped after 0.3 s",
    hint: "look for a loop that never ends, or for work that grows with the square of the number of rows",
  });
  expect(run.inlines[0]).toMatchObject({ status: "done", shown: "Specimen One" });
});

test("a pattern that takes forever is stopped like a loop", async () => {
  const child = openChild({ stepLimitMs: 300 });
  const run = await runIn(child, compile('[= String(/^(a+)+$/.test("a".repeat(60) + "b")) =] [= unit.name =]'));
  expect(run.inlines.map(({ status, problem }) => problem?.code ?? status)).toEqual(["E_TIME", "done"]);
});

test("a step that fills the heap is stopped, and the rest is built", async () => {
  const child = openChild({ heapMb: 64, stepLimitMs: 20_000 });
  const run = await runIn(
    child,
    compile(
      "```ts work\nconst rows: unknown[] = [];\nfor (;;) rows.push(new Array(20_000).fill(rows.length));\n```\n[= String(rows.length) =] [= unit.name =]\n",
    ),
  );
  expect(run.cells[0]!.problem).toEqual({
    code: "E_MEMORY",
    severity: "error",
    file: "t.md",
    line: 4,
    column: 7,
    length: 4,
    message: "this work cell was stopped when it needed more than 64 MB of memory",
    hint: "look for a list or a text that grows without end",
  });
  expect(run.inlines.map(({ status, problem }) => problem?.message ?? status)).toEqual([
    "not run: needs `rows`, line 4 failed",
    "done",
  ]);
});

test.runIf(process.platform === "linux")("memory outside the heap is watched too", async () => {
  const child = openChild({ heapMb: 128, residentMb: 300, stepLimitMs: 20_000 });
  const run = await runIn(
    child,
    compile("```ts work\nconst kept: Int32Array[] = [];\nfor (;;) kept.push(new Int32Array(2e6).fill(kept.length));\n```\n[= unit.name =]\n"),
  );
  expect(run.cells[0]!.problem).toMatchObject({
    code: "E_MEMORY",
    message: "this work cell was stopped when it needed more than 300 MB of memory",
  });
  expect(run.inlines[0]!.status).toBe("done");
});

test("a fault of the handler is told as one, and the child serves on", async () => {
  const child = openChild({});
  await expect(child.ask({ fault: "no such subject" })).rejects.toThrow(new SealedFault("Error: no such subject"));
  expect((await runIn(child, plain)).inlines[0]!.status).toBe("done");
});

test("a child that ends outside a step is a fault, and the next request gets a fresh one", async () => {
  const child = openChild({});
  await expect(child.ask({ exit: 3 })).rejects.toThrow(/the sealed child ended early \(exit 3\)/);
  expect((await runIn(child, plain)).inlines[0]!.status).toBe("done");
});

test("a child that is silent outside a step is given up", async () => {
  const child = openChild({ idleLimitMs: 1500 });
  await expect(child.ask({ silent: true })).rejects.toThrow(/the sealed child was silent for 1.5 s/);
});

test("requests are served one after the other, in order", async () => {
  const child = openChild({ stepLimitMs: 300 });
  const endless = compile("```ts criterion c: C\nwhile (unit.keys.length > 0);\nreturn null as never;\n```\n");
  const answers = await Promise.all([runIn(child, plain), runIn(child, endless), runIn(child, plain)]);
  expect(answers.map(({ cells, inlines }) => [...cells, ...inlines].map(({ status }) => status))).toEqual([
    ["done"],
    ["failed"],
    ["done"],
  ]);
});

test("a closed child answers nothing more", async () => {
  const child = openChild({});
  await runIn(child, plain);
  child.close();
  await expect(runIn(child, plain)).rejects.toThrow(/the sealed child was closed/);
});

test("a request under way ends with the child", async () => {
  const child = openChild({ stepLimitMs: 20_000 });
  await runIn(child, plain);
  const endless = runIn(child, compile("```ts criterion c: C\nwhile (unit.keys.length > 0);\nreturn null as never;\n```\n"));
  setTimeout(() => child.close(), 100);
  await expect(endless).rejects.toThrow(SealedFault);
});
