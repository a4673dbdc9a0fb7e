import ts from "typescript";
import { nearestName } from "../nearest.js";
import type { Role } from "../outcome.js";
import type { Wording } from "../problem.js";
import { describeType, quantityTraits } from "./type-words.js";
import { bareNumber, noResult, notPrintable, sealed, wrongResult } from "../shared-wording.js";
import * as wording from "./type-wording.js";

export interface RewordContext {
  readonly sourceFile: ts.SourceFile;
  readonly checker: ts.TypeChecker;
  /** Ids that `see` may point to. */
  readonly ids: readonly string[];
  /** Role of the cell, or `inline`, that holds an offset. */
  readonly roleAt: (offset: number) => Role | "inline" | null;
}

/** Names of a browser or of Node that people try, and that no cell has. */
const hostNames = new Set(
  ("process require module exports Buffer global window document navigator location fetch XMLHttpRequest WebSocket " +
    "console performance setTimeout setInterval setImmediate queueMicrotask structuredClone crypto localStorage " +
    "__dirname __filename Worker alert URL").split(" "),
);

/** Says a compiler error in the words of templates. */
export function reword(diagnostic: ts.Diagnostic, context: RewordContext): Wording {
  const start = diagnostic.start ?? 0;
  const node = nodeAt(context.sourceFile, start, start + (diagnostic.length ?? 0));
  const text = ts.flattenDiagnosticMessageText(diagnostic.messageText, "\n").split("\n").slice(0, 2).join(": ");
  return rewordCode(diagnostic.code, node, context) ?? wording.otherFault(text, diagnostic.code);
}

function rewordCode(code: number, node: ts.Node, context: RewordContext): Wording | null {
  switch (code) {
    case 2304: // cannot find name, with its variants
    case 2552:
    case 2503:
    case 2580:
    case 2581:
    case 2582:
    case 2583:
    case 2584:
    case 2591:
    case 2592:
    case 2593:
    case 2867:
    case 2868:
    case 18004:
      return rewordName(node, context);
    case 2339: // no such property
    case 2551:
    case 2568:
    case 2570:
      return rewordProperty(node, context);
    case 2531: // possibly null or undefined
    case 2532:
    case 2533:
    case 2721:
    case 2722:
    case 2723:
    case 18047:
    case 18048:
    case 18049:
      return wording.mayBeUndefined(shortText(node, context));
    case 2305: // no such export
    case 2614:
    case 2724:
    case 2459:
    case 2460:
    case 1192:
      return rewordExport(node, context);
    case 2300: // declared twice
    case 2440:
    case 2451:
    case 2567:
      return wording.repeatedName(shortText(node, context));
    case 2448: // used before its declaration
    case 2449:
    case 2450:
      return rewordUsedBefore(node, context);
    case 2588: // assignment to something read-only
    case 2540:
    case 2542:
    case 2628:
    case 2629:
    case 2630:
    case 2632:
      return wording.readOnly(shortText(node, context));
    case 1294: // not erasable
      return wording.notErasable;
    case 2353: // unknown property of an object literal
    case 2561:
      return rewordOption(node, context);
    case 2739: // missing properties
    case 2740:
    case 2741:
      return rewordReturn(node, context) ?? rewordMissing(node, context);
    case 2355: // no result
    case 2366:
    case 7030: {
      const role = context.roleAt(node.getStart(context.sourceFile));
      const wrapper = role !== null && role !== "inline" && node.getText(context.sourceFile).startsWith("__benchfolio.");
      return wrapper ? noResult(role) : null;
    }
    case 2322: // not assignable
    case 2345:
    case 2559:
    case 2769:
    case 2820:
      return rewordReturn(node, context) ?? rewordMismatch(node, context);
    default:
      return null;
  }
}

function rewordName(node: ts.Node, context: RewordContext): Wording | null {
  const name = shortText(node, context);
  if (hostNames.has(name)) return sealed(name);
  const meaning = ts.isPartOfTypeNode(node) ? ts.SymbolFlags.Type : ts.SymbolFlags.Value;
  const names = context.checker
    .getSymbolsInScope(node, meaning)
    .map((symbol) => symbol.name)
    .filter((each) => !each.startsWith("__benchfolio"));
  // The template's own names and its scope first: ties must not go to the language's many globals.
  const own = names.filter((each) => /^[a-z]/.test(each));
  return wording.unknownName(name, nearestName(name, own) ?? nearestName(name, names));
}

