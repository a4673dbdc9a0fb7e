import { existsSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { makeArchive, replacing } from "../records/make-archive.js";
import { inTemporaryFolder, readPages, runBenchfolio } from "./run-benchfolio.js";

const plainTemplate = `---
subject: unit
methods: [keystroke@2, latency@1]
---
# [= unit.name =]

There are [= count(unit.current.keystroke.keys) =] keys.
`;

/** A small archive, a folder to write to and a template in it. */
async function withSmallArchive(
  template: string,
  use: (paths: { root: string; out: string; template: string; folder: string }) => Promise<void>,
  overrides: Parameters<typeof makeArchive>[0] = {},
): Promise<void> {
  const { root, remove } = makeArchive(overrides);
  try {
    await inTemporaryFolder(async (folder) => {
      const file = join(folder, "report.md");
      writeFileSync(file, template);
      await use({ root, out: join(folder, "out"), template: file, folder });
    });
  } finally {
    remove();
  }
}

test("a small archive drafts one page a unit, says what it wrote and exits 0", async () => {
  await withSmallArchive(plainTemplate, async ({ root, out, template }) => {
    const { code, stdout } = await runBenchfolio(["draft", "--data", root, "--out", out, "--template", template]);
    expect(code).toBe(0);
    expect(stdout).toContain(`1 page`);
    expect(stdout).toContain(`Open ${join(out, "report-u01.html")}`);
    expect(readFileSync(join(out, "report-u01.html"), "utf8")).toContain("DRAFT");
  });
});

test("the shipped templates build on one unit without a problem", async () => {
  await withSmallArchive("", async ({ root, out }) => {
    const { code, stdout } = await runBenchfolio(["draft", "--data", root, "--out", out, "--json"]);
    const { templateProblems, pages } = JSON.parse(stdout) as {
      templateProblems: unknown[];
      pages: { page: string }[];
    };
    expect(templateProblems).toEqual([]);
    expect(pages.map(({ page }) => page)).toContain("catalogue.html");
    expect(code).toBe(0);
  });
});

test("an archive with an error writes nothing and exits 1", async () => {
  const broken = { "units/u01/s1/force.csv": replacing("press", "pres") };
  await withSmallArchive(
    plainTemplate,
    async ({ root, out, template }) => {
      const { code, stdout, stderr } = await runBenchfolio([
        "draft",
        "--data",
        root,
        "--out",
        out,
        "--template",
        template,
      ]);
      expect(code).toBe(1);
      expect(stdout).toMatch(/units\/u01\/s1\/force\.csv:\d+:\d+ E_/);
      expect(stderr).toContain("Nothing was written");
      expect(existsSync(join(out, "report-u01.html"))).toBe(false);
    },
    broken,
  );
});

const failing: readonly (readonly [what: string, cell: string, shown: readonly RegExp[]])[] = [
  ["a type error", "```ts work\nconst n: string = 5;\n```", [/report\.md:8:7 E_TYPE/]],
  [
    "a failing work cell",
    '```ts work\nconst n = (() => {\n  throw new RangeError("the sum is off");\n})();\n```',
    [/report\.md:9:\d+ E_CELL_THREW/, /the sum is off/],
  ],
  ["a reach for the clock", "```ts work\nconst now = new Date();\n```", [/report\.md:8:\d+ E_(CLOCK|TYPE|SEALED)/]],
  ["a reach for a file", '```ts work\nimport { readFileSync } from "node:fs";\n```', [/report\.md:8:\d+ E_IMPORT/]],
  ["a bare number", "The answer is [= 6 * 7 =].", [/report\.md:7:18 E_BARE_NUMBER/, /count\(/]],
];

for (const [what, cell, shown] of failing) {
  test(`${what} is shown in its place with its remedy, the rest is built, and the run exits 1`, async () => {
    const template = plainTemplate.replace("There are", `${cell}\n\nThere are`);
    await withSmallArchive(template, async ({ root, out, template: file }) => {
      const { code, stdout } = await runBenchfolio(["draft", "--data", root, "--out", out, "--template", file]);
      for (const pattern of [...shown, /hint: /]) expect(stdout).toMatch(pattern);
      const page = readFileSync(join(out, "report-u01.html"), "utf8");
      expect(page).toContain("There are");
      expect(page).toMatch(/E_[A-Z_]+/);
      expect(code).toBe(1);
    });
  });
}

test("a template that asks for a method which the archive lacks is told so in place, and the rest is built", async () => {
  const none = Object.fromEntries(
    ["methods/keystroke-1.yaml", "methods/keystroke-2.yaml", "units/u01/s1/session.yaml", "units/u01/s1/force.csv"]
      .concat("studies/crossed-1/study.yaml", "studies/crossed-1/readings.csv")
      .map((path) => [path, null]),
  );
  const template = `${plainTemplate}\nThe method has the title [= method.title =].\n`;
  await withSmallArchive(
    template,
    async ({ root, out, template: file }) => {
      const { code, stdout, stderr } = await runBenchfolio(["draft", "--data", root, "--out", out, "--template", file]);
      expect(stdout).toMatch(/report\.md:9:\d+ E_CELL_THREW {2}the archive has no keystroke method/);
      expect(stderr).not.toContain("fault");
      expect(readFileSync(join(out, "report-u01.html"), "utf8")).toContain("There are");
      expect(code).toBe(1);
    },
    none,
  );
});

test("an endless loop is stopped, shown in its place, and the rest is built", async () => {
  const template = plainTemplate.replace("There are", "```ts figure spin: Does it end?\nfor (;;);\n```\n\nThere are");
  await withSmallArchive(template, async ({ root, out, template: file }) => {
    const { code, stdout } = await runBenchfolio(["draft", "--data", root, "--out", out, "--template", file]);
    expect(stdout).toMatch(/report\.md:7:\d+ E_TIME/);
    expect(readFileSync(join(out, "report-u01.html"), "utf8")).toContain("There are");
    expect(code).toBe(1);
  });
}, 90_000);

test("an unknown unit exits 2 and names the nearest", async () => {
  await withSmallArchive(plainTemplate, async ({ root, out, template }) => {
    const { code, stderr } = await runBenchfolio([
      "draft",
      "--data",
      root,
      "--out",
      out,
      "--template",
      template,
      "--unit",
      "u1",
    ]);
    expect(code).toBe(2);
    expect(stderr).toContain('the archive has no unit "u1"');
    expect(stderr).toContain('did you mean "u01"?');
  });
});

test("a template that is not there exits 2", async () => {
  const { code, stderr } = await runBenchfolio(["draft", "--template", "/no/such/template.md"]);
  expect(code).toBe(2);
  expect(stderr).toContain("there is no template file /no/such/template.md");
});

test("a page of a unit that left the archive is removed by the next full run, another file is not", async () => {
  await withSmallArchive("", async ({ root, out }) => {
    const first = await runBenchfolio(["draft", "--data", root, "--out", out]);
    expect(first.code).toBe(0);
    writeFileSync(join(out, "mine.html"), "kept");
    const list = join(out, ".pages.json");
    const pages = JSON.parse(readFileSync(list, "utf8")) as string[];
    writeFileSync(list, JSON.stringify([...pages, "unit-dossier-u99.html", "../outside.html"]));
    writeFileSync(join(out, "unit-dossier-u99.html"), "stale");
    writeFileSync(join(out, "../outside.html"), "kept");
    await runBenchfolio(["draft", "--data", root, "--out", out]);
    expect(existsSync(join(out, "unit-dossier-u99.html"))).toBe(false);
    expect(existsSync(join(out, "mine.html"))).toBe(true);
    expect(existsSync(join(out, "../outside.html"))).toBe(true);
  });
});

test("Ctrl-C leaves no half-written page and no temporary folder, and exits 130", async () => {
  const bundles = (): readonly string[] =>
    readdirSync(tmpdir()).filter((name) => name.startsWith("benchfolio-bundle-"));
  await inTemporaryFolder(async (folder) => {
    const out = join(folder, "out");
    const before = bundles();
    const { code } = await runBenchfolio(["draft", "--out", out], {
      onStart: (child) =>
        child.stderr?.on("data", (chunk: Buffer) => {
          if (chunk.toString().includes("Building dossiers")) setTimeout(() => child.kill("SIGINT"), 700);
        }),
    });
    expect(code).toBe(130);
    expect(bundles().filter((name) => !before.includes(name))).toEqual([]);
    const left = existsSync(out) ? readPages(out) : {};
    for (const page of Object.values(left)) expect(page.trimEnd().endsWith("</html>")).toBe(true);
    const names = existsSync(out) ? readdirSync(out) : [];
    expect(names.filter((name) => !/^(\.reduced|\.pages\.json|[\w.-]+\.html)$/.test(name))).toEqual([]);
  });
});
