import { expect, test } from "vitest";
import { pageFrame } from "../../src/build/page-frame.js";
import { readArchive } from "../../src/records/index.js";
import { replacing, withArchive } from "../records/make-archive.js";

const itemsOf = (overrides: Parameters<typeof withArchive>[0], subject: "unit" | "archive" = "unit") =>
  withArchive(overrides, (root) => {
    const archive = readArchive(root);
    return pageFrame(archive, { subject, id: subject === "unit" ? "u01" : null }, ["keystroke@2"]).reportItems;
  });

test("a unit's dossier goes through the clauses a to p of ISO/IEC 17025:2017, 7.8.2.1, in their order", () => {
  const items = itemsOf({})!;
  expect(items.slice(0, 16).map(({ clause }) => clause)).toEqual(
    [..."abcdefghijklmnop"].map((letter) => `7.8.2.1 ${letter}`),
  );
  const text = (letter: string): string | null => items.find(({ clause }) => clause === `7.8.2.1 ${letter}`)!.text;
  expect(text("b")).toBe("Tarn House Keyboard Laboratory, 1 Tarn Lane");
  expect(text("f")).toBe("keystroke@2, latency@1");
  expect(text("h")).toBe("2026-02-11");
  expect(text("i")).toBe("2026-03-09 to 2026-03-10");
  expect([text("j"), text("o")]).toEqual(["not issued", "not approved"]);
  expect(text("g")).toMatch(/; as received: \S/);
  expect(text("p")).toMatch(/^none declared: /);
  expect(items.find(({ item }) => item === "Decision rule")!.text).toMatch(/^guard band of the expanded uncertainty/);
});

test("what the archive does not hold is not recorded", () => {
  const items = itemsOf({
    "units/u01/unit.yaml": replacing("received: 2026-02-11", "received: not recorded"),
    "lab.yaml": replacing(
      "  items_tested: The results concern only the items tested, as received.\n",
      "  safety: Mind the plunger.\n",
    ),
  })!;
  const missing = items.filter(({ text }) => text === null).map(({ clause }) => clause);
  expect(missing).toEqual(["7.8.2.1 h", "7.8.2.1 l", "7.8.2.1 note"]);
});

test("a page about the whole archive is no test report", () => {
  expect(itemsOf({}, "archive")).toBeUndefined();
});
