import ts from "typescript";
import type { Wording } from "../problem.js";
import type { TemplateModules } from "../template-modules.js";
import { importedNames } from "./check-syntax.js";
import { withheld as withheldExport } from "./syntax-wording.js";
import { quantityTraits } from "./type-words.js";
import { clock, random, sealed } from "../shared-wording.js";
import * as wording from "./type-wording.js";

/** Something that the compiler allows, or words badly, and a cell must not do. Offsets in the module. */
export interface Misuse {
  readonly start: number;
  readonly end: number;
  readonly wording: Wording;
}

/** Names of the language that a sealed cell does not have. */
const outOfReach = new Set([
  "eval",
  "Function",
  "Promise",
  "Intl",
  "WeakRef",
  "FinalizationRegistry",
  "SharedArrayBuffer",
  "Atomics",
  "Float32Array",
  "Float64Array",
  "globalThis",
]);

const arithmetic = new Map<ts.SyntaxKind, string>([
  [ts.SyntaxKind.PlusToken, "+"],
  [ts.SyntaxKind.MinusToken, "-"],
  [ts.SyntaxKind.AsteriskToken, "*"],
  [ts.SyntaxKind.SlashToken, "/"],
  [ts.SyntaxKind.PercentToken, "%"],
  [ts.SyntaxKind.AsteriskAsteriskToken, "**"],
  [ts.SyntaxKind.PlusEqualsToken, "+"],
  [ts.SyntaxKind.MinusEqualsToken, "-"],
  [ts.SyntaxKind.AsteriskEqualsToken, "*"],
  [ts.SyntaxKind.SlashEqualsToken, "/"],
]);

const comparisons = new Set([
  ts.SyntaxKind.LessThanToken,
  ts.SyntaxKind.GreaterThanToken,
  ts.SyntaxKind.LessThanEqualsToken,
  ts.SyntaxKind.GreaterThanEqualsToken,
]);

/** Finds arithmetic, comparison and text made of quantities, the clock, unseeded chance, and what is sealed away. */
export function findMisuse(
  sourceFile: ts.SourceFile,
  checker: ts.TypeChecker,
  modules: TemplateModules,
): readonly Misuse[] {
  const found: Misuse[] = [];
  const withheld = withheldThrough(sourceFile, checker, modules);
  const add = (node: ts.Node, said: Wording): void => {
    found.push({ start: node.getStart(sourceFile), end: node.getEnd(), wording: said });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isTypeNode(node) && !ts.isExpressionWithTypeArguments(node)) return;
    const said = judge(node, checker, sourceFile, withheld);
    if (said !== null) add(node, said);
    else ts.forEachChild(node, visit);
  };
  ts.forEachChild(sourceFile, visit);
  return found;
}

type JudgeAccess = (node: ts.PropertyAccessExpression) => Wording | null;

/** Refuses what a module withholds where it is reached through `import * as name`. */
function withheldThrough(sourceFile: ts.SourceFile, checker: ts.TypeChecker, modules: TemplateModules): JudgeAccess {
  const namespaces = new Map<ts.Symbol, string>();
  for (const statement of sourceFile.statements) {
    if (!ts.isImportDeclaration(statement)) continue;
    const whole = importedNames(statement).find(({ exported }) => exported === "*");
    const symbol = whole && checker.getSymbolAtLocation(whole.node);
    if (symbol) namespaces.set(symbol, (statement.moduleSpecifier as ts.StringLiteral).text);
  }
  return (node) => {
    const symbol = ts.isIdentifier(node.expression) ? checker.getSymbolAtLocation(node.expression) : undefined;
    const specifier = symbol === undefined ? undefined : namespaces.get(symbol);
    const reason = specifier === undefined ? undefined : modules[specifier]?.withheld[node.name.text];
    return reason === undefined ? null : withheldExport(node.name.text, specifier!, reason);
  };
}

