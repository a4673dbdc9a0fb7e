import ts from "typescript";
import type { Wording } from "../problem.js";
import type { RewordContext } from "./reword-context.js";
import { describeType } from "./type-words.js";
import * as wording from "./type-wording.js";

/**
 * What in the rows of a `table` cannot stand in it: the compiler says so of the whole list, in its own words. Null where the
 * expression is no such list and no value of one.
 */
export function rewordRows(node: ts.Expression, target: ts.Type, { checker, sourceFile }: RewordContext): Wording | null {
  const source = checker.getTypeAtLocation(node);
  if (isTableValue(target)) return cellFault(checker, columnOf(node, sourceFile), source);
  const call = node.parent;
  if (!ts.isCallExpression(call) || call.expression.getText(sourceFile) !== "table" || call.arguments[1] !== node) {
    return null;
  }
  const row = checker.getIndexTypeOfType(source, ts.IndexKind.Number);
  const wanted = checker.getIndexTypeOfType(target, ts.IndexKind.Number);
  const value = wanted && checker.getIndexTypeOfType(wanted, ts.IndexKind.String);
  if (row === undefined || value === undefined) return null;
  for (const member of row.isUnion() ? row.types : [row]) {
    // Only a type that is written out can be a record of any keys.
    if (member.isClassOrInterface()) return wording.rowsNoRecords;
    for (const property of checker.getPropertiesOfType(member)) {
      const type = checker.getTypeOfSymbol(property);
      if (!checker.isTypeAssignableTo(type, value)) return cellFault(checker, property.name, type);
    }
  }
  return wording.rowsNoRecords;
}

function cellFault(checker: ts.TypeChecker, column: string | null, type: ts.Type): Wording {
  const members = type.isUnion() ? type.types : [type];
  const isNumber = members.some(({ flags }) => (flags & ts.TypeFlags.NumberLike) !== 0);
  const isMissing = members.some(({ flags }) => (flags & (ts.TypeFlags.Undefined | ts.TypeFlags.Void)) !== 0);
  if (isNumber) return wording.numberInTable(column);
  return isMissing ? wording.missingInTable(column) : wording.notInTable(column, describeType(checker, type));
}

const isTableValue = (type: ts.Type): boolean => type.aliasSymbol?.name === "TableValue";

/** The key under which a value stands in a row that is written out. */
function columnOf(node: ts.Expression, sourceFile: ts.SourceFile): string | null {
  return ts.isPropertyAssignment(node.parent) ? node.parent.name.getText(sourceFile).replace(/^["']|["']$/g, "") : null;
}
