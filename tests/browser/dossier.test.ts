import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import type { Server } from "node:http";
import { createRequire } from "node:module";
import type axe from "axe-core";
import type { AxeResults } from "axe-core";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { renderDossier } from "../../src/dossier/index.js";
import { fixtureInput } from "../dossier/fixture.js";
import { launchChromium, servePage } from "./chromium.js";
import type { PdfPlaces } from "./pdf-places.js";
import { readPdfPlaces } from "./pdf-places.js";

const axeSource = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const dossier = renderDossier(fixtureInput());

let browser: Browser;
let server: Server;
let address: string;

beforeAll(async () => {
  browser = await launchChromium();
  ({ server, address } = await servePage(dossier));
});

afterAll(async () => {
  await browser?.close();
  server?.close();
});

/** Opens the dossier in a window of its own, does something there, and closes it. */
async function inWindow<T>(options: BrowserContextOptions, act: (page: Page) => Promise<T>): Promise<T> {
  const context = await browser.newContext(options);
  try {
    const page = await context.newPage();
    await page.goto(address);
    return await act(page);
  } finally {
    await context.close();
  }
}

test.each([
  ["light", 1280],
  ["dark", 1280],
  ["light", 320],
  ["dark", 320],
] as const)("no rule of WCAG 2.2 A or AA is violated in the %s theme at %i px", async (colorScheme, width) => {
  const results = await inWindow({ colorScheme, viewport: { width, height: 800 } }, async (page) => {
    await page.evaluate(axeSource);
    return page.evaluate(async (): Promise<AxeResults> => {
      const checker = (window as unknown as { axe: typeof axe }).axe;
      const values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];
      return checker.run(document, { runOnly: { type: "tag", values } });
    });
  });
  const found = results.violations.map(({ id, nodes }) => ({ id, nodes: nodes.slice(0, 3).map((node) => node.html) }));
  expect(found).toEqual([]);
  expect(results.passes.map((rule) => rule.id)).toContain("color-contrast");
});

test("the page asks for nothing and says nothing on the console, with scripts on and off", async () => {
  for (const javaScriptEnabled of [true, false]) {
    const context = await browser.newContext({ javaScriptEnabled });
    const page = await context.newPage();
    const seen: string[] = [];
    page.on("console", (message) => seen.push(`console: ${message.text()}`));
    page.on("pageerror", (error) => seen.push(`error: ${error.message}`));
    page.on("request", (request) => seen.push(`request: ${request.url()}`));
    await page.goto(address, { waitUntil: "networkidle" });
    await context.close();
    expect(seen).toEqual([`request: ${address}`]);
  }
});

test("the style sheet is admitted by its hash, a script is not", async () => {
  await inWindow({}, async (page) => {
    const font = await page.evaluate(() => getComputedStyle(document.querySelector(".title-block")!).borderTopWidth);
    expect(font).toBe("2px");
    const ran = await page.evaluate(() => {
      const script = document.createElement("script");
      script.textContent = "window.ran = true";
      document.body.append(script);
      return "ran" in window;
    });
    expect(ran).toBe(false);
  });
});

test.each([320, 375, 768, 1280])("the page does not scroll sideways at %i px", async (width) => {
  const widths = await inWindow({ viewport: { width, height: 700 } }, (page) =>
    page.evaluate(() => [document.documentElement.scrollWidth, document.body.scrollWidth, window.innerWidth]),
  );
  expect(widths[0]).toBeLessThanOrEqual(width);
  expect(widths[1]).toBeLessThanOrEqual(width);
  expect(widths[2]).toBe(width);
});

test("text spacing of WCAG 2.2, 1.4.12, cuts nothing off at 320 px", async () => {
  const cut = await inWindow({ viewport: { width: 320, height: 700 }, bypassCSP: true }, async (page) => {
    const content =
      "* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important; }";
    await page.addStyleTag({ content });
    return page.evaluate(() => document.documentElement.scrollWidth);
  });
  expect(cut).toBeLessThanOrEqual(320);
});

test("a keyboard goes from a number to its ground, to its budget's region, and back", async () => {
  await inWindow({}, async (page) => {
    const reached = new Set<string>();
    const stops = await page.evaluate(() => document.querySelectorAll("a[href], [tabindex='0']").length);
    for (let stop = 0; stop < stops; stop++) {
      await page.keyboard.press("Tab");
      reached.add(
        await page.evaluate(() => {
          const focused = document.activeElement!;
          return `${focused.localName}${focused.getAttribute("href") ?? ""}${focused.getAttribute("aria-label") ?? ""}`;
        }),
      );
    }
    const expected = await page.evaluate(() =>
      [...document.querySelectorAll("a[href], [tabindex='0']")].map(
        (element) =>
          `${element.localName}${element.getAttribute("href") ?? ""}${element.getAttribute("aria-label") ?? ""}`,
      ),
    );
    expect(expected.filter((element) => !reached.has(element))).toEqual([]);
    await page.focus("#n-1-c-6");
    await page.keyboard.press("Enter");
    expect(new URL(page.url()).hash).toBe("#g-1-c-6");
    expect(await page.locator("#g-1-c-6").isVisible()).toBe(true);
    await page.keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement!.getAttribute("href"))).toBe("#n-1-c-6");
    await page.keyboard.press("Enter");
    expect(new URL(page.url()).hash).toBe("#n-1-c-6");
  });
});

