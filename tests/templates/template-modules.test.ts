import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, expect, test } from "vitest";
import { benchfolioFolder, packageFolder } from "../../src/templates/package-folder.js";
import { loadTemplateModules, templateModules } from "../../src/templates/template-modules.js";

const folder = realpathSync(mkdtempSync(join(tmpdir(), "benchfolio-modules-")));
afterAll(() => rmSync(folder, { recursive: true }));

test("the package is found from its files in a checkout and under node_modules, through links", () => {
  const installed = join(folder, "lab/node_modules/benchfolio");
  mkdirSync(join(installed, "dist/templates"), { recursive: true });
  writeFileSync(join(installed, "package.json"), '{ "name": "benchfolio" }');
  const file = pathToFileURL(join(installed, "dist/templates/x.js")).href;
  expect(benchfolioFolder(file)).toBe(installed);
  symlinkSync(installed, join(folder, "linked"));
  expect(benchfolioFolder(pathToFileURL(join(folder, "linked/dist/templates/x.js")).href)).toBe(installed);
  expect(() => benchfolioFolder(pathToFileURL(join(folder, "lab/x.js")).href)).toThrow(/is in no benchfolio package/);
});

test("a dependency is found beside the package, as npm lays it out, and a missing one is named", () => {
  const installed = join(folder, "lab/node_modules/benchfolio");
  mkdirSync(join(folder, "lab/node_modules/beside"), { recursive: true });
  writeFileSync(join(folder, "lab/node_modules/beside/package.json"), '{ "name": "beside" }');
  expect(packageFolder("beside", installed)).toBe(join(folder, "lab/node_modules/beside"));
  expect(() => packageFolder("nowhere-to-be-found", installed)).toThrow(/nowhere-to-be-found is not installed; run npm install in/);
});

test("modules of other packages lose what cells must not have", async () => {
  const modules = templateModules();
  const loaded = await loadTemplateModules(modules, ["d3-array", "simple-statistics", "@observablehq/plot"]);
  expect(loaded["d3-array"]).toHaveProperty("mean");
  expect(loaded["d3-array"]).not.toHaveProperty("shuffle");
  expect(loaded["simple-statistics"]).toHaveProperty("median");
  expect(loaded["@observablehq/plot"]).toHaveProperty("dot");
  for (const [specifier, { withheld }] of Object.entries(modules)) {
    for (const name of Object.keys(withheld)) expect(loaded[specifier]).not.toHaveProperty(name);
  }
});

test("every withheld name is one that its module has, so that none is withheld in vain", async () => {
  for (const { code, withheld } of Object.values(templateModules())) {
    if (Object.keys(withheld).length === 0) continue;
    const whole = (await import(pathToFileURL(code).href)) as Record<string, unknown>;
    for (const name of Object.keys(withheld)) expect(whole).toHaveProperty(name);
  }
});

test("an unknown specifier is refused", async () => {
  await expect(loadTemplateModules(templateModules(), ["node:fs"])).rejects.toThrow(
    '"node:fs" is no module that cells may import',
  );
});
