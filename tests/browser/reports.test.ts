import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type axe from "axe-core";
import type { AxeResults } from "axe-core";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { launchChromium } from "./chromium.js";
import type { DemoPages } from "./demo-pages.js";
import { anchorsOf, draftDemo } from "./demo-pages.js";
import { readPdfPlaces } from "./pdf-places.js";

const axeSource = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

let browser: Browser;
let demo: DemoPages;

beforeAll(async () => {
  [browser, demo] = await Promise.all([launchChromium(), draftDemo()]);
});

afterAll(async () => {
  await browser?.close();
  demo?.remove();
});

/** Opens a page in a window of its own, does something there, and closes it. */
async function inWindow<T>(name: string, options: BrowserContextOptions, act: (page: Page) => Promise<T>): Promise<T> {
  const context = await browser.newContext(options);
  try {
    const page = await context.newPage();
    await page.goto(demo.address(name));
    return await act(page);
  } finally {
    await context.close();
  }
}

/** Does the same with the largest page of every kind, and gathers what it returns under the page's name. */
async function onEveryKind<T>(act: (name: string) => Promise<T>): Promise<Record<string, T>> {
  const found: Record<string, T> = {};
  for (const name of demo.largest.values()) found[name] = await act(name);
  return found;
}

/** The same value for every kind, to compare with. */
function forEveryKind<T>(value: T): Record<string, T> {
  return Object.fromEntries([...demo.largest.values()].map((name) => [name, value]));
}

async function violations(page: Page, run: axe.RunOptions): Promise<readonly string[]> {
  await page.evaluate(axeSource);
  const results = await page.evaluate(async (options): Promise<AxeResults> => {
    return (window as unknown as { axe: typeof axe }).axe.run(document, options);
  }, run);
  return results.violations.map(({ id, nodes }) => `${id}: ${nodes[0]!.html.slice(0, 160)}`);
}

test("there is a page for the archive and one for each unit, complete and within its size", () => {
  const sizes = [...demo.texts].map(([name, text]) => ({ name, bytes: Buffer.byteLength(text) }));
  const dossiers = sizes.filter(({ name }) => name.startsWith("unit-dossier-"));
  expect(dossiers).toHaveLength(18);
  expect(dossiers.filter(({ bytes }) => bytes > 600_000)).toEqual([]);
  expect(sizes.find(({ name }) => name === "catalogue.html")!.bytes).toBeLessThan(1_500_000);
  expect([...demo.texts].filter(([, text]) => text.includes('class="problem')).map(([name]) => name)).toEqual([]);
  expect([...demo.largest.keys()]).not.toContain("unknown");
});

test("every link within a page leads to an anchor, every link to another page to a file and an anchor there", () => {
  const anchors = new Map([...demo.texts].map(([name, text]) => [name, anchorsOf(text)]));
  const broken: string[] = [];
  let followed = 0;
  for (const [name, { ids, hrefs }] of anchors) {
    for (const href of hrefs) {
      if (/^(?:data:|https?:|mailto:)/.test(href)) continue;
      const [file = "", fragment] = href.split("#");
      const target = file === "" ? ids : anchors.get(file)?.ids;
      followed++;
      if (target === undefined || (fragment !== undefined && !target.has(fragment))) broken.push(`${name}: ${href}`);
    }
  }
  expect(broken).toEqual([]);
  expect(followed).toBeGreaterThan(5000);
});

test("no rule of WCAG 2.2 A or AA is violated in the light theme", async () => {
  const values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];
  const found = await onEveryKind((name) =>
    inWindow(name, { colorScheme: "light" }, (page) => violations(page, { runOnly: { type: "tag", values } })),
  );
  expect(found).toEqual(forEveryKind([]));
});

test("contrast and marking of links hold in the dark theme too", async () => {
  const values = ["color-contrast", "link-in-text-block"];
  const found = await onEveryKind((name) =>
    inWindow(name, { colorScheme: "dark" }, (page) => violations(page, { runOnly: { type: "rule", values } })),
  );
  expect(found).toEqual(forEveryKind([]));
});

test.each([true, false])(
  "no page asks for anything or says anything on the console, scripts on: %s",
  async (javaScriptEnabled) => {
    const found = await onEveryKind(async (name) => {
      const context = await browser.newContext({ javaScriptEnabled });
      const page = await context.newPage();
      const seen: string[] = [];
      page.on("console", (message) => seen.push(`console: ${message.text()}`));
      page.on("pageerror", (error) => seen.push(`error: ${error.message}`));
      page.on("request", (request) => seen.push(`request: ${request.url()}`));
      await page.goto(demo.address(name), { waitUntil: "networkidle" });
      await context.close();
      return seen.filter((each) => each !== `request: ${demo.address(name)}`);
    });
    expect(found).toEqual(forEveryKind([]));
  },
);

