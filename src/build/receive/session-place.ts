import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { needsOf } from "../../records/check-session.js";
import { isFolder } from "../../records/is-folder.js";
import { nearestName } from "../../records/nearest.js";
import { compareText } from "../../records/problem.js";
import { ProblemCollector } from "../../records/problem-collector.js";
import type { ReadingContext } from "../../records/read-description.js";
import { readingContext } from "../../records/read-description.js";
import { readLab } from "../../records/read-lab.js";
import { methodIdOf, readMethod } from "../../records/read-method.js";
import { readSession } from "../../records/read-session.js";
import { sizeLimits } from "../../records/read-source.js";
import { readUnit } from "../../records/read-unit.js";
import type { KnownNames } from "./check-taken.js";
import type { TableKind } from "./columns.js";
import { ReceiptRefused } from "./write-receipt.js";

/** Where in an archive a record is to stand. */
export interface SessionPlace {
  readonly data: string;
  readonly unit: string;
  readonly session: string;
}

/**
 * `units/<unit>` of the archive.
 * @throws ReceiptRefused where there is no such folder, or the session's name cannot be one
 */
export function unitFolderOf({ data, unit, session }: SessionPlace): string {
  if (!isFolder(data)) {
    throw new ReceiptRefused(`there is no folder ${data}`, "name the folder that holds lab.yaml with --data DIR");
  }
  const folder = join(data, "units", unit);
  if (!isId(unit) || !isFolder(folder)) {
    const near = nearestName(unit, namesIn(join(data, "units"), isFolder));
    throw new ReceiptRefused(
      `the archive ${data} has no unit "${unit}"`,
      near === undefined ? `describe it first: ${join(folder, "unit.yaml")}` : `did you mean "${near}"?`,
    );
  }
  if (!isId(session)) {
    throw new ReceiptRefused(
      `"${session}" cannot be a session`,
      "use lower-case letters, digits and hyphens, starting with a letter or digit, such as s2",
    );
  }
  return folder;
}

/**
 * Makes sure that the session can take the table: it has no record yet, since a record is never changed after receipt, and
 * its method, where it is stated, uses such a table.
 * @throws ReceiptRefused where it cannot
 */
export function refuseUnfitSession(place: SessionPlace, table: string): void {
  const { data, unit, session } = place;
  const folder = join(data, "units", unit, session);
  if (!existsSync(folder)) return;
  const shown = `units/${unit}/${session}`;
  if (!isFolder(folder)) throw new ReceiptRefused(`${shown} is no folder`, "name another session");
  const there = [table, "received"].find((name) => existsSync(join(folder, name)));
  if (there !== undefined) {
    throw new ReceiptRefused(
      `${shown}/${there} is there already, and a record is never changed after receipt`,
      `receive the files as another session, such as --session ${nextSession(place)}`,
    );
  }
  if (!existsSync(join(folder, "session.yaml"))) return;
  const context = contextOf(data);
  const described = readSession(context, unit, session, [])?.value;
  const file = described && `methods/${described.method.replace("@", "-")}.yaml`;
  const method = file !== undefined && existsSync(join(data, file)) ? readMethod(context, file)?.value : undefined;
  if (method === undefined || method.kind === "scoring") return;
  const { files } = needsOf(method);
  if (files.includes(table)) return;
  throw new ReceiptRefused(
    `${shown} is a session of ${method.id}, which uses ${files.join(" and ")}, not ${table}`,
    `receive the files as another session, such as --session ${nextSession(place)}`,
  );
}

function nextSession({ data, unit }: SessionPlace): string {
  const sessions = namesIn(join(data, "units", unit), isFolder);
  let next = sessions.length + 1;
  while (sessions.includes(`s${next}`)) next += 1;
  return `s${next}`;
}

/** Names of the archive that readings are held against and that a new description offers. */
export interface PlaceNames extends KnownNames {
  readonly methods: readonly string[];
  readonly rigs: readonly string[];
}

/** Reads what lab.yaml, unit.yaml and the folders name; their own faults are for `check` to report. */
export function readPlaceNames({ data, unit }: SessionPlace, kind: TableKind): PlaceNames {
  const context = contextOf(data);
  const prefix = kind === "force" ? "keystroke" : "latency";
  const methods = namesIn(join(data, "methods"), (path) => path.endsWith(".yaml")).map(methodIdOf);
  return {
    roles: readLab(context)?.value.roles ?? {},
    connections: readUnit(context, unit)?.value.connections ?? null,
    methods: methods.filter((id) => id.startsWith(prefix)),
    rigs: namesIn(join(data, "rigs"), isFolder),
  };
}

function contextOf(data: string): ReadingContext {
  return readingContext(data, sizeLimits, new ProblemCollector());
}

function isId(name: string): boolean {
  return /^[a-z0-9][a-z0-9-]*$/u.test(name);
}

/** Names in a folder that pass, sorted by code unit, hidden ones left out; none where the folder cannot be read. */
function namesIn(folder: string, passes: (path: string) => boolean): readonly string[] {
  try {
    return readdirSync(folder)
      .filter((name) => !name.startsWith(".") && passes(join(folder, name)))
      .sort(compareText);
  } catch {
    return [];
  }
}
