import { writeFileSync } from "node:fs";
import { renderProblemDocs } from "./render-problem-docs.js";

writeFileSync("docs/problems.md", renderProblemDocs());
console.log("docs/problems.md");