test("no page scrolls sideways at 320 px", async () => {
  const found = await onEveryKind((name) =>
    inWindow(name, { viewport: { width: 320, height: 700 } }, (page) =>
      page.evaluate(() => Math.max(document.documentElement.scrollWidth, document.body.scrollWidth)),
    ),
  );
  expect(found).toEqual(forEveryKind(320));
});

test("a keyboard goes from a number through its grounds and traces to the raw file that it came from", async () => {
  const found = await onEveryKind((name) =>
    inWindow(name, {}, async (page) => {
      const first = page.locator("main .part:not(.annex) .mark[id]").first();
      if ((await first.count()) === 0) return "no number";
      await first.focus();
      for (let step = 0; step < 12; step++) {
        await page.keyboard.press("Enter");
        const next = await page.evaluate(() => {
          const target = document.querySelector(location.hash)!;
          if (target.closest("#raw-files") !== null) return "arrived";
          const whole = target.closest(".ground, .traces") ?? target;
          const links = [...whole.querySelectorAll<HTMLAnchorElement>("a.path, .chain a.mark, p a.mark, td a.mark")];
          const onward = links.find(({ hash }) => document.querySelector(hash)?.closest(".ground, .traces") !== whole);
          onward?.focus();
          return document.activeElement === onward ? "on" : `stuck at ${location.hash}`;
        });
        if (next !== "on") return next;
      }
      return "never arrives";
    }),
  );
  expect(found).toEqual(forEveryKind("arrived"));
});

test("on paper no figure is cut by the end of a sheet", async () => {
  const cut = await onEveryKind((name) =>
    inWindow(name, { bypassCSP: true }, async (page) => {
      const count = await page.evaluate(() => {
        const mark = (id: string, where: Element, position: "afterbegin" | "beforeend"): void => {
          where.insertAdjacentHTML(position, `<span id="${id}"></span>`);
          document.body.insertAdjacentHTML("beforeend", `<a href="#${id}">.</a>`);
        };
        const figures = [...document.querySelectorAll("figure")];
        figures.forEach((figure, index) => {
          mark(`top-${index}`, figure.querySelector("h3, h4")!, "afterbegin");
          mark(`foot-${index}`, figure.querySelector("figcaption p:last-child")!, "beforeend");
        });
        return figures.length;
      });
      const places = readPdfPlaces(await page.pdf({ preferCSSPageSize: true }));
      const sheet = (id: string): number | undefined => places.get(id)?.page;
      return Array.from({ length: count }, (_, index) => index).filter(
        (index) => sheet(`top-${index}`) === undefined || sheet(`top-${index}`) !== sheet(`foot-${index}`),
      );
    }),
  );
  expect(cut).toEqual(forEveryKind([]));
});

/** The first cell of every row that stands, in its order. */
function shownUnits(page: Page): Promise<readonly string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll<HTMLTableRowElement>("#r-units tbody tr")]
      .filter((row) => !row.hidden)
      .map((row) => row.cells[0]!.textContent!.trim()),
  );
}

const state = "#r-units [role=status]";
const units = Array.from({ length: 18 }, (_, index) => `u${String(index + 1).padStart(2, "0")}`);

test("the catalogue sorts by a column from the keyboard, up and down, and says so", async () => {
  await inWindow("catalogue.html", {}, async (page) => {
    const numbers = (): Promise<readonly (number | null)[]> =>
      page.evaluate(() =>
        [...document.querySelectorAll<HTMLTableRowElement>("#r-units tbody tr")].map((row) => {
          const found = /^\s*([\d.]+)\s±/.exec(row.cells[6]!.textContent!);
          return found === null ? null : Number(found[1]);
        }),
      );
    const head = page.locator("#r-units thead th").nth(6);
    await head.locator("button").focus();
    await page.keyboard.press("Enter");
    expect(await head.getAttribute("aria-sort")).toBe("ascending");
    const up = await numbers();
    const present = up.filter((value) => value !== null);
    expect(present).toHaveLength(14);
    expect(present).toEqual([...present].sort((a, b) => a - b));
    expect(up.slice(14)).toEqual([null, null, null, null]);
    expect(await page.textContent(state)).toMatch(/^18 rows, sorted by Actuation force \(cN\), ascending$/);
    await page.keyboard.press("Space");
    expect(await head.getAttribute("aria-sort")).toBe("descending");
    expect((await numbers()).slice(0, 14)).toEqual([...present].reverse());
    expect((await numbers()).slice(14)).toEqual([null, null, null, null]);
    expect(await page.evaluate(() => document.querySelectorAll("#r-units [aria-sort]").length)).toBe(1);
    await page.locator("#r-units thead th").first().locator("button").click();
    expect(await shownUnits(page)).toEqual(units);
  });
});

