import { join } from "node:path";
import { expect, test } from "vitest";
import { inTemporaryFolder, readPages, repository, runBenchfolio } from "../cli/run-benchfolio.js";
import type { Override } from "../records/make-archive.js";
import { makeArchive } from "../records/make-archive.js";

const names = ["variance-study", "rig-record", "method-validation"];
const without = (...paths: readonly string[]): Record<string, Override> =>
  Object.fromEntries(paths.map((path) => [path, null]));
const emptied =
  (...lists: readonly string[]) =>
  (text: string): string =>
    lists.reduce((rest, list) => rest.replace(new RegExp(`^${list}:\n(?: .*\n)+`, "m"), `${list}: {}\n`), text);

const noStudies = without("studies/crossed-1/study.yaml", "studies/crossed-1/readings.csv", "rigs/tester-1/checks.csv");
const noFilm = without(
  "units/u01/s2/session.yaml",
  "units/u01/s2/presses.csv",
  "units/u01/s2/films.csv",
  "units/u01/s2/baseline.csv",
);

/** One unit, one session, no data sheet, no limits, no study, no check, no minutes. */
const bare = {
  ...noStudies,
  ...noFilm,
  "units/u01/unit.yaml": (text: string) => text.replace(/^limits:\n(?: .*\n)+/m, "limits: []\n"),
  "lab.yaml": (text: string) =>
    emptied("smallest_change", "effort")(text).replace(/^limits:\n(?: .*\n)+/m, "limits: []\n"),
};

/** The same with a film session and no force curve. */
const filmAlone = { ...noStudies, ...without("units/u01/s1/session.yaml", "units/u01/s1/force.csv") };

async function draftOn(overrides: Readonly<Record<string, Override>>): Promise<Readonly<Record<string, string>>> {
  const { root, remove } = makeArchive(overrides);
  try {
    return await inTemporaryFolder(async (out) => {
      const templates = names.flatMap((name) => ["--template", join(repository, `templates/${name}.md`)]);
      const { stdout } = await runBenchfolio(["draft", "--data", root, "--out", out, "--json", ...templates]);
      expect((JSON.parse(stdout) as { templateProblems: unknown[] }).templateProblems).toEqual([]);
      return readPages(out);
    });
  } finally {
    remove();
  }
}

const textOf = (html: string): string => html.replace(/<[^>]+>/g, " ").replace(/\s+/g, " ");

test("on one unit with one session and nothing else every missing thing is explained in its place", async () => {
  const pages = await draftOn(bare);
  expect(Object.keys(pages).sort()).toEqual([
    "method-validation.html",
    "rig-record-camera-1.html",
    "rig-record-tester-1.html",
    "variance-study.html",
  ]);
  const study = textOf(pages["variance-study.html"]!);
  expect(study).toContain("Nothing to draw: the archive holds no study");
  expect(study).toContain("No model has three measured units (the most is 1)");
  expect(study).toContain("No plan can be reckoned");
  const rig = textOf(pages["rig-record-tester-1.html"]!);
  expect(rig).toContain("This rig has no recorded checks, so there is nothing to chart");
  expect(rig).toContain("Nothing is read from film on this rig.");
  const validation = textOf(pages["method-validation.html"]!);
  expect(validation).toContain("There is nothing to validate: the archive holds no study of candidate methods.");
  for (const page of Object.values(pages)) expect(Buffer.byteLength(page)).toBeLessThan(1_500_000);
});

test("on a unit that was only filmed the force says why it is missing", async () => {
  const pages = await draftOn(filmAlone);
  expect(textOf(pages["variance-study.html"]!)).toContain("no unit was measured with two keys or more");
  expect(textOf(pages["rig-record-camera-1.html"]!)).toContain("System latency that is subtracted");
});
