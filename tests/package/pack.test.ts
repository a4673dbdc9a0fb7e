import { execFile } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { promisify } from "node:util";
import { expect, test } from "vitest";
import { inTemporaryFolder, repository } from "../cli/run-benchfolio.js";
import { makeArchive } from "../records/make-archive.js";

const run = promisify(execFile);

const template = `---
subject: unit
methods: [keystroke@2, latency@1]
---
# [= unit.name =]

\`\`\`ts work
import { keystrokes } from "benchfolio/keystroke";
import { spread } from "benchfolio/statistics";
import { max } from "d3-array";
const keys = keystrokes(unit.current.keystroke);
const force = spread(keys, (key) => key.actuationForce);
const longest = max(keys, (key) => key.key.length);
\`\`\`
The keys average [= result("Actuation force", force.mean) =].

\`\`\`ts figure keys: Do the keys need equal force?
return intervalChart(keys, (key) => key.actuationForce, { of: "Actuation force", noun: "key" });
\`\`\`
`;

test("the packed program, installed in an empty folder, drafts a template that lies there", async () => {
  const { root, remove } = makeArchive();
  try {
    await inTemporaryFolder(async (folder) => {
      const { stdout } = await run("npm", ["pack", "--json", "--ignore-scripts", "--pack-destination", folder], {
        cwd: repository,
      });
      const [{ filename, files }] = JSON.parse(stdout) as [{ filename: string; files: { path: string }[] }];
      const packed = files.map(({ path }) => path);
      expect(packed).toContain("templates/unit-dossier.md");
      expect(packed.filter((path) => /^(tests|tools|data|src|bench)\//.test(path))).toEqual([]);

      const home = join(folder, "home of a user");
      mkdirSync(home);
      writeFileSync(join(home, "package.json"), '{ "private": true }\n');
      await run("npm", ["install", "--no-audit", "--no-fund", "--prefer-offline", join(folder, filename)], {
        cwd: home,
      });
      writeFileSync(join(home, "mine.md"), template);
      const benchfolio = join(home, "node_modules/.bin/benchfolio");
      const drafted = await run(
        benchfolio,
        ["draft", "--data", root, "--template", "mine.md", "--out", "out", "--json"],
        { cwd: home },
      );
      const result = JSON.parse(drafted.stdout) as { templateProblems: unknown[] };
      expect(result.templateProblems).toEqual([]);
      expect(existsSync(join(home, "out/mine-u01.html"))).toBe(true);
      expect(readFileSync(join(home, "out/mine-u01.html"), "utf8")).toContain("Actuation force");
    });
  } finally {
    remove();
  }
}, 300_000);
