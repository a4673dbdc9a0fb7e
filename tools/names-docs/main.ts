import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { renderNamesDocs } from "./render-names-docs.js";

writeFileSync("docs/names.md", renderNamesDocs(fileURLToPath(new URL("../../", import.meta.url))));
console.log("docs/names.md");
