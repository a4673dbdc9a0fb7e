import { dirname, join } from "node:path";
import { createRequire } from "node:module";
import ts from "typescript";
import type { TemplateModules } from "../template-modules.js";

/** A module text with the prelude it sees, checked. */
export interface CheckedModule {
  readonly sourceFile: ts.SourceFile;
  readonly checker: ts.TypeChecker;
  readonly diagnostics: readonly ts.Diagnostic[];
}

/** The compiler, with the declarations that every template shares read and bound once. */
export interface TypeLibrary {
  /**
   * Checks one module.
   * @throws Error where the prelude itself does not check: a fault of this tool, not of the template
   */
  check(moduleText: string, preludeText: string): CheckedModule;
}

export const compilerOptions: ts.CompilerOptions = {
  target: ts.ScriptTarget.ES2022,
  lib: ["lib.es2022.d.ts"],
  module: ts.ModuleKind.ESNext,
  moduleResolution: ts.ModuleResolutionKind.Bundler,
  moduleDetection: ts.ModuleDetectionKind.Force,
  types: [],
  strict: true,
  noUncheckedIndexedAccess: true,
  noImplicitReturns: true,
  erasableSyntaxOnly: true,
  skipLibCheck: true,
  noEmit: true,
};

/** Declarations that are left unread: no type of theirs reaches a cell, and reading them takes longer than the rest. */
const unread = /^(markdown-it|jsdom|node:|typescript|ses)/;

/**
 * Opens the compiler on the modules that cells may import. Everything else stays unresolved. One library serves every
 * template of a process: the first check reads the declarations, later ones only the template.
 *
 * @param internal specifiers for the prelude alone, with their declarations
 */
export function openTypeLibrary(modules: TemplateModules, internal: Readonly<Record<string, string>>): TypeLibrary {
  const libFolder = dirname(createRequire(import.meta.url).resolve("typescript/lib/lib.d.ts"));
  const folder = "/benchfolio-template";
  const moduleFile = `${folder}/template.ts`;
  const preludeFile = `${folder}/prelude.ts`;
  const texts = new Map<string, string>();
  const sourceFiles = new Map<string, ts.SourceFile | undefined>();
  const resolutionCache = ts.createModuleResolutionCache(folder, (name) => name, compilerOptions);
  const declarations = new Map([
    ...Object.entries(modules).map(([specifier, { declarations: file }]) => [specifier, file] as const),
    ...Object.entries(internal),
  ]);
  const readSourceFile = (fileName: string): ts.SourceFile | undefined => {
    const own = texts.get(fileName);
    const text = own ?? ts.sys.readFile(fileName);
    if (text === undefined) return undefined;
    return ts.createSourceFile(
      fileName,
      text,
      {
        languageVersion: ts.ScriptTarget.ES2022,
        impliedNodeFormat: ts.ModuleKind.ESNext,
        jsDocParsingMode: ts.JSDocParsingMode.ParseNone,
        setExternalModuleIndicator: own === undefined ? undefined : forceModule,
      } as ts.CreateSourceFileOptions,
      own !== undefined,
      ts.ScriptKind.TS,
    );
  };
  const host: ts.CompilerHost = {
    getSourceFile: (fileName) => {
      if (!sourceFiles.has(fileName)) sourceFiles.set(fileName, readSourceFile(fileName));
      return sourceFiles.get(fileName);
    },
    fileExists: (fileName) => texts.has(fileName) || ts.sys.fileExists(fileName),
    readFile: (fileName) => texts.get(fileName) ?? ts.sys.readFile(fileName),
    directoryExists: (path) => ts.sys.directoryExists(path),
    getDefaultLibFileName: () => join(libFolder, "lib.es2022.d.ts"),
    getDefaultLibLocation: () => libFolder,
    getCurrentDirectory: () => folder,
    getCanonicalFileName: (fileName) => fileName,
    useCaseSensitiveFileNames: () => true,
    getNewLine: () => "\n",
    writeFile: () => undefined,
    resolveModuleNameLiterals: (literals, containingFile, redirected, options) =>
      literals.map(({ text: specifier }) => {
        const known = declarations.get(specifier);
        if (known !== undefined) return resolved(known);
        if (containingFile.startsWith(`${folder}/`) || unread.test(specifier)) return { resolvedModule: undefined };
        const { resolvedModule } = ts.resolveModuleName(
          specifier,
          containingFile,
          options,
          host,
          resolutionCache,
          redirected,
        );
        return { resolvedModule: resolvedModule?.extension === ts.Extension.Js ? undefined : resolvedModule };
      }),
  };
  let previous: ts.Program | undefined;

  return {
    check: (moduleText, preludeText) => {
      for (const [file, text] of [
        [moduleFile, moduleText],
        [preludeFile, preludeText],
      ] as const) {
        if (texts.get(file) !== text) sourceFiles.delete(file);
        texts.set(file, text);
      }
      const program = ts.createProgram([preludeFile, moduleFile], compilerOptions, host, previous);
      previous = program;
      const sourceFile = program.getSourceFile(moduleFile)!;
      const preludeSource = program.getSourceFile(preludeFile)!;
      const faults = [...program.getSyntacticDiagnostics(preludeSource), ...program.getSemanticDiagnostics(preludeSource)];
      if (faults.length > 0) {
        throw new Error(`the prelude does not check:\n${faults.map((f) => ts.flattenDiagnosticMessageText(f.messageText, "\n")).join("\n")}`);
      }
      const diagnostics = [...program.getSyntacticDiagnostics(sourceFile), ...program.getSemanticDiagnostics(sourceFile)];
      return { sourceFile, checker: program.getTypeChecker(), diagnostics };
    },
  };
}

function forceModule(file: ts.SourceFile): void {
  (file as { externalModuleIndicator?: ts.Node | true }).externalModuleIndicator ??= true;
}

function resolved(fileName: string): ts.ResolvedModuleWithFailedLookupLocations {
  const extension = fileName.endsWith(".d.ts") ? ts.Extension.Dts : ts.Extension.Ts;
  return { resolvedModule: { resolvedFileName: fileName, extension, isExternalLibraryImport: false } };
}
