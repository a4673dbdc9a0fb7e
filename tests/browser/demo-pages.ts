import { mkdtempSync, readFileSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { runBenchfolio } from "../cli/run-benchfolio.js";

/** The demo archive's pages as the program drafts them, all templates that ship. */
export interface DemoPages {
  readonly folder: string;
  /** Every page by name, with its text. */
  readonly texts: ReadonlyMap<string, string>;
  /** Of each kind, such as `unit-dossier`, the largest page. */
  readonly largest: ReadonlyMap<string, string>;
  address(name: string): string;
  remove(): void;
}

/** Drafts the demo archive into a temporary folder. @throws Error with what the program said where it did not end well */
export async function draftDemo(): Promise<DemoPages> {
  const folder = mkdtempSync(join(tmpdir(), "benchfolio-reports-"));
  const { code, stdout, stderr } = await runBenchfolio(["draft", "--out", folder]);
  if (code !== 0) throw new Error(`the demo was not drafted (exit ${code})\n${stdout}${stderr}`);
  const names = readdirSync(folder).filter((name) => name.endsWith(".html"));
  const texts = new Map(names.sort().map((name) => [name, readFileSync(join(folder, name), "utf8")]));
  const largest = new Map<string, string>();
  for (const [name, text] of texts) {
    const kind = kindOf(text);
    const known = largest.get(kind);
    if (known === undefined || text.length > texts.get(known)!.length) largest.set(kind, name);
  }
  return {
    folder,
    texts,
    largest,
    address: (name) => `file://${join(folder, name)}`,
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** The template that a page was made from, as its title block names it. */
function kindOf(text: string): string {
  return /<code>templates\/([\w-]+)\.md<\/code>/.exec(text)?.[1] ?? "unknown";
}

/** Ids of a page's elements, and the addresses that its links lead to. */
export function anchorsOf(text: string): { readonly ids: ReadonlySet<string>; readonly hrefs: readonly string[] } {
  const all = (pattern: RegExp): string[] => [...text.matchAll(pattern)].map((match) => match[1]!);
  return { ids: new Set(all(/\sid="([^"]+)"/g)), hrefs: all(/<a\b[^>]*?\shref="([^"]+)"/g) };
}
