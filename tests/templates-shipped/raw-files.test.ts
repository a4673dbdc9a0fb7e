import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { JSDOM } from "jsdom";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readPages, inTemporaryFolder, runBenchfolio } from "../cli/run-benchfolio.js";
import type { MadeArchive } from "../records/make-archive.js";
import { makeArchive } from "../records/make-archive.js";

const frames = (reader: string, press: number, value: number): string =>
  `u01,KeyF,usb,,${reader},camera-1,latency@1,1,1,${press},latency,${value},ms\n`;
const readersStudy = {
  "studies/readers-1/study.yaml": `id: readers-1
title: Two readers of one film
kind: readers
question: Do the readers agree?
factors: [reader, repeat]
`,
  "studies/readers-1/readings.csv":
    "unit,key,connection,operator,reader,rig,method,day,mount,repeat,characteristic,value,symbol\n" +
    Array.from(
      { length: 12 },
      (_, i) => frames("reader-a", i + 1, 30 + (i % 4)) + frames("reader-b", i + 1, 30 + (i % 3)),
    ).join(""),
};

let archive: MadeArchive;
let pages: Readonly<Record<string, Document>>;

beforeAll(async () => {
  archive = makeArchive(readersStudy);
  await inTemporaryFolder(async (out) => {
    const { code } = await runBenchfolio(["draft", "--data", archive.root, "--out", out]);
    expect(code).toBe(0);
    pages = Object.fromEntries(
      Object.entries(readPages(out)).map(([name, html]) => [name, new JSDOM(html).window.document]),
    );
  });
});
afterAll(() => archive.remove());

const listedOn = (page: Document): readonly string[] =>
  [...page.querySelectorAll("#raw-files tbody th")].map((cell) => cell.textContent);

test("the record of a rig lists the files of the studies with readings on it", () => {
  expect(listedOn(pages["rig-record-camera-1.html"]!)).toEqual(
    expect.arrayContaining(["studies/readers-1/study.yaml", "studies/readers-1/readings.csv"]),
  );
  expect(listedOn(pages["rig-record-camera-1.html"]!)).not.toContain("studies/crossed-1/readings.csv");
  expect(listedOn(pages["rig-record-tester-1.html"]!)).toContain("studies/crossed-1/readings.csv");
});

test("variance study and validation list the readings of every study", () => {
  for (const name of ["variance-study.html", "method-validation.html"]) {
    expect(listedOn(pages[name]!), name).toEqual(
      expect.arrayContaining(["studies/crossed-1/readings.csv", "studies/readers-1/readings.csv"]),
    );
  }
});

test("every file that a page names leads to its line, with its size and sha256, and stands there once", () => {
  expect(Object.keys(pages)).toHaveLength(8);
  for (const [name, page] of Object.entries(pages)) {
    const listed = listedOn(page);
    expect([...new Set(listed)], name).toEqual([...listed].sort());
    const paths = [...page.querySelectorAll("main code")].filter(({ textContent }) =>
      /^(lab\.yaml|(methods|rigs|studies|units)\/\S+)$/.test(textContent),
    );
    expect(paths.length).toBeGreaterThan(listed.length);
    for (const path of paths.filter((each) => each.closest("#raw-files") === null)) {
      const link = path.closest("a");
      expect(link, `${name}: ${path.textContent}`).not.toBeNull();
      const row = page.querySelector(link!.getAttribute("href")!)!;
      expect(row.querySelector("th")!.textContent).toBe(path.textContent);
    }
    for (const row of page.querySelectorAll("#raw-files tbody tr")) {
      const [path, bytes, sha256] = [...row.children].map(({ textContent }) => textContent.trim());
      const content = readFileSync(join(archive.root, path!));
      expect([bytes, sha256]).toEqual([String(content.length), createHash("sha256").update(content).digest("hex")]);
    }
  }
});
