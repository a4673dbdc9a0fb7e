import { problemCatalogue } from "../../src/records/index.js";

/** The page of every code that a check can report, from the catalogue in the code. */
export function renderProblemDocs(): string {
  const rows = (severity: "error" | "warning"): string =>
    problemCatalogue
      .filter((entry) => entry.severity === severity)
      .map(({ code, explanation, hint }) => `| \`${code}\` | ${cell(explanation)} | ${cell(hint)} |`)
      .join("\n");
  const head = "| code | what is wrong | what to do |\n| --- | --- | --- |";
  return `# Problems of an archive

Written by \`npm run problem-docs\` from the code; a test compares, so do not edit it by hand. \`benchfolio check --codes\` prints the
same list. Codes of templates are in [templates.md](templates.md); every file, key and column is in [formats.md](formats.md).

## Errors

With an error the archive is not fit for results: nothing is drafted.

${head}
${rows("error")}

## Warnings

The archive can be used, and the pages say so.

${head}
${rows("warning")}
`;
}

function cell(text: string): string {
  return text.replaceAll("|", "\\|").replaceAll("\n", " ").replaceAll("<", "&lt;");
}