function rewordProperty(node: ts.Node, { checker, sourceFile }: RewordContext): Wording | null {
  const name = node.getText(sourceFile);
  const { parent } = node;
  const owner = ts.isPropertyAccessExpression(parent) ? parent.expression : null;
  if (owner === null) return null;
  const type = checker.getTypeAtLocation(owner);
  const traits = quantityTraits(checker, type);
  if (traits.quantity && traits.absent) {
    if (/^(value|u|components)$/.test(name)) return wording.mayBeAbsent(owner.getText(sourceFile));
  }
  const known = checker
    .getPropertiesOfType(checker.getNonNullableType(type))
    .map((each) => each.name)
    .filter((each) => !each.startsWith("__"));
  const owned = `${short(owner.getText(sourceFile))}`;
  return wording.unknownProperty(name, `"${owned}"`, nearestName(name, known), known);
}

function rewordExport(node: ts.Node, { checker, sourceFile }: RewordContext): Wording | null {
  let declaration: ts.Node = node;
  while (!ts.isImportDeclaration(declaration)) {
    if (ts.isSourceFile(declaration)) return null;
    declaration = declaration.parent;
  }
  const specifier = (declaration.moduleSpecifier as ts.StringLiteral).text;
  const module = checker.getSymbolAtLocation(declaration.moduleSpecifier);
  const known = module === undefined ? [] : checker.getExportsOfModule(module).map(({ name }) => name);
  const name = node.getText(sourceFile);
  return wording.unknownExport(name, specifier, nearestName(name, known), known);
}

function rewordUsedBefore(node: ts.Node, { checker, sourceFile }: RewordContext): Wording | null {
  const declaration = checker.getSymbolAtLocation(node)?.declarations?.[0];
  if (declaration === undefined) return null;
  const { line } = sourceFile.getLineAndCharacterOfPosition(declaration.getStart(sourceFile));
  return wording.usedBefore(node.getText(sourceFile), line + 1);
}

function rewordOption(node: ts.Node, { checker, sourceFile }: RewordContext): Wording | null {
  let literal: ts.Node = node;
  while (!ts.isObjectLiteralExpression(literal)) {
    if (ts.isSourceFile(literal)) return null;
    literal = literal.parent;
  }
  const type = checker.getContextualType(literal);
  if (type === undefined) return null;
  const members = type.isUnion() ? type.types : [type];
  const known = [...new Set(members.flatMap((member) => checker.getPropertiesOfType(member).map((each) => each.name)))];
  const name = node.getText(sourceFile).replace(/^["']|["']$/g, "");
  return wording.unknownOption(name, nearestName(name, known), known);
}

function rewordMissing(node: ts.Node, { checker }: RewordContext): Wording | null {
  if (!ts.isExpression(node)) return null;
  const target = checker.getContextualType(node);
  if (target === undefined) return null;
  const found = new Set(checker.getPropertiesOfType(checker.getTypeAtLocation(node)).map((each) => each.name));
  const missing = checker
    .getPropertiesOfType(target)
    .filter((each) => !(each.flags & ts.SymbolFlags.Optional) && !found.has(each.name))
    .map((each) => each.name);
  return missing.length === 0 || missing.length > 8 ? null : wording.missingProperties(missing);
}

/** What a cell or an inline value returns is not what its role asks for. */
function rewordReturn(node: ts.Node, context: RewordContext): Wording | null {
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

function rewordMismatch(node: ts.Node, context: RewordContext): Wording | null {
  const { checker, sourceFile } = context;
  const [sourceNode, target] = mismatchOf(node, checker);
  if (sourceNode === null || target === undefined) return null;
  const source = checker.getTypeAtLocation(sourceNode);
  const name = shortText(sourceNode, context);
  if (source.isStringLiteral() || ts.isStringLiteralLike(sourceNode)) {
    const text = ts.isStringLiteralLike(sourceNode) ? sourceNode.text : source.isStringLiteral() ? source.value : "";
    const call = sourceNode.parent;
    if (ts.isCallExpression(call) && call.expression.getText(sourceFile) === "see") {
      return wording.unknownReference(text, nearestName(text, context.ids), context.ids);
    }
    const words = (target.isUnion() ? target.types : [target]).flatMap((each) => (each.isStringLiteral() ? [each.value] : []));
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

/** The outermost node that a stretch of the file is, or the smallest one that holds it. */
function nodeAt(sourceFile: ts.SourceFile, start: number, end: number): ts.Node {
  const visit = (node: ts.Node): ts.Node => {
    const inner = node.getChildren(sourceFile).find((each) => each.getStart(sourceFile) <= start && each.getEnd() >= end);
    const exact = node.getStart(sourceFile) === start && node.getEnd() === end && !ts.isSourceFile(node);
    return inner === undefined || (exact && node.kind !== ts.SyntaxKind.SyntaxList) ? node : visit(inner);
  };
  return visit(sourceFile);
}

function shortText(node: ts.Node, { sourceFile }: RewordContext): string {
  return short(node.getText(sourceFile));
}

function short(text: string): string {
  const line = text.replace(/\s+/g, " ");
  return line.length > 60 ? `${line.slice(0, 57)}...` : line;
}
