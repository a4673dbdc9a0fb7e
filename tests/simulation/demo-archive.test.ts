import { createHash } from "node:crypto";
import { readFileSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { checkArchive } from "../../src/records/index.js";
import { demoPlan } from "../../tools/demo-data/plan.js";
import { dataReadme } from "../../tools/demo-data/readme.js";
import { renderPlanted, renderTruth } from "../../tools/demo-data/truth-files.js";
import { renderArchive } from "../../tools/simulation/render-archive.js";

const root = new URL("../../", import.meta.url).pathname;
const data = join(root, "data");
const sha256 = (text: string | Buffer): string => createHash("sha256").update(text).digest("hex");
const shipped = readdirSync(data, { recursive: true, encoding: "utf8" })
  .filter((path) => statSync(join(data, path)).isFile())
  .map((path) => path.replaceAll("\\", "/"))
  .sort((a, b) => (a < b ? -1 : 1));
const plan = demoPlan(1);
const checked = checkArchive(data);

test("the shipped archive is what seed 1 gives, file by file", { timeout: 60_000 }, async () => {
  const { files, truth } = renderArchive(plan);
  const made = new Map([...files, ["README.md", dataReadme] as const].map(([path, text]) => [path, sha256(text)]));
  expect(shipped).toEqual([...made.keys()].sort((a, b) => (a < b ? -1 : 1)));
  for (const path of shipped)
    expect(`${path} ${sha256(readFileSync(join(data, path)))}`).toBe(`${path} ${made.get(path)}`);
  const stored = (name: string): unknown => JSON.parse(readFileSync(join(root, "tests/truth", name), "utf8"));
  expect(stored("demo.json")).toEqual(JSON.parse(await renderTruth(plan, truth)));
  expect(stored("planted.json")).toEqual(JSON.parse(await renderPlanted()));
});

test("the shipped archive takes at most 15 MB, its truths at most 1 MB", () => {
  const bytes = shipped.reduce((total, path) => total + statSync(join(data, path)).size, 0);
  expect(bytes).toBeGreaterThan(5e6);
  expect(bytes).toBeLessThan(15e6);
  expect(statSync(join(root, "tests/truth/demo.json")).size).toBeLessThan(1e6);
});

test("the check finds the planted expired calibration and nothing else", () => {
  const problems = checked.problems.map((p) => [p.code, p.severity, p.file]);
  expect(problems).toEqual([["W_CALIBRATION_EXPIRED", "warning", "units/u15/s2/session.yaml"]]);
});

test("the archive holds the kinds, connections, sessions and states that its story needs", () => {
  const { archive } = checked;
  const count = (pick: (unit: (typeof archive.units)[number]) => boolean): number => archive.units.filter(pick).length;
  expect(archive.units.length).toBeGreaterThanOrEqual(16);
  for (const kind of ["linear", "tactile", "clicky"]) expect(count((u) => u.switch.kind === kind)).toBeGreaterThan(1);
  expect(count((u) => u.switch.travel === "low")).toBeGreaterThan(2);
  for (const c of ["usb", "receiver", "bluetooth"]) expect(count((u) => u.connections.includes(c))).toBeGreaterThan(3);
  expect(count((u) => u.model === "Hall 31")).toBe(4);
  const measuredBy = (method: string) => (unit: (typeof archive.units)[number]) =>
    unit.sessions.some((s) => s.method === method);
  const [one, two] = [measuredBy("keystroke@1"), measuredBy("keystroke@2")];
  expect(count((u) => one(u) && two(u))).toBe(12);
  expect(count((u) => one(u) && !two(u) && u.status === "held")).toBe(2);
  expect(count((u) => u.status === "returned")).toBe(1);
  expect(count((u) => u.status === "withdrawn")).toBe(1);
  expect(new Set(archive.studies.map((s) => s.kind))).toEqual(new Set(["crossed", "readers", "candidate_methods"]));
  expect(archive.rigs.size).toBe(5);
});
