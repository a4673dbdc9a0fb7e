import { createHash } from "node:crypto";
import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";

/** Which version of the program made a result. */
export interface Tool {
  readonly name: "benchfolio";
  readonly version: string;
  /** sha256 over the compiled code of the floors that reduce, so that changed code never meets an old result. */
  readonly reductionDigest: string;
}

/** The floors whose code decides what a reduced session says. */
const reducingFloors = ["metrology", "statistics", "records", "keystroke", "latency", "build"];

/** Reads the version from package.json and digests the code that reduces. */
export function readTool(): Tool {
  const folder = fileURLToPath(new URL("../", import.meta.url));
  const manifest = JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8")) as {
    version: string;
  };
  const hash = createHash("sha256");
  for (const floor of reducingFloors) {
    const names = readdirSync(`${folder}${floor}`, { recursive: true, encoding: "utf8" })
      .filter((name) => name.endsWith(".js"))
      .map((name) => name.replaceAll("\\", "/"))
      .sort((a, b) => (a < b ? -1 : 1));
    for (const name of names) hash.update(`${floor}/${name}\n`).update(readFileSync(`${folder}${floor}/${name}`));
  }
  return { name: "benchfolio", version: manifest.version, reductionDigest: hash.digest("hex") };
}
