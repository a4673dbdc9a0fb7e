import { JSDOM } from "jsdom";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import type { Reports, Stated } from "../../tools/claims/open-reports.js";
import { openReports } from "../../tools/claims/open-reports.js";
import { inTemporaryFolder, readPages, repository, runBenchfolio } from "../cli/run-benchfolio.js";
import { makeArchive } from "../records/make-archive.js";
import type { RetestedUnit } from "./retested-units.js";
import { retestedUnits } from "./retested-units.js";
import { quantityIn, rowWhere, rowsOf, stateOn } from "./state-on.js";

let reports: Reports;
beforeAll(async () => {
  reports = await openReports(["retest-plan"]);
});

const four: readonly RetestedUnit[] = [0, 1.5, 3.2, 4.1].map((offsetCn, i) => ({ id: `u0${i + 1}`, offsetCn }));
const waiting: RetestedUnit = { id: "u06", offsetCn: 1, isPending: true };
const stated = (units: readonly RetestedUnit[]): Stated => stateOn(reports, "retest-plan", retestedUnits(units));

test("what is expected of a waiting unit leaves out units whose own record tells of a repair between their sessions", () => {
  const repaired: RetestedUnit = { id: "u05", offsetCn: 2, movedCn: 12, note: "Membrane replaced in February 2026." };
  const row = rowWhere(stated([...four, repaired, waiting]), "expected", { unit: "u06", name: "Actuation force" });
  expect(row["basis"]).toBe("from 4 retested units of its kind (tactile)");
  expect(quantityIn(row["change"]).value).toBeCloseTo(0, 1);
  const unsaid = { ...repaired, note: "" };
  const all = rowWhere(stated([...four, unsaid, waiting]), "expected", { unit: "u06", name: "Actuation force" });
  expect(quantityIn(all["change"]).value).toBeGreaterThan(2);
});

test("of a unit that cannot be measured again it is said from which units its change is expected", () => {
  const files = retestedUnits([...four, { ...waiting, kind: "clicky" }]);
  const unit = (files["units/u06/unit.yaml"] as string).replace("status: held", "status: returned");
  const report = stateOn(reports, "retest-plan", { ...files, "units/u06/unit.yaml": unit });
  expect(rowWhere(report, "decisions", {})["basis"]).toBe(
    "from 4 retested units of all kinds, since none of its kind (clicky) were retested",
  );
  expect(rowsOf(report, "expected")).toEqual([]);
});

test("a table of prospects speaks of picks apart from grades, and no working is marked twice in a row", async () => {
  const { root, remove } = makeArchive(retestedUnits([...four, waiting]));
  try {
    await inTemporaryFolder(async (out) => {
      const template = join(repository, "templates/retest-plan.md");
      await runBenchfolio(["draft", "--data", root, "--out", out, "--json", "--template", template]);
      const page = new JSDOM(readPages(out)["retest-plan.html"]).window.document;
      const words = (selector: string): string =>
        (page.querySelector(selector)?.textContent ?? "").replaceAll("\u00a0", " ").replace(/\s+/g, " ");
      expect(words("#r-prospects")).toContain("P (among the picks)");
      expect(words("#r-prospects")).not.toContain("P (recommended)");
      expect(words("main")).not.toMatch(/(W\d+)(?:\s*W\d+)*\s*\1(?!\d)/);
      expect(words("main")).not.toContain("typical, not judged");
    });
  } finally {
    remove();
  }
});
