import { spawnSync } from "node:child_process";
import { expect, test } from "vitest";
import { repository, runBenchfolio } from "./run-benchfolio.js";

test("help names every command, and each command's help has examples and exit codes", async () => {
  const top = await runBenchfolio(["--help"]);
  expect(top.code).toBe(0);
  for (const command of ["draft", "check", "receive"]) {
    expect(top.stdout).toContain(`  ${command} `);
    const help = await runBenchfolio([command, "--help"]);
    expect(help.code).toBe(0);
    expect(help.stdout).toContain("Examples:");
    expect(help.stdout).toContain("Exit code:");
  }
});

test("an unknown command or option exits 2 and names the nearest", async () => {
  const command = await runBenchfolio(["drafts"]);
  expect(command.code).toBe(2);
  expect(command.stderr).toContain("Did you mean draft?");
  const option = await runBenchfolio(["draft", "--uni", "u01"]);
  expect(option.code).toBe(2);
  expect(option.stderr).toContain("--unit");
});

test("a number of workers that is none exits 2 with the range", async () => {
  for (const workers of ["0", "many", "1.5"]) {
    const { code, stderr } = await runBenchfolio(["draft", "--workers", workers]);
    expect(code).toBe(2);
    expect(stderr).toContain("a whole number from 1 to 64");
  }
});

test("a folder that is none, or cannot be made, exits 2 with what stands in the way", async () => {
  const file = new URL("../../package.json", import.meta.url).pathname;
  const said = /is a file and not a folder|cannot be made|there is no folder/;
  for (const options of [
    ["--out", file],
    ["--out", `${file}/x`],
    ["--out", "/proc/x"],
    ["--data", `${file}/x`],
  ]) {
    const { code, stderr } = await runBenchfolio(["draft", "--unit", "u01", ...options]);
    expect(code, options[1]).toBe(2);
    expect(stderr).toMatch(said);
    expect(stderr).not.toContain("fault of benchfolio");
  }
  const { code, stderr } = await runBenchfolio(["check", `${file}/x`]);
  expect(code).toBe(2);
  expect(stderr).toContain("there is no folder");
});

test("a reader that leaves early gets no stack trace", () => {
  const main = new URL("../../dist/cli/main.js", import.meta.url).pathname;
  const { stderr } = spawnSync("bash", ["-c", `"${process.execPath}" "${main}" check --codes | true`], {
    encoding: "utf8",
  });
  expect(stderr).toBe("");
});

test("the version is the package's", async () => {
  const { code, stdout } = await runBenchfolio(["--version"]);
  expect(code).toBe(0);
  expect(stdout).toMatch(/^\d+\.\d+\.\d+\n$/);
});

test("a template that is misnamed, or a folder, exits 2 with the templates that are there", async () => {
  const misnamed = await runBenchfolio(["draft", "--template", `${repository}templates/catalog.md`]);
  expect(misnamed.code).toBe(2);
  expect(misnamed.stderr).toContain(`did you mean "${repository}templates/catalogue.md"?`);
  const folder = await runBenchfolio(["draft", "--template", `${repository}templates`]);
  expect(folder.code).toBe(2);
  expect(folder.stderr).toContain("is a folder; a template is a Markdown file");
  expect(folder.stderr).toContain("catalogue.md");
  const nowhere = await runBenchfolio(["draft", "--template", "/no/such/folder/report.md"]);
  expect(nowhere.stderr).toContain("hint: check the path");
});

test("draft takes the archive's folder as check does, and refuses two", async () => {
  const absent = await runBenchfolio(["draft", "/no/such/archive"]);
  expect(absent.stdout + absent.stderr).toContain("/no/such/archive");
  expect(absent.code).not.toBe(0);
  const twice = await runBenchfolio(["draft", "one", "--data", "other"]);
  expect(twice.code).toBe(2);
  expect(twice.stderr).toContain("the archive is named twice: one and other");
});
