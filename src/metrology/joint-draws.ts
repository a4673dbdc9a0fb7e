import { drawStandardised } from "./standardised-draw.js";
import type { Quantity } from "./quantity.js";
import { seededRandom } from "./random.js";
import type { Source } from "./source.js";

/**
 * Draws quantities together: every source once a draw, so that what they share moves them all (JCGM 101:2008, 7.2).
 * `visit` gets the values of one draw in the order of the quantities; the array is reused from draw to draw.
 *
 * @throws RangeError where the number of draws is not a whole number of at least 1
 */
export function jointDraws(
  quantities: readonly Quantity[],
  options: { readonly seed: number; readonly draws: number },
  visit: (values: Float64Array, draw: number) => void,
): void {
  if (!(Number.isInteger(options.draws) && options.draws >= 1)) {
    throw new RangeError(`the number of draws is ${options.draws}; it must be a whole number of at least 1`);
  }
  const random = seededRandom(options.seed);
  const place = new Map<string, number>();
  const sources: Source[] = [];
  const weights = quantities.map((quantity) =>
    quantity.components.map(({ source, contribution }) => {
      let index = place.get(source.id);
      if (index === undefined) {
        index = sources.push(source) - 1;
        place.set(source.id, index);
      }
      return [index, contribution] as const;
    }),
  );
  const standardised = new Float64Array(sources.length);
  const values = new Float64Array(quantities.length);
  for (let draw = 0; draw < options.draws; draw++) {
    sources.forEach((source, i) => (standardised[i] = drawStandardised(source, random)));
    quantities.forEach((quantity, i) => {
      let value = quantity.value;
      for (const [index, contribution] of weights[i]!) value += contribution * standardised[index]!;
      values[i] = value;
    });
    visit(values, draw);
  }
}
