import ts from "typescript";
import { prelude } from "../../src/templates/prelude.js";
import type { Sources } from "./describe-types.js";
import { firstSentence, interfacesIn, openSources, typeText } from "./describe-types.js";

const subjects = ["unit", "archive", "change", "study", "rig"] as const;
const modules = {
  keystroke: "src/keystroke/index.ts",
  latency: "src/latency/index.ts",
  statistics: "src/statistics/index.ts",
  comparison: "src/comparison/index.ts",
  metrology: "src/metrology/index.ts",
  figures: "src/figures/index.ts",
  words: "src/templates/words/index.ts",
} as const;
const scopeFile = (subject: string): string => `src/templates/subject/${subject}.ts`;

/** Types that the opening explains, or that a cell has no use for. */
const explained = new Set(["Evidence", "EvidenceRows", "EvidenceStep", "Component", "Source", "Stated"]);

/** The page of every name that a template can use, from the sources' types and docstrings. */
export function renderNamesDocs(root: string): string {
  const sources = openSources(root, [...subjects.map(scopeFile), ...Object.values(modules)]);
  const told = new Set<string>(explained);
  return `${[
    opening,
    ...subjects.map((subject) => renderScope(sources, subject, told)),
    [
      "## Modules",
      "",
      "Functions that cells may import, each with the first sentence of its docstring. The definitions behind those of",
      "`benchfolio/statistics` are in [statistics.md](statistics.md); a name that ends with `Kernel` works on plain numbers, all others",
      "on items and an accessor that gives a measured value. Names marked * are in scope without import. The types beside them, with the",
      "whole docstrings, are in the package's `.d.ts` files, which an editor shows.",
    ].join("\n"),
    ...Object.entries(modules).map(([name, path]) => renderModule(sources, name, path)),
  ].join("\n\n")}\n`;
}

const opening = `# Names in templates

Written by tools/names-docs/main.ts from the types and docstrings of the code; a test compares, so do not edit it by hand. How
templates are written is in [templates.md](templates.md), what the characteristics mean in [methods.md](methods.md) and
[methods-latency.md](methods-latency.md).

Three kinds of numbers occur. \`Measured<"cN">\` is a quantity in cN, or an absence with its reason: \`isQuantity(x)\` tells; then
\`x.value\` is the bare number, \`x.u\` its standard uncertainty; without, \`x.reason\` says why. \`Stated<"mm/s">\` is a number that
a file of the archive states: \`x.value\`, \`x.symbol\`. A plain \`number\` counts something: print it as \`count(list)\`. Nothing can be
changed. A type is described where it first occurs.`;

function renderScope(sources: Sources, subject: (typeof subjects)[number], told: Set<string>): string {
  const { checker } = sources;
  const file = sources.file(scopeFile(subject));
  const scope = exportsOf(sources, file).find(({ name }) => name === prelude.subjects[subject]!.type)!;
  const queue = [checker.getDeclaredTypeOfSymbol(scope)];
  const parts: string[] = [`## Subject: ${subject}`];
  for (let type = queue.shift(); type !== undefined; type = queue.shift()) {
    const name = type.symbol.name;
    if (told.has(name)) continue;
    told.add(name);
    const properties = checker.getPropertiesOfType(type);
    const lines = properties.map((property) => {
      const of = checker.getTypeOfSymbol(property);
      const says = firstSentence(property, checker);
      return `- \`${property.name}\`: \`${typeText(of, checker, file)}\`${says === "" ? "" : `. ${says}`}`;
    });
    const about = firstSentence(type.symbol, checker);
    parts.push(
      `${type.symbol === scope ? "In scope:" : `**${name}**${about === "" ? "" : `: ${about}`}`}\n\n${lines.join("\n")}`,
    );
    for (const property of properties) {
      const of = checker.getTypeOfSymbol(property);
      const results = of.getCallSignatures().map((signature) => signature.getReturnType());
      queue.push(...[of, ...results].flatMap((each) => interfacesIn(each, checker)));
    }
  }
  return parts.join("\n\n");
}

