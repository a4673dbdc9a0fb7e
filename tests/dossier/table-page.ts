import { JSDOM } from "jsdom";
import type { DossierInput } from "../../src/dossier/index.js";
import { renderDossier } from "../../src/dossier/index.js";
import type { Table } from "../../src/figures/table.js";
import { fixtureInput, fixtureRun } from "./fixture.js";

/** A page whose one section holds these tables, `t1`, `t2` and so on, captioned "Table one" ... */
export function pageOfTables(tables: readonly Table[], overrides: Partial<DossierInput> = {}): string {
  const cells = tables.map((_, index) => `\`\`\`ts table t${index + 1}: Caption ${index + 1}\n1\n\`\`\`\n`);
  const run = fixtureRun(`# Tables\n\n## One\n\n${cells.join("\n")}`);
  const done = run.cells.map(({ cell }, index) => ({ cell, status: "done", result: tables[index]! }) as const);
  return renderDossier(fixtureInput({ run: { ...run, cells: done, inlines: [] }, ...overrides }));
}

export function documentOf(page: string): Document {
  return new JSDOM(page).window.document;
}

/** The text of an element with single spaces. */
export function words(element: Element | null | undefined): string {
  return (element?.textContent ?? "").replaceAll("\u00a0", " ").replace(/\s+/g, " ").trim();
}
