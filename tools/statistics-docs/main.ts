import { readFileSync, writeFileSync } from "node:fs";
import { checks, withoutPublished } from "../../tests/statistics/checks/index.js";
import { measureAgreement } from "./agreement.js";
import type { Agreement } from "./agreement.js";
import { renderPage } from "./page.js";
import { readProcedures } from "./procedures.js";

// Writes docs/statistics.md. With --measure it first runs every check and stores the digits agreed.
const stored = new URL("../../tests/reference/statistics-agreement.json", import.meta.url);
if (process.argv.includes("--measure")) writeFileSync(stored, `${JSON.stringify(measureAgreement(checks), null, 1)}\n`);
const agreement = JSON.parse(readFileSync(stored, "utf8")) as Agreement[];
const page = renderPage(readProcedures(), agreement, withoutPublished);
writeFileSync(new URL("../../docs/statistics.md", import.meta.url), page);
console.log(`docs/statistics.md: ${readProcedures().length} procedures`);
