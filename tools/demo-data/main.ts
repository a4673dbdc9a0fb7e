import { writeFileSync, mkdirSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { renderArchive, writeArchive } from "../simulation/render-archive.js";
import { demoPlan } from "./plan.js";
import { dataReadme } from "./readme.js";
import { renderPlanted, renderTruth } from "./truth-files.js";

const { values } = parseArgs({
  options: {
    seed: { type: "string", default: "1" },
    data: { type: "string", default: "data" },
    truth: { type: "string", default: "tests/truth" },
  },
});
const seed = Number(values.seed);
const plan = demoPlan(seed);
const { files, truth } = renderArchive(plan);
writeArchive(new Map([...files, ["README.md", dataReadme]]), values.data);
mkdirSync(values.truth, { recursive: true });
writeFileSync(join(values.truth, "demo.json"), await renderTruth(plan, truth));
writeFileSync(join(values.truth, "planted.json"), await renderPlanted());
const bytes = [...files.values()].reduce((total, text) => total + Buffer.byteLength(text), 0);
console.log(
  `wrote ${files.size} files, ${(bytes / 1e6).toFixed(1)} MB, to ${values.data} and the truths to ${values.truth}`,
);
