import { readFileSync } from "node:fs";
import ts from "typescript";

/** A kernel as its docstring describes it. */
export interface Procedure {
  readonly kernel: string;
  /** Name of the lifted form, or undefined where there is none. */
  readonly lifted: string | undefined;
  readonly topic: string;
  readonly definition: string;
  readonly source: string;
}

const root = new URL("../../src/statistics/", import.meta.url);

/** Every kernel that the index exports, in the index's order, with what its docstring says. */
export function readProcedures(): readonly Procedure[] {
  const index = readFileSync(new URL("index.ts", root), "utf8");
  const exported = [...index.matchAll(/export \{([^}]*)\} from "\.\/([^"]+)\.js";/g)].flatMap((match) =>
    match[1]!
      .split(",")
      .map((name) => name.trim())
      .filter((name) => name !== "")
      .map((name) => ({ name, file: `${match[2]!}.ts` })),
  );
  const names = new Set(exported.map(({ name }) => name));
  return exported
    .filter(({ name }) => name.endsWith("Kernel"))
    .map(({ name, file }) => {
      const lifted = name.replace(/Kernel$/, "");
      return {
        kernel: name,
        lifted: names.has(lifted) ? lifted : undefined,
        topic: file.split("/")[0]!,
        ...readDocstring(file, name),
      };
    });
}

function readDocstring(file: string, name: string): { readonly definition: string; readonly source: string } {
  const text = readFileSync(new URL(file, root), "utf8");
  const tree = ts.createSourceFile(file, text, ts.ScriptTarget.ES2022, true);
  const declaration = tree.statements.find(
    (statement) => ts.isFunctionDeclaration(statement) && statement.name?.text === name,
  );
  if (declaration === undefined) throw new Error(`${file} declares no function ${name}`);
  const comment = ts.getLeadingCommentRanges(text, declaration.getFullStart())?.at(-1);
  if (comment === undefined) throw new Error(`${name} in ${file} has no docstring`);
  const lines = text
    .slice(comment.pos, comment.end)
    .replace(/^\/\*\*|\*\/$/g, "")
    .split("\n")
    .map((line) => line.replace(/^\s*\*? ?/, "").trim());
  const tag = lines.findIndex((line) => line.startsWith("@") || line.startsWith("Source:"));
  const at = lines.findIndex((line) => line.startsWith("Source:"));
  if (tag < 0 || at < 0) throw new Error(`the docstring of ${name} in ${file} names no source`);
  const definition = lines.slice(0, tag).join(" ").trim();
  return {
    definition: definition.split(/(?<=[a-zA-Z0-9)²'])\. (?=[A-Z])/)[0]!.replace(/\.$/, ""),
    source: lines
      .slice(at)
      .join(" ")
      .trim()
      .replace(/^Source: /, "")
      .replace(/\.$/, ""),
  };
}
