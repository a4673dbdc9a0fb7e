import { existsSync, readFileSync, realpathSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join, parse } from "node:path";
import { fileURLToPath } from "node:url";

/**
 * Folder of the benchfolio package that a file of it belongs to, whether that file is compiled or source, in a checkout
 * or installed under `node_modules`.
 * @throws Error where no package.json of that name stands above the file
 */
export function benchfolioFolder(fileUrl: string): string {
  for (let folder = dirname(fileURLToPath(fileUrl)); ; folder = dirname(folder)) {
    const manifest = join(folder, "package.json");
    if (existsSync(manifest) && (JSON.parse(readFileSync(manifest, "utf8")) as { name?: string }).name === "benchfolio") {
      return realpathSync(folder);
    }
    if (folder === parse(folder).root) throw new Error(`${fileURLToPath(fileUrl)} is in no benchfolio package`);
  }
}

/**
 * Folder of a package as Node would find it from another package's folder, links resolved.
 * @throws Error that says how to install it
 */
export function packageFolder(name: string, from: string): string {
  const places = createRequire(join(from, "package.json")).resolve.paths(name) ?? [];
  const found = places.map((place) => join(place, name)).find((folder) => existsSync(join(folder, "package.json")));
  if (found === undefined) throw new Error(`the package ${name} is not installed; run npm install in ${from}`);
  return realpathSync(found);
}
