import { closest } from "fastest-levenshtein";

/**
 * Refuses options that nobody reads, since a misspelt option would otherwise change nothing in silence.
 * @param given an object of options
 * @param known the names that are read
 * @param where whose options they are, for the message: "interval chart"
 * @throws RangeError that names the unknown option and the nearest known one
 */
export function checkOptions(given: object, known: readonly string[], where: string): void {
  for (const name of Object.keys(given)) {
    if (known.includes(name)) continue;
    throw new RangeError(`the ${where} has no option "${name}"; did you mean "${closest(name, known)}"?`);
  }
}
