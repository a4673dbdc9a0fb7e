import { isQuantity, printQuantity, verdictWord } from "../metrology/index.js";
import type { ChangeFacts } from "./change-summary.js";
import { summariseChange } from "./change-summary.js";

/**
 * A change note as Markdown to paste elsewhere, a line a string: the summary's paragraphs, a table of the mean changes, and
 * what is still open. It says what `summariseChange` says, no more. Characters that Markdown would take for markup in names
 * are escaped.
 */
export function changeNote(facts: ChangeFacts): readonly string[] {
  const rows = facts.values.map(({ name, bias, verdict, pairs }) => {
    const change = isQuantity(bias) ? printQuantity(bias).text : `not available: ${bias.reason}`;
    return `| ${plain(name)} | ${plain(change)} | ${verdictWord(verdict)} | ${pairs} |`;
  });
  const table =
    rows.length === 0
      ? []
      : [
          `| Published value | Mean change | Verdict | ${capital(facts.noun)}s |`,
          "| --- | --- | --- | --- |",
          ...rows,
          "",
        ];
  const open = [
    ...facts.units.pending.map((unit) => `- ${plain(unit)}: to be measured again by ${plain(facts.to)}`),
    ...facts.units.outOfReach.map((unit) => `- ${plain(unit)}: old method only; keep, mark or withdraw its result`),
  ];
  return [
    `## Change of method: ${plain(facts.from)} to ${plain(facts.to)}`,
    "",
    ...summariseChange(facts).flatMap(({ subject, text }) => [`**${subject}.** ${plain(text)}`, ""]),
    ...table,
    "The number after ± is the expanded uncertainty for a level of confidence of 95 %.",
    ...(open.length === 0 ? [] : ["", "Open:", "", ...open]),
  ];
}

function capital(word: string): string {
  return word.charAt(0).toUpperCase() + word.slice(1);
}

/** Text that Markdown leaves alone. */
function plain(text: string): string {
  return text.replace(/[\\`*_[\]<>|#]/g, (character) => `\\${character}`);
}
