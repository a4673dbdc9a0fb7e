import { expect, test } from "vitest";
import { makeArchive, replacing } from "../records/make-archive.js";
import { runBenchfolio } from "./run-benchfolio.js";

test("a sound archive exits 0 and says what was read", async () => {
  const { root, remove } = makeArchive();
  try {
    const { code, stdout, stderr } = await runBenchfolio(["check", root]);
    expect(stdout).toContain("0 errors, 0 warnings");
    expect(stdout).toContain("1 unit,");
    expect(stderr).toBe("");
    expect(code).toBe(0);
  } finally {
    remove();
  }
});

test("the demo archive has the one warning that was planted: an expired calibration", async () => {
  const { code, stdout } = await runBenchfolio(["check", "--json"]);
  const { problems } = JSON.parse(stdout) as { problems: { code: string; file: string }[] };
  expect(problems.map((problem) => [problem.code, problem.file])).toEqual([
    ["W_CALIBRATION_EXPIRED", "units/u15/s2/session.yaml"],
  ]);
  expect(code).toBe(0);
});

test("an archive with errors exits 1 and shows each with place, line and remedy", async () => {
  const { root, remove } = makeArchive({
    "units/u01/s1/session.yaml": replacing("method: keystroke@2", "method: keystroke@3"),
    "units/u01/s2/presses.csv": replacing("contact_frame", "contact_fram"),
  });
  try {
    const { code, stdout } = await runBenchfolio(["check", root]);
    expect(code).toBe(1);
    expect(stdout).toMatch(/units\/u01\/s1\/session\.yaml:\d+:\d+ E_METHOD_UNKNOWN/);
    expect(stdout).toMatch(/units\/u01\/s2\/presses\.csv:1:\d+ E_/);
    expect(stdout).toContain("contact_frame");
    expect(stdout).toContain("hint:");
    expect(stdout).toMatch(/\n\s+\| +\^/);
  } finally {
    remove();
  }
});

test("a folder that is not there exits 2 with a remedy and no stack", async () => {
  const { code, stderr } = await runBenchfolio(["check", "/no/such/folder"]);
  expect(code).toBe(2);
  expect(stderr).toBe(
    "benchfolio: there is no folder /no/such/folder\n  hint: name the folder that holds lab.yaml: benchfolio check DIR\n",
  );
});

test("--codes lists every code with its meaning", async () => {
  const { code, stdout } = await runBenchfolio(["check", "--codes"]);
  expect(code).toBe(0);
  expect(stdout).toMatch(/^E_ROW_SHORT +error +\S/m);
  expect(stdout).toMatch(/^W_CALIBRATION_EXPIRED +warning +\S/m);
});
