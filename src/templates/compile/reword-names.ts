import ts from "typescript";
import { nearestName } from "../../records/nearest.js";
import type { Wording } from "../problem.js";
import { sealed } from "../shared-wording.js";
import type { RewordContext } from "./reword-context.js";
import { short, shortText } from "./reword-context.js";
import { describeType, quantityTraits } from "./type-words.js";
import * as wording from "./type-wording.js";

/** Names of a browser or of Node that people try, and that no cell has. */
const hostNames = new Set(
  ("process require module exports Buffer global window document navigator location fetch XMLHttpRequest WebSocket " +
    "console performance setTimeout setInterval setImmediate queueMicrotask structuredClone crypto localStorage " +
    "__dirname __filename Worker alert URL").split(" "),
);

/** A name that is not known, or that no cell can have. */
export function rewordName(node: ts.Node, context: RewordContext): Wording | null {
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

/** A property that is not there, or only where a quantity is not absent. */
export function rewordProperty(node: ts.Node, { checker, sourceFile }: RewordContext): Wording | null {
  const name = node.getText(sourceFile);
  const { parent } = node;
  const owner = ts.isPropertyAccessExpression(parent) ? parent.expression : null;
  if (owner === null) return null;
  const type = checker.getTypeAtLocation(owner);
  const traits = quantityTraits(checker, type);
  if (traits.quantity && traits.absent) {
    if (/^(value|u|components)$/.test(name)) return wording.mayBeAbsent(owner.getText(sourceFile));
  }
  if (checker.isArrayType(type) && /^(push|pop|shift|unshift|sort|reverse|splice|fill|copyWithin)$/.test(name)) {
    return wording.readOnly(short(owner.getText(sourceFile)));
  }
  const given = checker.getNonNullableType(type);
  const known = checker
    .getPropertiesOfType(given)
    .map((each) => each.name)
    .filter((each) => !each.startsWith("__"));
  const owned = short(owner.getText(sourceFile));
  const plain = ts.TypeFlags.StringLike | ts.TypeFlags.NumberLike | ts.TypeFlags.BooleanLike;
  if (given.flags & plain || checker.isArrayType(given)) {
    return wording.unknownProperty(name, `"${owned}"`, nearestName(name, known), [], describeType(checker, given));
  }
  return wording.unknownProperty(name, `"${owned}"`, nearestName(name, known), known);
}

/** An import of a name that the module does not export. */
export function rewordExport(node: ts.Node, { checker, sourceFile }: RewordContext): Wording | null {
  let declaration: ts.Node = node;
  while (!ts.isImportDeclaration(declaration)) {
    if (ts.isSourceFile(declaration)) return null;
    declaration = declaration.parent;
  }
  const specifier = (declaration.moduleSpecifier as ts.StringLiteral).text;
  const module = checker.getSymbolAtLocation(declaration.moduleSpecifier);
  const exports = module === undefined ? [] : checker.getExportsOfModule(module);
  const name = node.getText(sourceFile);
  // A cell wants a function or a value far more often than a type, and rarely the plain-number kernel of a procedure.
  const isValue = (symbol: ts.Symbol): boolean => (aliased(checker, symbol).flags & ts.SymbolFlags.Value) !== 0;
  const values = exports.filter(isValue).map((symbol) => symbol.name);
  const main = values.filter((each) => !each.endsWith("Kernel"));
  const types = exports.filter((symbol) => !isValue(symbol)).map((symbol) => symbol.name);
  const near = nearestName(name, main) ?? nearestName(name, [...values, ...types]);
  const holding = near !== undefined ? [] : sharingWord(name, main);
  return wording.unknownExport(name, specifier, near, holding.length > 0 ? holding : main, holding.length > 0);
}

function aliased(checker: ts.TypeChecker, symbol: ts.Symbol): ts.Symbol {
  return symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
}

/** Names that share a word of at least four letters with a name: `twoSampleT` and `sampleSize` share "sample". */
function sharingWord(name: string, among: readonly string[]): readonly string[] {
  const words = (text: string): readonly string[] =>
    text
      .split(/(?=[A-Z])|_/)
      .map((word) => word.toLowerCase())
      .filter((word) => word.length >= 4);
  const asked = words(name);
  return among.filter((each) => words(each).some((word) => asked.includes(word)));
}

/** A use above the declaration. */
export function rewordUsedBefore(node: ts.Node, { checker, sourceFile }: RewordContext): Wording | null {
  const declaration = checker.getSymbolAtLocation(node)?.declarations?.[0];
  if (declaration === undefined) return null;
  const { line } = sourceFile.getLineAndCharacterOfPosition(declaration.getStart(sourceFile));
  return wording.usedBefore(node.getText(sourceFile), line + 1);
}

/** An unknown name in an object literal. */
export function rewordOption(node: ts.Node, { checker, sourceFile }: RewordContext): Wording | null {
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

/** An object literal without some of its required names. */
export function rewordMissing(node: ts.Node, { checker }: RewordContext): Wording | null {
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
