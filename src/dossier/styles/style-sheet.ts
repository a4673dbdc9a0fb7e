import { baseStyles } from "./base.js";
import { bodyStyles } from "./body-styles.js";
import { narrowStyles } from "./narrow-styles.js";
import { notesStyles } from "./notes-styles.js";
import type { RunningTexts } from "./print-styles.js";
import { printStyles } from "./print-styles.js";
import { tableStyles } from "./table-styles.js";
import { titleBlockStyles } from "./title-block-styles.js";

/**
 * The page's one style sheet: the figures' rules, then the page's own, then paper with its running texts.
 * @throws RangeError where the figures' rules could close the style element
 */
export function styleSheet(figureStyles: string, running: RunningTexts): string {
  if (/<\/|<!--/.test(figureStyles)) throw new RangeError("the figures' styles hold markup; they must be plain rules");
  return [
    figureStyles,
    baseStyles,
    titleBlockStyles,
    bodyStyles,
    notesStyles,
    tableStyles,
    narrowStyles,
    printStyles(running),
  ]
    .map((part) => part.trim())
    .join("\n");
}
