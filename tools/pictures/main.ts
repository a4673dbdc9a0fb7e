import { existsSync, mkdirSync } from "node:fs";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

/** The pictures of the README: page, what of it is shown, and for whom it stands. */
const pictures: readonly {
  readonly name: string;
  readonly page: string;
  readonly from?: string;
  readonly heightPx: number;
}[] = [
  { name: "unit-dossier", page: "unit-dossier-u01.html", heightPx: 1180 },
  { name: "unit-dossier-keys", page: "unit-dossier-u05.html", from: "Key by key", heightPx: 1000 },
  { name: "catalogue", page: "catalogue.html", from: "All units", heightPx: 900 },
  { name: "method-change", page: "method-change-keystroke-2.html", heightPx: 1100 },
  { name: "variance-study", page: "variance-study.html", heightPx: 1000 },
  { name: "rig-record", page: "rig-record-tester-1.html", heightPx: 1000 },
  { name: "retest-plan", page: "retest-plan.html", heightPx: 900 },
  { name: "method-validation", page: "method-validation.html", heightPx: 1000 },
];

const widthPx = 1160;

/** Takes the pictures of the drafted demo, `reports/draft/`, into `docs/pictures/`. */
async function main(): Promise<void> {
  const executablePath = process.env["CHROMIUM_PATH"] ?? "/usr/bin/chromium";
  if (!existsSync(executablePath))
    throw new Error(`there is no Chromium at ${executablePath}: apt-get install chromium`);
  const folder = resolve("reports/draft");
  mkdirSync("docs/pictures", { recursive: true });
  const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
  try {
    const page = await browser.newPage({ viewport: { width: widthPx, height: 900 }, colorScheme: "light" });
    for (const picture of pictures) {
      const file = join(folder, picture.page);
      if (!existsSync(file)) {
        console.log(`${picture.page} is not drafted: run npm start first`);
        continue;
      }
      await page.goto(pathToFileURL(file).href);
      const top =
        picture.from === undefined
          ? 0
          : await page
              .getByRole("heading", { name: picture.from })
              .first()
              .evaluate((h) => h.getBoundingClientRect().top - 40);
      const total = await page.evaluate(() => document.documentElement.scrollHeight);
      const clip = { x: 0, y: Math.max(0, top), width: widthPx, height: Math.min(picture.heightPx, total - top) };
      const path = `docs/pictures/${picture.name}.png`;
      await page.screenshot({ path, fullPage: true, clip });
      console.log(path);
    }
  } finally {
    await browser.close();
  }
}

await main();