function judge(
  node: ts.Node,
  checker: ts.TypeChecker,
  sourceFile: ts.SourceFile,
  withheld: JudgeAccess,
): Wording | null {
  if (ts.isBinaryExpression(node)) return judgeBinary(node, checker, sourceFile);
  if (ts.isPrefixUnaryExpression(node) || ts.isPostfixUnaryExpression(node)) {
    if (node.operator === ts.SyntaxKind.ExclamationToken || !isQuantity(node.operand, checker)) return null;
    const name = node.operand.getText(sourceFile);
    return wording.quantityArithmetic(
      node.getText(sourceFile),
      `write derive([${name}], ([x]) => -x, ${symbolOf([node.operand], checker)})`,
    );
  }
  if (ts.isTemplateExpression(node)) {
    return node.templateSpans.some((span) => isQuantity(span.expression, checker)) ? wording.quantityInText : null;
  }
  if (ts.isNewExpression(node) || ts.isCallExpression(node)) {
    const bare = ts.isCallExpression(node) || (node.arguments ?? []).length === 0;
    return bare && isBuiltin(node.expression, "Date", checker) ? clock : null;
  }
  if (ts.isPropertyAccessExpression(node)) {
    const name = node.name.text;
    if (name === "now" && isBuiltin(node.expression, "Date", checker)) return clock;
    if (name === "random" && isBuiltin(node.expression, "Math", checker)) return random;
    return withheld(node);
  }
  if (ts.isIdentifier(node) && outOfReach.has(node.text) && isBuiltin(node, node.text, checker)) {
    return sealed(node.text);
  }
  return null;
}

function judgeBinary(node: ts.BinaryExpression, checker: ts.TypeChecker, sourceFile: ts.SourceFile): Wording | null {
  const { kind } = node.operatorToken;
  const operator = arithmetic.get(kind);
  if (operator === undefined && !comparisons.has(kind)) return null;
  const operands = [node.left, node.right];
  const quantities = operands.filter((each) => isQuantity(each, checker));
  if (quantities.length === 0) return null;
  const text = shorten(node.getText(sourceFile));
  if (operator === undefined) {
    return wording.quantityArithmetic(text, "decide with atLeast, atMost or decideConformity, which take the uncertainty in");
  }
  if (operands.some((each) => checker.getTypeAtLocation(each).flags & ts.TypeFlags.StringLike)) {
    return wording.quantityInText;
  }
  const [left, right] = operands.map((each) => shorten(each.getText(sourceFile)));
  const symbol = operator === "/" && quantities.length === 2 ? ratioSymbol(operands, checker) : symbolOf(quantities, checker);
  const both = quantities.length === 2;
  const inputs = both ? `[${left}, ${right}]` : `[${quantities[0] === node.left ? left : right}]`;
  const formula = both
    ? `([x, y]) => x ${operator} y`
    : quantities[0] === node.left
      ? `([x]) => x ${operator} ${right}`
      : `([x]) => ${left} ${operator} x`;
  const unit = operator === "*" && both ? '"symbol of the result"' : symbol;
  return wording.quantityArithmetic(text, `write derive(${inputs}, ${formula}, ${unit})`);
}

function isQuantity(node: ts.Expression, checker: ts.TypeChecker): boolean {
  const { quantity, absent } = quantityTraits(checker, checker.getTypeAtLocation(node));
  return quantity || absent;
}

/** The one symbol of some quantities as code; a placeholder where it is not known or not one. */
function symbolOf(nodes: readonly ts.Expression[], checker: ts.TypeChecker): string {
  const symbols = new Set(nodes.flatMap((node) => quantityTraits(checker, checker.getTypeAtLocation(node)).symbols));
  return symbols.size === 1 ? `"${[...symbols][0]}"` : '"symbol of the result"';
}

function ratioSymbol(nodes: readonly ts.Expression[], checker: ts.TypeChecker): string {
  const symbols = nodes.map((node) => quantityTraits(checker, checker.getTypeAtLocation(node)).symbols.join());
  if (symbols[0] === "" || symbols[1] === "") return '"symbol of the result"';
  return symbols[0] === symbols[1] ? '"1"' : `"${symbols[0]}/${symbols[1]}"`;
}

/** Whether a node is the language's own global of a name, not one that the template declares. */
function isBuiltin(node: ts.Node, name: string, checker: ts.TypeChecker): boolean {
  if (!ts.isIdentifier(node) || node.text !== name) return false;
  if (ts.isPropertyAccessExpression(node.parent) && node.parent.name === node) return false;
  const declarations = checker.getSymbolAtLocation(node)?.declarations ?? [];
  if (name === "globalThis") return declarations.every((d) => d.getSourceFile().isDeclarationFile);
  return declarations.length > 0 && declarations.every((d) => /lib\.[^/]*\.d\.ts$/.test(d.getSourceFile().fileName));
}

function shorten(text: string): string {
  const line = text.replace(/\s+/g, " ");
  return line.length > 60 ? `${line.slice(0, 57)}...` : line;
}
