import { existsSync, lstatSync, readdirSync, realpathSync, statSync } from "node:fs";
import { join, sep } from "node:path";
import { receivedFolder } from "./check-receipt.js";
import type { ProblemCode } from "./problem.js";
import { compareText } from "./problem.js";
import type { ProblemCollector } from "./problem-collector.js";
import { systemCode, systemReason } from "./read-source.js";
import { inForm } from "./remedies.js";
import { identifier } from "./schemas/description-schema.js";
import { startOf } from "./source-text.js";

/** The archive's folders and files by their place; every list is sorted by code unit. Paths use forward slashes. */
export interface ArchiveTree {
  readonly hasLab: boolean;
  /** Paths of method files. */
  readonly methods: readonly string[];
  readonly rigs: readonly FolderEntry[];
  readonly units: readonly (FolderEntry & { readonly sessions: readonly SessionEntry[] })[];
  readonly studies: readonly FolderEntry[];
  /** Every regular file that is part of the archive or lies beside its files, to be hashed. */
  readonly files: readonly string[];
}

/** A folder whose name is an id, with the names of the files of its format that are there. */
export interface FolderEntry {
  readonly id: string;
  readonly files: readonly string[];
}

/** A session's folder, with the names of the files in its `received/`. */
export interface SessionEntry extends FolderEntry {
  readonly received: readonly string[];
}

const sessionFiles = ["session.yaml", "force.csv", "presses.csv", "films.csv", "baseline.csv", "timings.csv"];

/** Where the folder of a description stands. */
const homes = { "unit.yaml": "units/", "session.yaml": "units/<unit>/", "rig.yaml": "rigs/", "study.yaml": "studies/" };

/** Kept silently: what version control and readers of a folder expect. */
const ignored = new Set([".git", ".gitignore", ".gitattributes", ".gitkeep"]);
const rootTexts = ["README.md", "LICENSE", "LICENSE.md"];

/**
 * Lists an archive's folder. Unknown files and folders are reported and unknown folders not entered; links out of the
 * archive, broken links and links to folders are refused. `received/` in a session's folder holds the exports that
 * its tables were made from and the note of their receipt, which `checkReceipt` holds them against.
 *
 * @param root real path of the archive's folder
 */
export function readArchiveTree(root: string, problems: ProblemCollector): ArchiveTree {
  return new TreeReader(root, problems).read();
}

class TreeReader {
  readonly #root: string;
  readonly #problems: ProblemCollector;
  readonly #files: string[] = [];

  constructor(root: string, problems: ProblemCollector) {
    this.#root = root;
    this.#problems = problems;
  }

