import ts from "typescript";

/** A program over the sources, as the page of names reads them. */
export interface Sources {
  readonly checker: ts.TypeChecker;
  readonly file: (path: string) => ts.SourceFile;
}

/** Opens the sources below a folder with the project's own settings. */
export function openSources(root: string, paths: readonly string[]): Sources {
  const { config } = ts.readConfigFile(`${root}tsconfig.json`, ts.sys.readFile) as { config: unknown };
  const { options } = ts.parseJsonConfigFileContent(config, ts.sys, root);
  const names = paths.map((path) => `${root}${path}`);
  const program = ts.createProgram(names, { ...options, noEmit: true });
  return {
    checker: program.getTypeChecker(),
    file: (path) => program.getSourceFile(`${root}${path}`)!,
  };
}

/** The first sentence of a symbol's docstring, in one line; empty where it has none. */
export function firstSentence(symbol: ts.Symbol, checker: ts.TypeChecker): string {
  const text = ts
    .displayPartsToString(symbol.getDocumentationComment(checker))
    .replace(/\n- [\s\S]*$/, "")
    .replace(/\s+/g, " ")
    .replaceAll(/\s*\(measurement model, section \d+\)/g, "")
    .replaceAll(/[;,] measurement model, sections? \d+( to \d+)?/g, "")
    .replaceAll(/measurement model, sections? \d+( to \d+)?[;,] /g, "")
    .trim();
  return /^.*?\.(?= [A-Z`*]|$)/.exec(text)?.[0] ?? text;
}

/** A type as people read it: without `readonly`, long unions cut. */
export function typeText(type: ts.Type, checker: ts.TypeChecker, at: ts.Node): string {
  const flags = ts.TypeFormatFlags.NoTruncation | ts.TypeFormatFlags.UseAliasDefinedOutsideCurrentScope;
  const text = checker
    .typeToString(type, at, flags)
    .replaceAll("readonly ", "")
    .replaceAll(/Quantity<("[^"]+")> \| Absent<\1>|Absent<("[^"]+")> \| Quantity<\2>/g, "Measured<$1$2>")
    .replaceAll(/Readonly<(.+)>$/g, "$1");
  return text.length > 120 ? `${text.slice(0, 117)}...` : text;
}

/** The interfaces of this project that a type leads to: itself, its items, its members, the values of a record. */
export function interfacesIn(type: ts.Type, checker: ts.TypeChecker): readonly ts.Type[] {
  if (type.isUnion()) return type.types.flatMap((each) => interfacesIn(each, checker));
  const item =
    checker.getIndexTypeOfType(type, ts.IndexKind.Number) ?? checker.getIndexTypeOfType(type, ts.IndexKind.String);
  if (item !== undefined && !(type.flags & ts.TypeFlags.StringLike)) return interfacesIn(item, checker);
  const { symbol } = type as { readonly symbol?: ts.Symbol };
  if (symbol?.name === "ReadonlyMap") return (checker.getTypeArguments(type as ts.TypeReference)).flatMap((each) => interfacesIn(each, checker)); // prettier-ignore
  const declaration = symbol?.declarations?.[0];
  if (declaration === undefined || !ts.isInterfaceDeclaration(declaration)) return [];
  return declaration.getSourceFile().fileName.includes("/src/") ? [type] : [];
}