test("the catalogue filters by kind, connection and verdict together, and gives all rows back", async () => {
  await inWindow("catalogue.html", {}, async (page) => {
    const filter = (label: string) => page.locator("#r-units").getByRole("combobox", { name: label });
    await filter("Kind").selectOption("linear");
    const linear = await shownUnits(page);
    expect(linear.length).toBeGreaterThan(3);
    expect(await page.textContent(state)).toBe(`${linear.length} of 18 rows`);
    await filter("Connections").selectOption("receiver");
    const both = await shownUnits(page);
    expect(both.length).toBeGreaterThan(0);
    expect(both.length).toBeLessThan(linear.length);
    expect(both.every((unit) => linear.includes(unit))).toBe(true);
    await filter("Limits").selectOption("does not conform");
    expect(await shownUnits(page)).toEqual(["u05"]);
    await page.getByRole("button", { name: "All rows" }).first().press("Enter");
    expect(await shownUnits(page)).toEqual(units);
    expect(await page.textContent(state)).toBe("18 rows");
    expect(await filter("Kind").inputValue()).toBe("");
  });
});

test("loading the catalogue moves nothing, and its controls are large enough to touch", async () => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 2400 } });
  const page = await context.newPage();
  await page.addInitScript(() => {
    const shifts: number[] = [];
    Object.assign(window, { shifts });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) shifts.push((entry as unknown as { value: number }).value);
    }).observe({ type: "layout-shift", buffered: true });
  });
  await page.goto(demo.address("catalogue.html"), { waitUntil: "networkidle" });
  await page.waitForTimeout(300);
  const shifts = (): Promise<number[]> => page.evaluate(() => (window as unknown as { shifts: number[] }).shifts);
  expect(await shifts()).toEqual([]);
  const small = await page.evaluate(() =>
    [...document.querySelectorAll(".tooled select, .tooled button")]
      .map((control) => control.getBoundingClientRect())
      .filter(({ width, height }) => width < 24 || height < 24)
      .map(({ width, height }) => [width, height]),
  );
  expect(small).toEqual([]);
  await page.evaluate(() =>
    document.querySelector("main")!.before("What is put in between moves the rest, and is seen."),
  );
  await page.waitForFunction(() => (window as unknown as { shifts: number[] }).shifts.length > 0);
  await context.close();
});

test("without scripts the catalogue shows every row and no control", async () => {
  const context = await browser.newContext({ javaScriptEnabled: false });
  const page = await context.newPage();
  await page.goto(demo.address("catalogue.html"));
  expect(await page.locator("#r-units tbody tr:visible").count()).toBe(18);
  expect(await page.locator("select:visible, button:visible, [role=status]:visible").count()).toBe(0);
  expect(await page.locator("#r-units thead th:visible").first().textContent()).toContain("Unit");
  await context.close();
});

test("the tables' files download from the catalogue as they are", async () => {
  await inWindow("catalogue.html", { acceptDownloads: true }, async (page) => {
    const save = async (name: string): Promise<string> => {
      const [download] = await Promise.all([
        page.waitForEvent("download"),
        page.locator("#r-units .to-values").getByRole("link", { name }).click(),
      ]);
      expect(download.suggestedFilename()).toBe(`units.${name === "CSV file" ? "csv" : "json"}`);
      return readFileSync(await download.path(), "utf8");
    };
    const csv = await save("CSV file");
    expect(csv.split("\r\n")[0]).toBe(
      "unit,maker,model,kind,connections,method,force_cN,force_U_cN,force_absent,travel_mm,travel_U_mm,travel_absent,verdict,status",
    );
    expect(csv.trimEnd().split("\r\n")).toHaveLength(19);
    const json = JSON.parse(await save("JSON file")) as { rows: { unit: { text: string }; force: object }[] };
    expect(json.rows.map(({ unit }) => unit.text)).toEqual(units);
    expect(Object.keys(json.rows[0]!.force)).toEqual(["value", "U", "u", "dof", "k", "level", "symbol"]);
  });
});
