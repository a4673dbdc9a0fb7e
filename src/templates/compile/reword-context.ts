import type ts from "typescript";
import type { Role } from "../outcome.js";

/** What rewording needs to know of the module around an error. */
export interface RewordContext {
  readonly sourceFile: ts.SourceFile;
  readonly checker: ts.TypeChecker;
  /** Ids that `see` may point to. */
  readonly ids: readonly string[];
  /** Role of the cell, or `inline`, that holds an offset. */
  readonly roleAt: (offset: number) => Role | "inline" | null;
}

/** The text of a node in one line of at most 60 characters. */
export function shortText(node: ts.Node, { sourceFile }: RewordContext): string {
  return short(node.getText(sourceFile));
}

/** A text in one line of at most 60 characters. */
export function short(text: string): string {
  const line = text.replace(/\s+/g, " ");
  return line.length > 60 ? `${line.slice(0, 57)}...` : line;
}
