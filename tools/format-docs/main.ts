import { writeFileSync } from "node:fs";
import { renderFormatDocs } from "./render-format-docs.js";

writeFileSync("docs/formats.md", renderFormatDocs());
console.log("docs/formats.md");
