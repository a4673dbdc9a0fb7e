import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { renderFormatDocs } from "../../tools/format-docs/render-format-docs.js";
import { repository } from "../cli/run-benchfolio.js";

test("docs/formats.md lists every key and column as the schemas have them (tools/format-docs/main.ts)", () => {
  expect(readFileSync(`${repository}docs/formats.md`, "utf8")).toBe(renderFormatDocs());
});
