import { existsSync, readFileSync, realpathSync, statSync } from "node:fs";
import { join, sep } from "node:path";
import { benchfolioFolder, packageFolder } from "../package-folder.js";

/**
 * Flags that take everything from a Node process but reading the named folders and this package with its dependencies:
 * no other file, no writing, no further process, no worker.
 *
 * @param readable further files and folders, absolute
 * @throws Error where a path cannot be named in a flag
 */
export function permissionFlags(readable: readonly string[]): readonly string[] {
  const flag = process.allowedNodeEnvironmentFlags.has("--permission") ? "--permission" : "--experimental-permission";
  const folders = [...new Set([...packageFolders(), ...readable].flatMap(asNamed))];
  const comma = folders.find((folder) => folder.includes(","));
  if (comma !== undefined) {
    throw new Error(`the path ${comma} holds a comma, which Node cannot take in a permission; rename the folder`);
  }
  return [flag, ...folders.map((folder) => `--allow-fs-read=${folder}`)];
}

/** The compiled code of this package, and every folder `node_modules` that holds a dependency of it. */
function packageFolders(): readonly string[] {
  const root = benchfolioFolder(import.meta.url);
  const manifest = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as {
    readonly dependencies?: Readonly<Record<string, string>>;
  };
  const dependencies = Object.keys(manifest.dependencies ?? {}).map((name) => packageFolder(name, root));
  const holders = dependencies.map((folder) => {
    const at = folder.lastIndexOf(`${sep}node_modules${sep}`);
    return at < 0 ? folder : folder.slice(0, at + `${sep}node_modules`.length);
  });
  return [join(root, "package.json"), join(root, "dist"), ...holders];
}

/**
 * A path as it was given and with its links resolved. A trailing separator keeps a folder's flag from covering its
 * namesakes, such as `data-old` beside `data`.
 */
function asNamed(path: string): readonly string[] {
  if (!existsSync(path)) throw new Error(`the path ${path} does not exist, so no process can be allowed to read it`);
  const real = realpathSync(path);
  const end = statSync(real).isDirectory() ? sep : "";
  return [path, real].map((each) => (each.endsWith(sep) ? each : each + end));
}
