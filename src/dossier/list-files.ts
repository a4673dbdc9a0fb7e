import type { Evidence } from "../metrology/evidence.js";
import type { Ground } from "./ground-book.js";
import { isVerdict } from "./ground-book.js";
import type { DossierInput } from "./input.js";
import type { ListedFile } from "./page-state.js";

/**
 * The files of the annex of raw files by path, in the order of their paths: those that the page lists in any case, and every
 * other one on which a number with a ground rests.
 */
export function listFiles(
  { files, otherFiles = [] }: Pick<DossierInput, "files" | "otherFiles">,
  grounds: readonly Ground[],
): ReadonlyMap<string, ListedFile> {
  const cited = filesBelow(grounds);
  const listed = [...files, ...otherFiles.filter(({ path }) => cited.has(path))];
  const ordered = listed.sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0));
  return new Map(ordered.map((file, index) => [file.path, { ...file, anchor: `R${index + 1}` }]));
}

/** Paths of all files at the ends of the grounds' evidence. */
function filesBelow(grounds: readonly Ground[]): ReadonlySet<string> {
  const files = new Set<string>();
  const seen = new Set<Evidence>();
  const visit = (node: Evidence): void => {
    if (seen.has(node)) return;
    seen.add(node);
    if (node.kind === "rows") files.add(node.file);
    else node.inputs.forEach(visit);
  };
  for (const { subject } of grounds.flatMap(({ entries }) => entries)) {
    for (const number of isVerdict(subject) ? subject.cites : [subject]) visit(number.evidence);
  }
  return files;
}
