import { blankSourceFile } from "ts-blank-space";
import ts from "typescript";
import { blankRanges, commentRanges } from "./snippet.js";

/**
 * The module as JavaScript, character for character in the same places: types, comments and imports become spaces.
 * @param onRefused told of syntax that cannot be erased
 */
export function eraseTypes(sourceFile: ts.SourceFile, onRefused: (node: ts.Node) => void): string {
  const imports = sourceFile.statements.filter((statement) => ts.isImportDeclaration(statement));
  return blankRanges(blankSourceFile(sourceFile, onRefused), [
    ...commentRanges(sourceFile),
    ...imports.map((each) => [each.getStart(sourceFile), each.getEnd()] as const),
  ]);
}
