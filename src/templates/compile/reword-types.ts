import ts from "typescript";
import { nearestName } from "../../records/nearest.js";
import type { Wording } from "../problem.js";
import { bareNumber, noResult, notPrintable, wrongResult } from "../shared-wording.js";
import type { RewordContext } from "./reword-context.js";
import { shortText } from "./reword-context.js";
import { rewordRows } from "./reword-rows.js";
import { describeType, quantityTraits } from "./type-words.js";
import * as wording from "./type-wording.js";

/** What a cell or an inline value returns is not what its role asks for. */
export function rewordReturn(node: ts.Node, context: RewordContext): Wording | null {
  const { checker, sourceFile } = context;
  const statement = node.kind === ts.SyntaxKind.ReturnKeyword ? node.parent : node;
  if (!ts.isReturnStatement(statement)) return null;
  let owner: ts.Node = statement.parent;
  while (!ts.isFunctionLike(owner)) {
    if (ts.isSourceFile(owner)) return null;
    owner = owner.parent;
  }
  if (!ts.isFunctionDeclaration(owner) || !owner.name?.text.startsWith("__benchfolio")) return null;
  const role = context.roleAt(statement.getStart(sourceFile));
  if (role === null) return null;
  if (statement.expression === undefined) return role === "inline" ? null : noResult(role);
  const type = checker.getTypeAtLocation(statement.expression);
  if (role === "inline") {
    if (type.flags & (ts.TypeFlags.NumberLike | ts.TypeFlags.BigIntLike)) return bareNumber;
    return notPrintable(describeType(checker, type));
  }
  const target = checker.getReturnTypeOfSignature(checker.getSignatureFromDeclaration(owner)!);
  if (ts.isObjectLiteralExpression(statement.expression)) {
    const found = new Set(checker.getPropertiesOfType(type).map((each) => each.name));
    const missing = checker
      .getPropertiesOfType(target)
      .filter((each) => !(each.flags & ts.SymbolFlags.Optional) && !found.has(each.name))
      .map((each) => each.name);
    if (found.has("kind") && missing.length > 0) return wording.missingProperties(missing);
  }
  return wrongResult(role, describeType(checker, type));
}

export function rewordMismatch(node: ts.Node, context: RewordContext): Wording | null {
  const { checker, sourceFile } = context;
  const [sourceNode, target] = mismatchOf(node, checker);
  if (sourceNode === null || target === undefined) return null;
  const rows = rewordRows(sourceNode, target, context);
  if (rows !== null) return rows;
  const source = checker.getTypeAtLocation(sourceNode);
  const name = shortText(sourceNode, context);
  if (source.isStringLiteral() || ts.isStringLiteralLike(sourceNode)) {
    const text = ts.isStringLiteralLike(sourceNode) ? sourceNode.text : source.isStringLiteral() ? source.value : "";
    const call = sourceNode.parent;
    if (ts.isCallExpression(call) && call.expression.getText(sourceFile) === "see") {
      return wording.unknownReference(text, nearestName(text, context.ids), context.ids);
    }
    const words = wordsOf(target);
    if (words.length > 0) return wording.unknownWord(text, nearestName(text, words), words);
  }
  const found = quantityTraits(checker, source);
  const wanted = quantityTraits(checker, target);
  if (found.missing && !wanted.missing && (found.quantity || found.other || found.count)) return wording.mayBeUndefined(name);
  if (found.quantity || found.absent) {
    if (target.flags & ts.TypeFlags.NumberLike) return wording.quantityAsNumber(name);
    const [one, other] = [found.symbols[0], wanted.symbols[0]];
    if (wanted.quantity && one !== undefined && other !== undefined && one !== other) return wording.wrongSymbol(one, other);
    if (wanted.quantity && found.absent && !wanted.absent) return wording.mayBeAbsent(name);
  }
  const [here, there] = [describeType(checker, source), describeType(checker, target)];
  return here === there || /its own making| or .*of the type/.test(`${here} ${there}`) ? null : wording.mismatch(here, there);
}

/** The expression that does not fit, and the type that it should have. */
function mismatchOf(node: ts.Node, checker: ts.TypeChecker): readonly [ts.Expression | null, ts.Type | undefined] {
  const { parent } = node;
  if (ts.isIdentifier(node) && (ts.isVariableDeclaration(parent) || ts.isPropertyAssignment(parent)) && parent.name === node) {
    const value = parent.initializer;
    if (value === undefined) return [null, undefined];
    const target = ts.isVariableDeclaration(parent) ? checker.getTypeAtLocation(parent) : checker.getContextualType(value);
    return [value, target];
  }
  if (!ts.isExpression(node)) return [null, undefined];
  return [node, checker.getContextualType(node)];
}

/** A comparison with a text that the other side can never be. */
export function rewordComparison(node: ts.Node, { checker }: RewordContext): Wording | null {
  if (!ts.isBinaryExpression(node)) return null;
  for (const [one, other] of [
    [node.right, node.left],
    [node.left, node.right],
  ] as const) {
    const words = wordsOf(checker.getTypeAtLocation(other));
    if (ts.isStringLiteralLike(one) && words.length > 0) {
      return wording.unknownWord(one.text, nearestName(one.text, words), words);
    }
  }
  return null;
}

/** The texts that a type allows, where it allows only some. */
function wordsOf(type: ts.Type): readonly string[] {
  return (type.isUnion() ? type.types : [type]).flatMap((each) => (each.isStringLiteral() ? [each.value] : []));
}
