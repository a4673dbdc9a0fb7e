import ts from "typescript";
import { nearestName } from "../../records/nearest.js";
import type { Role } from "../outcome.js";
import type { Wording } from "../problem.js";
import type { TemplateModules } from "../template-modules.js";
import type { Snippet } from "./snippet.js";
import { blankRanges, commentRanges, parseSnippet } from "./snippet.js";
import * as wording from "./syntax-wording.js";
import { synchronous } from "../shared-wording.js";

export interface SyntaxProblem {
  /** Offset in the snippet. */
  readonly start: number;
  readonly length: number;
  readonly wording: Wording;
}

export interface SyntaxReading {
  readonly problems: readonly SyntaxProblem[];
  /** The text cannot stand in the module; `names` stand in its place. */
  readonly broken: boolean;
  /** Names at the top level of a work cell, also as far as a broken one could be read. */
  readonly names: readonly string[];
}

/** Checks a cell or an inline value alone: that it parses, and that it holds only what a cell may hold. */
export function checkSyntax(text: string, role: Role | "inline", modules: TemplateModules): SyntaxReading {
  const snippet = parseShallow(text);
  if (!("sourceFile" in snippet)) return { problems: [snippet], broken: true, names: [] };
  const { sourceFile, faults } = snippet;
  const walk = new SyntaxWalk(sourceFile, role, modules);
  walk.run();
  const problems = [
    ...faults.slice(0, 1).map((fault) => syntaxFault(fault, text)),
    ...walk.problems,
    ...refusedTexts(sourceFile),
    ...(role === "inline" && faults.length === 0 ? inlineShape(sourceFile) : []),
  ];
  const harmless = new Set<string>([wording.letInWork("let").code, wording.checkTurnedOff.code]);
  const broken = problems.some(({ wording: { code } }) => !harmless.has(code));
  return { problems, broken, names: role === "work" ? topNames(sourceFile) : [] };
}

/** Deepest nesting of a snippet; every later stage follows it by calls within calls. */
const deepest = 500;

/** Parses a snippet, or says where it nests too deeply to be followed. */
function parseShallow(text: string): Snippet | SyntaxProblem {
  const tooDeep = (start: number): SyntaxProblem => ({ start, length: 1, wording: wording.tooDeep });
  let snippet: Snippet;
  try {
    snippet = parseSnippet(text);
  } catch (error) {
    if (error instanceof RangeError) return tooDeep(text.length - text.trimStart().length);
    throw error;
  }
  const waiting: [node: ts.Node, depth: number][] = [[snippet.sourceFile, 0]];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const [node, depth] = next;
    if (depth > deepest) return tooDeep(node.getStart(snippet.sourceFile));
    ts.forEachChild(node, (child) => void waiting.push([child, depth + 1]));
  }
  return snippet;
}

/** Names that the statements of a file declare at its top level, values and types, imports included. */
export function topNames(sourceFile: ts.SourceFile): readonly string[] {
  const names = new Set<string>();
  const addBinding = (name: ts.BindingName): void => {
    if (ts.isIdentifier(name)) names.add(name.text);
    else for (const element of name.elements) if (ts.isBindingElement(element)) addBinding(element.name);
  };
  for (const statement of sourceFile.statements) {
    if (ts.isVariableStatement(statement)) statement.declarationList.declarations.forEach((d) => addBinding(d.name));
    else if (ts.isImportDeclaration(statement)) importedNames(statement).forEach(({ local }) => names.add(local));
    else if (
      ts.isFunctionDeclaration(statement) ||
      ts.isClassDeclaration(statement) ||
      ts.isTypeAliasDeclaration(statement) ||
      ts.isInterfaceDeclaration(statement)
    ) {
      if (statement.name !== undefined) names.add(statement.name.text);
    }
  }
  names.delete("");
  return [...names];
}

/** The names that an import declaration binds, with what they stand for; "*" is the module itself. */
export function importedNames(
  declaration: ts.ImportDeclaration,
): readonly { readonly local: string; readonly exported: string; readonly node: ts.Identifier }[] {
  const clause = declaration.importClause;
  if (clause === undefined) return [];
  const bindings = clause.namedBindings;
  return [
    ...(clause.name === undefined ? [] : [{ local: clause.name.text, exported: "default", node: clause.name }]),
    ...(bindings === undefined
      ? []
      : ts.isNamespaceImport(bindings)
        ? [{ local: bindings.name.text, exported: "*", node: bindings.name }]
        : bindings.elements.map(({ name, propertyName }) => ({
            local: name.text,
            exported: (propertyName ?? name).text,
            node: name,
          }))),
  ];
}