  read(): ArchiveTree {
    const top = this.#list("");
    const lab = this.#known("", top.files, ["lab.yaml", ...rootTexts]);
    const folders = this.#knownFolders("", top.folders, ["methods", "rigs", "studies", "units"]);
    const inside = (name: string): readonly string[] => (folders.includes(name) ? this.#idFolders(name) : []);
    const methods = folders.includes("methods") ? this.#methods() : [];
    const rigs = inside("rigs").map((id) => this.#leaf(`rigs/${id}`, id, ["rig.yaml", "checks.csv"]));
    const studies = inside("studies").map((id) => this.#leaf(`studies/${id}`, id, ["study.yaml", "readings.csv"]));
    const units = inside("units").map((id) => this.#unit(id));
    return { hasLab: lab.includes("lab.yaml"), methods, rigs, studies, units, files: this.#files.sort(compareText) };
  }

  #methods(): readonly string[] {
    const { files, folders } = this.#list("methods");
    this.#knownFolders("methods", folders, []);
    const isMethod = (name: string): boolean => /^[a-z][a-z0-9-]*-[1-9]\d*\.yaml$/.test(name);
    for (const name of files.filter((each) => !isMethod(each))) {
      const notes = ["a method's file is named after its id: keystroke-2.yaml for keystroke@2"];
      this.#problems.add("W_FILE_UNKNOWN", startOf(`methods/${name}`), { found: name, notes });
    }
    return files.filter(isMethod).map((name) => `methods/${name}`);
  }

  #unit(id: string): ArchiveTree["units"][number] {
    const folder = `units/${id}`;
    const { files, folders } = this.#list(folder);
    const sessions = folders.filter((name) => this.#isId(folder, name));
    return {
      id,
      files: this.#known(folder, files, ["unit.yaml"]),
      sessions: sessions.map((name) => this.#session(`${folder}/${name}`, name)),
    };
  }

  #session(folder: string, id: string): SessionEntry {
    const { files, folders } = this.#list(folder);
    const received = this.#knownFolders(folder, folders, [receivedFolder]).flatMap((name) => {
      const inside = this.#list(`${folder}/${name}`);
      this.#knownFolders(`${folder}/${name}`, inside.folders, []);
      return inside.files;
    });
    return { id, files: this.#known(folder, files, sessionFiles), received };
  }

  /** A folder with the files of its format and no folder. */
  #leaf(folder: string, id: string, names: readonly string[]): FolderEntry {
    const { files, folders } = this.#list(folder);
    this.#knownFolders(folder, folders, []);
    return { id, files: this.#known(folder, files, names) };
  }

  #idFolders(parent: string): readonly string[] {
    const { files, folders } = this.#list(parent);
    this.#known(parent, files, []);
    return folders.filter((name) => this.#isId(parent, name));
  }

  #isId(parent: string, name: string): boolean {
    const isId = /^[a-z0-9][a-z0-9-]*$/.test(name);
    const near = isId ? undefined : inForm(name, identifier);
    if (!isId)
      this.#problems.add("E_FOLDER_NAME", startOf(`${parent}/${name}`), { found: name, ...(near && { near }) });
    return isId;
  }

  /** Those of `files` that the format knows; the others are reported. */
  #known(folder: string, files: readonly string[], names: readonly string[]): readonly string[] {
    for (const name of files.filter((each) => !names.includes(each))) {
      this.#problems.add("W_FILE_UNKNOWN", startOf(pathIn(folder, name)), { found: name, names });
    }
    return files.filter((name) => names.includes(name));
  }

  #knownFolders(folder: string, folders: readonly string[], names: readonly string[]): readonly string[] {
    for (const name of folders.filter((each) => !names.includes(each))) {
      const hint = this.#homeOf(pathIn(folder, name), name);
      this.#problems.add("W_FOLDER_UNKNOWN", startOf(pathIn(folder, name)), {
        found: name,
        names,
        ...(hint && { hint }),
      });
    }
    return folders.filter((name) => names.includes(name));
  }

  /** Where a misplaced folder belongs, by the description that it holds; undefined where it holds none. */
  #homeOf(folder: string, name: string): string | undefined {
    const home = Object.entries(homes).find(([file]) => existsSync(join(this.#root, folder, file)));
    return home && `it holds a ${home[0]}: move it to ${home[1]}${name}`;
  }

  /** The files and folders of one folder, sorted; what is neither is reported and left out. */
  #list(folder: string): { readonly files: readonly string[]; readonly folders: readonly string[] } {
    const [files, folders]: [string[], string[]] = [[], []];
    for (const name of this.#names(folder)) {
      const kind = this.#kindOf(pathIn(folder, name));
      if (kind === "folder") folders.push(name);
      if (kind !== "file") continue;
      files.push(name);
      this.#files.push(pathIn(folder, name));
    }
    return { files, folders };
  }

  #names(folder: string): readonly string[] {
    try {
      return readdirSync(join(this.#root, folder))
        .filter((name) => !ignored.has(name))
        .sort(compareText);
    } catch (error) {
      this.#problems.add("E_FILE_UNREADABLE", startOf(folder === "" ? "." : folder), { found: systemReason(error) });
      return [];
    }
  }

  #kindOf(path: string): "file" | "folder" | undefined {
    const refuse = (code: ProblemCode, found: string): undefined => {
      this.#problems.add(code, startOf(path), { found });
    };
    try {
      const full = join(this.#root, path);
      const status = lstatSync(full);
      if (status.isDirectory()) return "folder";
      if (status.isFile()) return "file";
      if (!status.isSymbolicLink()) return refuse("E_FILE_NOT_REGULAR", path);
      const target = realpathSync(full);
      if (!target.startsWith(this.#root + sep)) return refuse("E_LINK_OUTSIDE", path);
      return statSync(target).isFile() ? "file" : refuse("E_LINK_REFUSED", "it leads to a folder or device");
    } catch (error) {
      const code = systemCode(error);
      if (code === "ENOENT" || code === "ELOOP") return refuse("E_LINK_REFUSED", "it leads nowhere");
      return refuse("E_FILE_UNREADABLE", code);
    }
  }
}

function pathIn(folder: string, name: string): string {
  return folder === "" ? name : `${folder}/${name}`;
}
