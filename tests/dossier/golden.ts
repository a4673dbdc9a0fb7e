import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { expect } from "vitest";

const folder = new URL("../golden/dossier/", import.meta.url);

/**
 * Compares a page with the one that a person looked at. On a difference the new one is written beside it as
 * `NAME-changed.html`, to be looked at and, if right, moved over the old one.
 */
export function expectGolden(name: string, text: string): void {
  const golden = new URL(`${name}.html`, folder);
  const changed = new URL(`${name}-changed.html`, folder);
  const known = existsSync(golden) ? readFileSync(golden, "utf8") : null;
  if (known === text) {
    rmSync(changed, { force: true });
    return;
  }
  mkdirSync(folder, { recursive: true });
  writeFileSync(changed, text);
  expect(firstDifference(known ?? "", text), `look at tests/golden/dossier/${name}-changed.html`).toBeNull();
}

function firstDifference(known: string, text: string): { line: number; known: string; now: string } | null {
  const [before, after] = [known.split("\n"), text.split("\n")];
  const at = after.findIndex((line, index) => line !== before[index]);
  return at < 0 ? null : { line: at + 1, known: before[at] ?? "(nothing)", now: after[at]! };
}