test("focus is always seen, and never hidden by what sticks", async () => {
  await inWindow({}, async (page) => {
    await page.focus(".mark");
    await page.keyboard.press("Tab");
    const outline = await page.evaluate(() => getComputedStyle(document.activeElement!).outlineStyle);
    expect(outline).toBe("solid");
    expect(
      await page.evaluate(
        () => [...document.querySelectorAll("*")].filter((e) => getComputedStyle(e).position === "fixed").length,
      ),
    ).toBe(0);
  });
});

test("the CSV file of a figure downloads under the page's policy, as drawn", async () => {
  await inWindow({ acceptDownloads: true }, async (page) => {
    const [download] = await Promise.all([page.waitForEvent("download"), page.click("#r-key-spread a[download]")]);
    expect(download.suggestedFilename()).toBe("key-spread.csv");
    const text = readFileSync(await download.path(), "utf8");
    expect(text).toMatch(/^key,actuation_force\r\nKeyA,44\.12\r\n/);
    expect(text.trimEnd().split("\r\n")).toHaveLength(9);
  });
});

test("the template downloads from the workings byte for byte", async () => {
  await inWindow({ acceptDownloads: true }, async (page) => {
    const [download] = await Promise.all([page.waitForEvent("download"), page.click("#workings a[download]")]);
    const digest = createHash("sha256")
      .update(readFileSync(await download.path()))
      .digest("hex");
    expect(digest).toBe((await page.locator("#workings .digest").first().textContent())!.trim());
  });
});

test("on paper no figure is cut, grounds stand as endnotes before the annexes, every sheet is numbered", async () => {
  await inWindow({ colorScheme: "dark", bypassCSP: true }, async (page) => {
    const figures = await page.evaluate(() => {
      const places: string[] = [];
      const mark = (name: string, where: Element, position: "afterbegin" | "beforeend"): void => {
        where.insertAdjacentHTML(position, `<span id="${name}"></span>`);
        document.body.insertAdjacentHTML("beforeend", `<a href="#${name}">.</a>`);
        places.push(name);
      };
      document.querySelectorAll("figure").forEach((figure, index) => {
        mark(`top-${index}`, figure.querySelector("h3, h4")!, "afterbegin");
        mark(`foot-${index}`, figure.querySelector("figcaption p:last-child")!, "beforeend");
      });
      for (const [name, selector] of [
        ["text-end", "#s3 .prose p"],
        ["notes", "#grounds-0 h3"],
        ["annex", "#deviations h2"],
      ] as const) {
        mark(name, document.querySelector(selector)!, "afterbegin");
      }
      return places.filter((place) => place.startsWith("top")).length;
    });
    expect(figures).toBe(3);
    let places: PdfPlaces = new Map();
    for (const spaceMm of [0, 60, 120, 180]) {
      await page.evaluate((height) => {
        document.querySelector<HTMLElement>("#schedule")!.style.paddingBottom = `${height}mm`;
      }, spaceMm);
      places = readPdfPlaces(await page.pdf({ preferCSSPageSize: true }));
      for (let index = 0; index < figures; index++) {
        const [top, foot] = [places.get(`top-${index}`)!, places.get(`foot-${index}`)!];
        expect(foot.page, `figure ${index + 1} after ${spaceMm} mm`).toBe(top.page);
        expect(foot.y).toBeLessThan(top.y);
      }
    }
    const [text, notes, annex] = ["text-end", "notes", "annex"].map((name) => places.get(name)!);
    const follows = (a: typeof text, b: typeof text): boolean =>
      b!.page > a!.page || (b!.page === a!.page && b!.y < a!.y);
    expect(follows(text, notes)).toBe(true);
    expect(follows(notes, annex)).toBe(true);
    const ground = await page.evaluate(() => {
      const rules = [...document.styleSheets].flatMap((sheet) => [...sheet.cssRules].map((rule) => rule.cssText));
      return rules.find((rule) => rule.startsWith("@page")) ?? "";
    });
    expect(ground).toContain("counter(pages)");
  });
});

test("on paper the page is black on white whatever the reader's theme", async () => {
  await inWindow({ colorScheme: "dark" }, async (page) => {
    await page.emulateMedia({ media: "print", colorScheme: "dark" });
    const colours = await page.evaluate(() => {
      const { color, backgroundColor } = getComputedStyle(document.documentElement);
      return [color, backgroundColor];
    });
    expect(colours).toEqual(["rgb(0, 0, 0)", "rgb(255, 255, 255)"]);
  });
});
