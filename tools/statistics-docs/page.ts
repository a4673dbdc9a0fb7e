import type { Agreement } from "./agreement.js";
import type { Procedure } from "./procedures.js";

const topics: Readonly<Record<string, string>> = {
  describe: "Describe",
  intervals: "Bound",
  outliers: "Outliers",
  variance: "Where variance comes from",
  agreement: "Agreement of two methods",
  tests: "Tests",
  time: "Time",
  distribution: "Distributions of latency",
};

const escape = (text: string): string => text.replaceAll("|", "\\|");

/** The page docs/statistics.md from docstrings and stored agreement. */
export function renderPage(
  procedures: readonly Procedure[],
  agreement: readonly Agreement[],
  independent: Readonly<Record<string, string>>,
): string {
  const of = (kernel: string, kind: Agreement["kind"]): Agreement | undefined =>
    agreement.find((entry) => entry.kernel === kernel && entry.kind === kind);
  const order = Object.keys(topics);
  const sorted = [...procedures].sort((a, b) => order.indexOf(a.topic) - order.indexOf(b.topic));
  const rows = sorted.map((procedure, i) => {
    const published = of(procedure.kernel, "published");
    const computed = of(procedure.kernel, "computed");
    const check =
      published === undefined
        ? `none printed; ${independent[procedure.kernel] ?? "no check"}`
        : `${published.sources.join("; ")}: ${published.values} value${published.values === 1 ? "" : "s"} within the printed digits`;
    const topic =
      i === 0 || sorted[i - 1]!.topic !== procedure.topic ? `**${topics[procedure.topic] ?? procedure.topic}**` : "";
    const functions = [
      ...(procedure.lifted === undefined ? [] : [`\`${procedure.lifted}\``]),
      `\`${procedure.kernel}\``,
    ];
    const digits = [
      ...(published === undefined ? [] : [`source ${published.digits}`]),
      ...(computed === undefined ? [] : [`${computed.sources.map(programOf).join(", ")} ${computed.digits}`]),
    ];
    return [
      topic,
      escape(procedure.definition),
      functions.join(", "),
      escape(procedure.source),
      escape(check),
      digits.join("; "),
    ];
  });
  return `# Statistics

<!-- Written by tools/statistics-docs/main.ts from the docstrings and tests/reference/statistics-agreement.json: do not edit. -->

Each procedure is one kernel on plain arrays and, where that makes sense, its lifted form: a function of items and an accessor
that gives measured values, which returns quantities with symbol, components of uncertainty and evidence. A kernel refuses NaN
and unknown options, and says what is needed where there are too few values; the lifted form is then absent with that reason.
Random numbers are seeded.

*Digits agreed* are whole significant digits, the fewest over all values compared: against the named source, which is limited
by the digits that it prints, and against another program over random inputs. Seeded simulations agree within their Monte Carlo
error, 1 or 2 digits. \`tools/accuracy\` prints the digits reached on the StRD data sets beside the ceiling of exact arithmetic, and
\`tools/test-size\` the sizes of tests and the coverages of intervals over 5,000 seeded runs. What whole reports claim by them is counted in
[claims.md](claims.md).

| | procedure | functions | source | checked against | digits agreed |
| --- | --- | --- | --- | --- | --- |
${rows.map((row) => `| ${row.join(" | ")} |`).join("\n")}
`;
}

function programOf(made: string): string {
  return made.startsWith("R ") ? "R" : "SciPy";
}
