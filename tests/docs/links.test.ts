import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";
import { repository } from "../cli/run-benchfolio.js";

/** Markdown files that people read; templates and fixtures are checked by their own tests. */
function documents(): readonly string[] {
  return execFileSync("git", ["ls-files", "-co", "--exclude-standard", "*.md"], { cwd: repository, encoding: "utf8" })
    .split("\n")
    .filter((name) => name !== "" && !/^(templates|tests)\//.test(name));
}

/** Fragments that the headings of a page give, as common Markdown readers form them. */
function fragments(text: string): ReadonlySet<string> {
  const headings = text.replaceAll(/```[\s\S]*?```/g, "").match(/^#+ .*$/gm) ?? [];
  return new Set(
    headings.map((heading) =>
      heading
        .replace(/^#+ /, "")
        .toLowerCase()
        .replaceAll(/[^\p{L}\p{N} _-]/gu, "")
        .replaceAll(" ", "-"),
    ),
  );
}

test("every relative link and picture of the documents leads to a file and a heading that are there", () => {
  const broken: string[] = [];
  for (const name of documents()) {
    const text = readFileSync(join(repository, name), "utf8");
    const prose = text.replaceAll(/(`{3,})[\s\S]*?\1/g, "").replaceAll(/`[^`\n]*`/g, "");
    for (const [, address] of prose.matchAll(/\]\(([^)\s]+)\)/g)) {
      if (/^[a-z]+:/.test(address!)) continue;
      const [path = "", fragment] = address!.split("#");
      const target = path === "" ? join(repository, name) : join(repository, dirname(name), path);
      if (!existsSync(target)) broken.push(`${name}: ${address}`);
      else if (fragment !== undefined && !fragments(readFileSync(target, "utf8")).has(fragment))
        broken.push(`${name}: ${address}`);
    }
  }
  expect(broken).toEqual([]);
});

test("every npm script that the documents name is there", () => {
  const { scripts } = JSON.parse(readFileSync(join(repository, "package.json"), "utf8")) as {
    scripts: Record<string, string>;
  };
  const unknown = documents().flatMap((name) =>
    [...readFileSync(join(repository, name), "utf8").matchAll(/npm run ([\w:-]+)/g)].flatMap(([, script]) =>
      scripts[script!] === undefined ? [`${name}: npm run ${script}`] : [],
    ),
  );
  expect(unknown).toEqual([]);
});
