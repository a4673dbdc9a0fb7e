import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { renderNamesDocs } from "../../tools/names-docs/render-names-docs.js";
import { repository } from "../cli/run-benchfolio.js";

test("docs/names.md lists every name that a template can use as the code declares it (tools/names-docs/main.ts)", () => {
  expect(readFileSync(`${repository}docs/names.md`, "utf8")).toBe(renderNamesDocs(repository));
}, 30_000);