function syntaxFault(fault: ts.DiagnosticWithLocation, text: string): SyntaxProblem {
  const opening = fault.relatedInformation?.[0];
  if (opening?.start !== undefined) {
    return { start: opening.start, length: 1, wording: wording.neverClosed(text.slice(opening.start, opening.start + 1)) };
  }
  const found = text.slice(fault.start, fault.start + Math.max(1, fault.length));
  if (/^[})\]]/.test(found) && fault.code === 1128) {
    return { start: fault.start, length: 1, wording: wording.strayClose(found[0]!) };
  }
  const message = ts.flattenDiagnosticMessageText(fault.messageText, " ");
  return { start: Math.min(fault.start, text.length), length: Math.max(1, fault.length), wording: wording.syntax(message) };
}

/** An inline value is exactly one expression. */
function inlineShape(sourceFile: ts.SourceFile): readonly SyntaxProblem[] {
  const [first, second] = sourceFile.statements;
  const text = sourceFile.text;
  const whole = { start: 0, length: text.length };
  if (first === undefined) return [{ ...whole, wording: wording.noExpression }];
  if (second !== undefined) {
    const start = second.getStart(sourceFile);
    return [{ start, length: text.length - start, wording: wording.noExpression }];
  }
  if (!ts.isExpressionStatement(first)) return [{ ...whole, wording: wording.noExpression }];
  if (text.trimEnd().endsWith(";")) {
    return [{ start: text.lastIndexOf(";"), length: 1, wording: wording.inlineSemicolon }];
  }
  const comment = commentRanges(sourceFile).find(([start, end]) => /\/\//.test(text.slice(start, end)));
  if (comment !== undefined) {
    return [{ start: comment[0], length: comment[1] - comment[0], wording: wording.inlineComment }];
  }
  return [];
}

/** Texts that the sealed process refuses wherever they stand, and comments that would turn the check off. */
function refusedTexts(sourceFile: ts.SourceFile): readonly SyntaxProblem[] {
  const { text } = sourceFile;
  const comments = commentRanges(sourceFile);
  const code = blankRanges(text, comments);
  const found: SyntaxProblem[] = [];
  const add = (pattern: RegExp, within: string, said: (match: string) => Wording): void => {
    for (const match of within.matchAll(pattern)) {
      found.push({ start: match.index, length: match[0].length, wording: said(match[0]) });
    }
  };
  add(/<!--|-->/g, code, wording.htmlComment);
  add(/(?<!(?<!\.\.)\.)\bimport(?=\s*(?:\(|\/[/*]))/g, onlyTexts(code, sourceFile), () => wording.importInText);
  add(/[\u2028\u2029]/g, text, () => wording.lineSeparator);
  for (const [start, end] of comments) {
    const match = /@ts-(ignore|nocheck|expect-error)/.exec(text.slice(start, end));
    if (match) found.push({ start: start + match.index, length: match[0].length, wording: wording.checkTurnedOff });
  }
  return found;
}

/** Only the texts and patterns of a snippet: `import(` in code is the walk's to report. */
function onlyTexts(code: string, sourceFile: ts.SourceFile): string {
  const kept: (readonly [number, number])[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isStringLiteralLike(node) || ts.isTemplateLiteralToken(node) || ts.isRegularExpressionLiteral(node)) {
      kept.push([node.getStart(sourceFile), node.getEnd()]);
    }
    ts.forEachChild(node, visit);
  };
  visit(sourceFile);
  let at = 0;
  const others: (readonly [number, number])[] = [];
  for (const [start, end] of kept) {
    others.push([at, start]);
    at = end;
  }
  return blankRanges(code, [...others, [at, code.length]]);
}

class SyntaxWalk {
  readonly problems: SyntaxProblem[] = [];
  readonly #sourceFile: ts.SourceFile;
  readonly #role: Role | "inline";
  readonly #modules: TemplateModules;

  constructor(sourceFile: ts.SourceFile, role: Role | "inline", modules: TemplateModules) {
    this.#sourceFile = sourceFile;
    this.#role = role;
    this.#modules = modules;
  }

  run(): void {
    for (const statement of this.#sourceFile.statements) {
      if (this.#role === "work") this.#topOfWork(statement);
      this.#visit(statement);
    }
  }

  #topOfWork(statement: ts.Statement): void {
    if (!ts.isVariableStatement(statement)) return;
    const { flags } = statement.declarationList;
    if ((flags & ts.NodeFlags.BlockScoped) === ts.NodeFlags.Const) return;
    const word = (flags & ts.NodeFlags.BlockScoped) === ts.NodeFlags.Let ? "let" : "var";
    if ((flags & ts.NodeFlags.BlockScoped) === ts.NodeFlags.Using) return;
    this.#report(statement, wording.letInWork(word), word.length);
  }

  #visit(node: ts.Node): void {
    const said = this.#judge(node);
    if (said !== null) {
      this.#report(node, said);
      return;
    }
    if (ts.isImportDeclaration(node)) this.#import(node);
    ts.forEachChild(node, (child) => this.#visit(child));
  }

  #judge(node: ts.Node): Wording | null {
    if (ts.isAwaitExpression(node) || node.kind === ts.SyntaxKind.AsyncKeyword) return synchronous;
    if (node.kind === ts.SyntaxKind.AwaitKeyword) return synchronous;
    if (node.kind === ts.SyntaxKind.ExportKeyword || ts.isExportDeclaration(node) || ts.isExportAssignment(node)) {
      return wording.noExport;
    }
    if (node.kind === ts.SyntaxKind.DeclareKeyword) return wording.noDeclare;
    if (node.kind === ts.SyntaxKind.ImportKeyword || ts.isMetaProperty(node)) return wording.dynamicImport;
    if (ts.isImportEqualsDeclaration(node)) return wording.importForm;
    if (ts.isImportDeclaration(node) && this.#role !== "work") return wording.importPlace(this.#role);
    if (ts.isEnumDeclaration(node) || ts.isModuleDeclaration(node) || ts.isTypeAssertionExpression(node)) {
      return wording.notErasable;
    }
    if (ts.isParameter(node) && (node.modifiers ?? []).some((each) => !ts.isDecorator(each))) return wording.notErasable;
    if (ts.isDecorator(node)) return wording.notPlain("a decorator");
    if (ts.isWithStatement(node)) return wording.notPlain("`with`");
    if (ts.isVariableDeclarationList(node) && isUsing(node)) return wording.notPlain("`using`");
    if (ts.isIdentifier(node) && node.text.startsWith("__benchfolio")) return wording.reservedName(node.text);
    if (ts.isReturnStatement(node) && this.#role === "work" && !insideFunction(node)) return wording.returnInWork;
    return null;
  }

  #import(node: ts.ImportDeclaration): void {
    if (!ts.isStringLiteral(node.moduleSpecifier)) return;
    const specifier = node.moduleSpecifier.text;
    const module = this.#modules[specifier];
    if (module === undefined) {
      const known = Object.keys(this.#modules);
      this.#report(node.moduleSpecifier, wording.unknownModule(specifier, nearestModule(specifier, known), known));
      return;
    }
    if (node.importClause === undefined) {
      this.#report(node, wording.importForm);
      return;
    }
    for (const { exported, node: name } of importedNames(node)) {
      const reason = module.withheld[exported];
      if (reason !== undefined) this.#report(name, wording.withheld(exported, specifier, reason));
    }
  }

  #report(node: ts.Node, said: Wording, length?: number): void {
    const start = node.getStart(this.#sourceFile);
    const line = this.#sourceFile.text.slice(start, node.getEnd()).split("\n")[0]!;
    this.problems.push({ start, length: length ?? line.length, wording: said });
  }
}

function isUsing(list: ts.VariableDeclarationList): boolean {
  const kind = list.flags & ts.NodeFlags.BlockScoped;
  return kind === ts.NodeFlags.Using || kind === ts.NodeFlags.AwaitUsing;
}

function insideFunction(node: ts.Node): boolean {
  for (let at = node.parent; !ts.isSourceFile(at); at = at.parent) if (ts.isFunctionLike(at)) return true;
  return false;
}

/** A specifier misspelt, or written without its "benchfolio/". */
function nearestModule(specifier: string, known: readonly string[]): string | undefined {
  const full = `benchfolio/${specifier.replace(/^(\.{0,2}\/)+/, "")}`;
  return known.includes(full) ? full : nearestName(specifier, known);
}
