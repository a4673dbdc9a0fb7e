import ts from "typescript";
import type { FreeName } from "../compiled.js";
import type { ParsedTemplate } from "../parse/parse-template.js";
import type { Prelude, SubjectScope } from "../prelude.js";
import type { Assembly, Slot } from "./assemble.js";
import { importedNames } from "./check-syntax.js";

/** Which names a slot leaves to others, and where each first stands in it. */
export interface SlotNames {
  readonly free: readonly (FreeName & { readonly at: number })[];
  /** Value names that a work cell declares at its top. */
  readonly declares: readonly string[];
}

type Origin = Omit<FreeName, "name">;

/**
 * Finds the free names of every slot by the checker's own resolution, so that a name shadowed inside a cell does not
 * count. Names in types alone do not count either.
 */
export function findNames(
  template: ParsedTemplate,
  assembly: Assembly,
  sourceFile: ts.SourceFile,
  checker: ts.TypeChecker,
  prelude: Prelude,
  scope: SubjectScope,
): (slot: Slot) => SlotNames {
  const origins = new Map<ts.Symbol, Origin>();
  const declares = new Map<number, string[]>();
  const cellAt = (offset: number): number | undefined => {
    const slot = assembly.slotAt(offset);
    return slot?.kind === "cell" && template.cells[slot.index]!.role === "work" ? slot.index : undefined;
  };
  const declare = (name: ts.BindingName): void => {
    if (!ts.isIdentifier(name)) {
      for (const element of name.elements) if (ts.isBindingElement(element)) declare(element.name);
      return;
    }
    const cell = cellAt(name.getStart(sourceFile));
    const symbol = checker.getSymbolAtLocation(name);
    if (cell === undefined || symbol === undefined) return;
    origins.set(symbol, { source: "work", cell });
    const known = declares.get(cell) ?? [];
    if (!known.includes(name.text)) declares.set(cell, [...known, name.text]);
  };
  for (const statement of sourceFile.statements) {
    if (ts.isVariableStatement(statement)) statement.declarationList.declarations.forEach(({ name }) => declare(name));
    else if ((ts.isFunctionDeclaration(statement) || ts.isClassDeclaration(statement)) && statement.name) {
      declare(statement.name);
    } else if (ts.isImportDeclaration(statement)) {
      const module = (statement.moduleSpecifier as ts.StringLiteral).text;
      for (const { exported, node } of importedNames(statement)) {
        const symbol = checker.getSymbolAtLocation(node);
        if (symbol) origins.set(symbol, { source: "import", module, export: exported });
      }
    }
  }
  const words = new Map(
    Object.entries(prelude.words).flatMap(([module, names]) => names.map((name) => [name, module] as const)),
  );
  const globalOrigin = (symbol: ts.Symbol): Origin | null => {
    const declaration = symbol.declarations?.find(
      (d) => ts.isVariableDeclaration(d) || ts.isFunctionDeclaration(d) || ts.isClassDeclaration(d),
    );
    if (declaration === undefined) return null;
    const { fileName } = declaration.getSourceFile();
    if (/lib\.[^/]*\.d\.ts$/.test(fileName)) return { source: "builtin" };
    if (!fileName.endsWith("/prelude.ts")) return null;
    if (symbol.name === "see") return { source: "see" };
    if (scope.names.includes(symbol.name)) return { source: "scope" };
    const module = words.get(symbol.name);
    return module === undefined ? null : { source: "word", module, export: symbol.name };
  };

  return (slot) => {
    const free = new Map<string, FreeName & { at: number }>();
    const visit = (node: ts.Node): void => {
      if (node.getEnd() <= slot.start || node.getFullStart() >= slot.end) return;
      if (ts.isImportDeclaration(node) || ts.isInterfaceDeclaration(node) || ts.isTypeAliasDeclaration(node)) return;
      if (ts.isTypeNode(node) && !ts.isExpressionWithTypeArguments(node)) return;
      if (ts.isIdentifier(node) && node.getStart(sourceFile) >= slot.start) note(node);
      ts.forEachChild(node, visit);
    };
    const note = (node: ts.Identifier): void => {
      if (ts.isPropertyAccessExpression(node.parent) && node.parent.name === node) return;
      const symbol = ts.isShorthandPropertyAssignment(node.parent)
        ? checker.getShorthandAssignmentValueSymbol(node.parent)
        : checker.getSymbolAtLocation(node);
      if (symbol === undefined || free.has(node.text) || node.text === "undefined" || node.text === "arguments") return;
      const origin = origins.get(symbol) ?? globalOrigin(symbol);
      if (origin === null || (origin.source === "work" && slot.kind === "cell" && origin.cell === slot.index)) return;
      free.set(node.text, { name: node.text, ...origin, at: node.getStart(sourceFile) });
    };
    ts.forEachChild(sourceFile, visit);
    return { free: [...free.values()], declares: slot.kind === "cell" ? (declares.get(slot.index) ?? []) : [] };
  };
}