function renderModule(sources: Sources, name: string, path: string): string {
  const { checker } = sources;
  const file = sources.file(path);
  const free = new Set(prelude.words[`benchfolio/${name}`] ?? []);
  const values = exportsOf(sources, file).filter((symbol) => (symbol.flags & ts.SymbolFlags.Value) !== 0);
  const kernels = new Set(values.map((symbol) => symbol.name).filter((each) => each.endsWith("Kernel")));
  const lines = values
    .filter((symbol) => !kernels.has(symbol.name) || values.every((each) => `${each.name}Kernel` !== symbol.name))
    .map((symbol) => {
      const says = firstSentence(symbol, checker);
      const mark = free.has(symbol.name) ? "*" : "";
      const kernel = kernels.has(`${symbol.name}Kernel`) ? kernelSentence(values, symbol.name, checker) : "";
      const sentence = says === "" || isPointer(says) ? kernel || says : kernel === "" ? says : `${says} ${kernel}`;
      return `- \`${symbol.name}${parametersOf(symbol, checker)}\`${mark}${sentence === "" ? "" : `: ${sentence}`}${optionsOf(symbol, checker)}${givenBy(symbol, checker)}`;
    });
  return `### benchfolio/${name}\n\n${lines.join("\n")}`;
}

/** A lifted procedure's docstring points to its kernel, which defines it. */
const isPointer = (sentence: string): boolean => /Kernel/.test(sentence);

function kernelSentence(values: readonly ts.Symbol[], name: string, checker: ts.TypeChecker): string {
  const kernel = values.find((each) => each.name === `${name}Kernel`);
  return kernel === undefined ? "" : firstSentence(kernel, checker);
}

/** The names in a function's options, where it takes any. */
function optionsOf(symbol: ts.Symbol, checker: ts.TypeChecker): string {
  const [signature] = checker.getTypeOfSymbol(symbol).getCallSignatures();
  const last = signature?.getParameters().at(-1);
  if (last === undefined || !/^(options|settings)$/.test(last.name)) return "";
  const names = checker
    .getPropertiesOfType(checker.getNonNullableType(checker.getTypeOfSymbol(last)))
    .map(({ name, flags }) => `\`${name}${flags & ts.SymbolFlags.Optional ? "?" : ""}\``);
  return names.length === 0 ? "" : ` Options: ${names.join(", ")}.`;
}

/** What a function gives, by the names of the result's properties where it is an object of several. */
function givenBy(symbol: ts.Symbol, checker: ts.TypeChecker): string {
  const [signature] = checker.getTypeOfSymbol(symbol).getCallSignatures();
  if (signature === undefined) return "";
  const given = checker.getNonNullableType(signature.getReturnType());
  const item = checker.isArrayType(given) ? checker.getIndexTypeOfType(given, ts.IndexKind.Number) : undefined;
  const type = item ?? given;
  const isOpaque = type.isUnion() || (type.flags & ts.TypeFlags.Object) === 0 || type.getCallSignatures().length > 0;
  if (isOpaque || opaque.has(type.symbol?.name ?? "") || checker.isArrayType(type)) return "";
  const names = checker.getPropertiesOfType(type).map(({ name }) => `\`${name}\``);
  if (names.length === 0 || names.length > 24) return "";
  return ` Gives ${item === undefined ? "" : "a list of "}${names.join(", ")}.`;
}

/** Results whose properties a cell has no use for: they are printed, drawn or returned as they are. */
const opaque = new Set(["Quantity", "Absent", "Count", "Chart", "Table", "Verdict", "ConformityVerdict", "Source", "Link", "Result", "Phrase", "EvidenceStep", "Evidence", "Map", "ReadonlyMap", "Set", "ReadonlySet"]); // prettier-ignore

function parametersOf(symbol: ts.Symbol, checker: ts.TypeChecker): string {
  const type = checker.getTypeOfSymbol(symbol);
  const [signature] = type.getCallSignatures();
  if (signature === undefined) return "";
  const names = signature.getParameters().map((parameter) => {
    const declaration = parameter.valueDeclaration;
    const isOptional =
      declaration !== undefined && ts.isParameter(declaration) && checker.isOptionalParameter(declaration);
    return `${parameter.name.startsWith("__") ? "{ ... }" : parameter.name}${isOptional ? "?" : ""}`;
  });
  return `(${names.join(", ")})`;
}

function exportsOf({ checker }: Sources, file: ts.SourceFile): readonly ts.Symbol[] {
  const module = checker.getSymbolAtLocation(file)!;
  return checker
    .getExportsOfModule(module)
    .map((symbol) => (symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol));
}
