import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { setImmediate } from "node:timers/promises";
import type { SourceText } from "../../records/source-text.js";
import { sourceText } from "../../records/source-text.js";
import type { ColumnsFile } from "./columns.js";
import { fieldPlan, tables } from "./columns.js";
import type { Receipt } from "./make-receipt.js";
import { makeReceipt } from "./make-receipt.js";
import type { ReceiptProblem } from "./problem.js";
import { ReceiptProblems } from "./problem.js";
import { readColumns } from "./read-columns.js";
import { readGivenFiles } from "./read-given-files.js";
import { renderReceived } from "./render-received.js";
import type { PlaceNames, SessionPlace } from "./session-place.js";
import { readPlaceNames, refuseUnfitSession, unitFolderOf } from "./session-place.js";
import { renderSessionSkeleton } from "./session-skeleton.js";
import { writeReceipt } from "./write-receipt.js";

export interface ReceiveOptions extends SessionPlace {
  readonly files: readonly string[];
  /** Path of the columns file. */
  readonly columns: string;
  /** Say what would be received and write nothing. */
  readonly isTrial: boolean;
  /** Name and version of the program, for the note of receipt. */
  readonly tool: string;
}

export interface ReceiveResult {
  /** Errors among them: nothing was written. */
  readonly problems: readonly ReceiptProblem[];
  /** The files as text, for showing problems in their place. */
  readonly texts: readonly SourceText[];
  readonly receipt: Receipt | undefined;
  /** Paths in the archive that were written, or would be on a trial. */
  readonly files: readonly string[];
  readonly hasNewDescription: boolean;
}

/**
 * Receives files into a session of an archive: reads them as the columns file says, holds the record against the checks
 * that it has to pass, and writes it, the files as they came, and a note of what was taken and left out. A description of
 * the session is begun where there is none; nothing that is there is changed.
 *
 * @throws ReceiptRefused where the archive, the unit or the session cannot take a record of this kind
 */
export async function receive(options: ReceiveOptions): Promise<ReceiveResult> {
  const { unit, session } = options;
  const unitFolder = unitFolderOf(options);
  const problems = new ReceiptProblems();
  const columns = readColumns(options.columns, problems);
  const nothing = { receipt: undefined, files: [], hasNewDescription: false };
  if (columns === undefined) return { ...nothing, problems: problems.list(), texts: readableText(options.columns) };
  refuseUnfitSession(options, tables[columns.kind].file);
  const names = readPlaceNames(options, columns.kind);
  await setImmediate(); // lets Ctrl-C through before the work, and again before anything is written
  const given = readGivenFiles(options.files, problems);
  const { receipt, texts } = makeReceipt(given, columns, names, problems);
  const shown = [...texts, columns.source];
  if (receipt === undefined) return { ...nothing, problems: problems.list(), texts: shown };
  const hasNewDescription = !existsSync(join(unitFolder, session, "session.yaml"));
  const columnsBytes = readFileSync(options.columns);
  const note = renderReceived(receipt, { file: "columns.yaml", bytes: columnsBytes }, options.tool);
  const files = [
    { path: receipt.table, content: receipt.text },
    ...receipt.files.map(({ keptAs }, i) => ({ path: `received/${keptAs}`, content: given[i]!.bytes })),
    { path: "received/columns.yaml", content: columnsBytes },
    { path: "received/received.yaml", content: note },
    ...(hasNewDescription ? [{ path: "session.yaml", content: skeleton(options, columns, receipt, names) }] : []),
  ];
  await setImmediate();
  if (!options.isTrial) writeReceipt({ unitFolder, session, files });
  return {
    problems: problems.list(),
    texts: shown,
    receipt,
    files: files.map(({ path }) => `units/${unit}/${session}/${path}`),
    hasNewDescription,
  };
}

/** The columns file as text, where it can be shown though it could not be read. */
function readableText(file: string): readonly SourceText[] {
  try {
    return [sourceText(file, readFileSync(file, "utf8").replace(/^\ufeff/u, ""))];
  } catch {
    return [];
  }
}

function skeleton(place: SessionPlace, columns: ColumnsFile, receipt: Receipt, names: PlaceNames): string {
  const rows = receipt.text.split("\n").slice(1, -1);
  return renderSessionSkeleton({
    unit: place.unit,
    session: place.session,
    kind: columns.kind,
    hasContact: fieldPlan(columns, "contact") !== undefined,
    methods: names.methods,
    rigs: names.rigs,
    roles: Object.keys(names.roles),
    connections: columns.kind === "force" ? [] : [...new Set(rows.map((row) => row.split(",", 1)[0]!))],
  });
}
