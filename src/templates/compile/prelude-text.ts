import type { ParsedTemplate } from "../parse/parse-template.js";
import type { Prelude, SubjectScope } from "../prelude.js";

/** Declarations of what the wrappers name, by the specifier that the prelude alone can import. */
export const internalTypes = {
  Chart: "benchfolio:figures/chart",
  Table: "benchfolio:figures/table",
  Verdict: "benchfolio:metrology/verdict",
  Printable: "benchfolio:templates/outcome",
  Reference: "benchfolio:templates/outcome",
} as const;

/** Ids that `see` may point to: those of figures, tables and criteria. */
export function referenceIds(template: ParsedTemplate): readonly string[] {
  return template.cells.flatMap(({ role, id }) => (role === "work" || id === null ? [] : [id]));
}

/**
 * The file that puts a subject's names and the common words in scope, as globals: a template's own declarations win over
 * them, and no line of the template moves.
 */
export function preludeText(template: ParsedTemplate, prelude: Prelude, scope: SubjectScope): string {
  const ids = referenceIds(template).map((id) => JSON.stringify(id));
  const types = Object.entries(internalTypes).map(([name, from]) => `type ${name} = import("${from}").${name};`);
  const words = Object.entries(prelude.words).flatMap(([module, names]) =>
    names.map((name) => `const ${name}: typeof import("${module}").${name};`),
  );
  const subject = scope.names.map((name) => `const ${name}: import("${scope.module}").${scope.type}["${name}"];`);
  const see = `const see: (target: ${ids.length === 0 ? "never" : ids.join(" | ")}) => __benchfolio.Reference;`;
  return `export {};
declare global {
namespace __benchfolio {
${types.join("\n")}
}
${[...words, ...subject, see].join("\n")}
}
`;
}
