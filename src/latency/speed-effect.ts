import { divisorOf } from "../metrology/source.js";
import type { Source } from "../metrology/source.js";
import type { LatencyContext } from "./context.js";
import { sessionPath } from "./context.js";

/** Share of the pre-travel, as a half-width, for each factor of ten between the two speeds. */
const defaultPerDecade = 0.01;
/** Factors of ten assumed where the tester's speed is not recorded: 0.1 mm/s against 100 mm/s. */
const assumedDecades = 3;

/**
 * What pressing some hundred times faster than the tester may do to the pre-travel, type B: a rectangular share of it,
 * by default ±1 % for each factor of ten. Peak force of some kinds of key is known to rise by over 12 % from 0.5 to 80
 * mm/s (Nagurka and Marklin 2005); for the actuation position no figure is published, hence a stated assumption.
 *
 * @param speedMmPerS the plunger's
 * @returns source per factor of ten, and the number of them; a contribution is travel time x decades x u
 */
export function speedEffect(
  speedMmPerS: number,
  context: LatencyContext,
): { readonly source: Source; readonly decades: number; readonly warnings: readonly string[] } {
  const perDecade = context.speedEffectPerDecade ?? defaultPerDecade;
  if (!(perDecade >= 0)) throw new RangeError(`the speed effect is ${perDecade} per decade; it must be at least 0`);
  const tester = context.testerSpeed?.value;
  const known = tester !== undefined && tester > 0;
  return {
    source: {
      id: `${sessionPath(context)}/speed-effect`,
      label: "Pre-travel at plunger speed against tester speed (assumed)",
      type: "B",
      distribution: "rectangular",
      u: perDecade / divisorOf("rectangular"),
      symbol: "1",
      dof: Infinity,
    },
    decades: known ? Math.abs(Math.log10(speedMmPerS / tester)) : assumedDecades,
    warnings: known ? [] : [`the tester's speed is not recorded: ${assumedDecades} factors of ten are assumed`],
  };
}
