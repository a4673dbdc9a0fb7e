import ts from "typescript";

/** A cell or expression parsed alone, before it is put among the others. */
export interface Snippet {
  readonly sourceFile: ts.SourceFile;
  readonly faults: readonly ts.DiagnosticWithLocation[];
}

/** Parses a text as a module of its own, so that nothing in it can close what will be put around it. */
export function parseSnippet(text: string): Snippet {
  const sourceFile = ts.createSourceFile(
    "snippet.ts",
    text,
    {
      languageVersion: ts.ScriptTarget.ES2022,
      impliedNodeFormat: ts.ModuleKind.ESNext,
      jsDocParsingMode: ts.JSDocParsingMode.ParseNone,
      setExternalModuleIndicator: markAsModule,
    },
    true,
    ts.ScriptKind.TS,
  );
  // The compiler's public interface gives syntax errors only of whole programs.
  const { parseDiagnostics } = sourceFile as unknown as { parseDiagnostics: readonly ts.DiagnosticWithLocation[] };
  return { sourceFile, faults: parseDiagnostics };
}

/** Makes a file a module whether or not it imports anything: its names are its own, and `await` is a keyword. */
export function markAsModule(file: ts.SourceFile): void {
  (file as { externalModuleIndicator?: ts.Node | true }).externalModuleIndicator ??= true;
}

/** Stretches between tokens that hold comments, as [start, end] offsets; never inside a text or a pattern. */
export function commentRanges(sourceFile: ts.SourceFile): readonly (readonly [number, number])[] {
  const ranges: (readonly [number, number])[] = [];
  const visit = (node: ts.Node): void => {
    const children = node.getChildren(sourceFile);
    if (children.length > 0) {
      children.forEach(visit);
      return;
    }
    const start = node.getFullStart();
    const end = node.getStart(sourceFile, false);
    if (sourceFile.text.slice(start, end).trim() !== "") ranges.push([start, end]);
  };
  visit(sourceFile);
  return ranges;
}

/** Puts spaces in place of everything in the ranges but line ends, so that every other character keeps its place. */
export function blankRanges(text: string, ranges: readonly (readonly [number, number])[]): string {
  let out = "";
  let from = 0;
  for (const [start, end] of [...ranges].sort((a, b) => a[0] - b[0])) {
    if (start < from) continue;
    out += text.slice(from, start) + text.slice(start, end).replace(/[^\n]/g, " ");
    from = end;
  }
  return out + text.slice(from);
}
