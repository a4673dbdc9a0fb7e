import { kindOfUnit, unitInHeader } from "../unit-words.js";
import type { ColumnLook, PairLook } from "./column-shape.js";
import { lookAtPair } from "./column-shape.js";
import type { Sureness } from "./decision.js";
import { rolesOfName } from "./name-words.js";

/** The two measured columns of a force table. */
export interface ForcePair {
  readonly displacement: MeasuredGuess;
  readonly force: MeasuredGuess;
  /** Undefined where the columns hold no press as they stand. */
  readonly look: PairLook | undefined;
}

export interface MeasuredGuess {
  readonly column: ColumnLook;
  readonly sureness: Sureness;
  readonly reason: string;
  readonly unit: { readonly name: string; readonly sureness: Sureness; readonly reason: string };
}

interface Candidate {
  readonly displacement: ColumnLook;
  readonly force: ColumnLook;
  readonly look: PairLook | undefined;
  /** Words and units of measure that speak for it, less those that speak against it. */
  readonly named: number;
}

/**
 * The columns that look like displacement and force: by their names and units of measure first, by their shapes where
 * these say nothing. Shapes: the force rises along the displacement, and the displacement, which a drive moves, goes back
 * less often than the force, which is measured. Undefined where no two columns of numbers are left.
 *
 * @param unitOf unit of measure that the file states for a column, outside its name
 */
export function guessForcePair(
  columns: readonly ColumnLook[],
  unitOf: (column: ColumnLook) => string | undefined,
): ForcePair | undefined {
  const numeric = columns.filter(({ numbers, words }) => numbers !== null && words.length > 2);
  const candidates = numeric.flatMap((displacement) =>
    numeric.flatMap((force): readonly Candidate[] => {
      if (displacement === force) return [];
      const named =
        speaksFor(displacement, "displacement", "length", unitOf) + speaksFor(force, "force", "force", unitOf);
      return [{ displacement, force, named, look: lookAtPair(displacement.numbers!, force.numbers!) }];
    }),
  );
  const ranked = candidates.sort(compareCandidates);
  const best = ranked[0];
  if (best === undefined) return undefined;
  const swapped = ranked.find(({ displacement, force }) => displacement === best.force && force === best.displacement);
  return {
    look: best.look,
    displacement: measured(best, swapped, "displacement", unitOf),
    force: measured(best, swapped, "force", unitOf),
  };
}

/** Names decide; then whether there is a press at all; then who goes back less, columns in file order where equal. */
function compareCandidates(a: Candidate, b: Candidate): number {
  if (a.named !== b.named) return b.named - a.named;
  if ((a.look === undefined) !== (b.look === undefined)) return a.look === undefined ? 1 : -1;
  const [backA, backB] = [a.look?.backShare ?? 1, b.look?.backShare ?? 1];
  // A column that never goes back at all, press or release, is a clock.
  const clockA = Number(a.displacement.isMonotone || a.force.isMonotone);
  const clockB = Number(b.displacement.isMonotone || b.force.isMonotone);
  return clockA - clockB || backA - backB || a.displacement.position - b.displacement.position;
}

function speaksFor(
  column: ColumnLook,
  role: "displacement" | "force",
  kind: "length" | "force",
  unitOf: (column: ColumnLook) => string | undefined,
): number {
  const roles = rolesOfName(column.name, ["displacement", "force", "time", "index", "cycle", "contact"]);
  const unit = unitInHeader(column.name) ?? unitOf(column);
  const byName = roles[0] === role ? 2 : roles.length > 0 && !roles.includes(role) ? -2 : 0;
  const byUnit = unit === undefined ? 0 : kindOfUnit(unit) === kind ? 2 : -4;
  return byName + byUnit;
}

function measured(
  best: Candidate,
  swapped: Candidate | undefined,
  role: "displacement" | "force",
  unitOf: (column: ColumnLook) => string | undefined,
): MeasuredGuess {
  const column = best[role];
  const kind = role === "force" ? "force" : "length";
  const inHeader = unitInHeader(column.name);
  const stated = inHeader ?? unitOf(column);
  const isStated = stated !== undefined && kindOfUnit(stated) === kind;
  const isNamed = rolesOfName(column.name, ["displacement", "force"])[0] === role;
  const shape = shapeReason(best, swapped, role);
  const [sureness, reason] = ((): readonly [Sureness, string] => {
    if (best.look === undefined) return ["unsure", "no press shows in these columns; are two of them exchanged?"];
    if (isNamed || isStated) return [isNamed && isStated ? "sure" : "likely", `its ${isNamed ? "name" : "unit of measure"} says so, and ${shape.text}`]; // prettier-ignore
    return [shape.isClear ? "likely" : "unsure", `no name says so, but ${shape.text}`];
  })();
  const unit = isStated
    ? {
        name: stated,
        sureness: "sure" as const,
        reason: inHeader === undefined ? "the file states it apart from the name" : "the column's name states it",
      }
    : unitByMagnitude(best.look, role);
  return { column, sureness, reason, unit };
}

function shapeReason(
  best: Candidate,
  swapped: Candidate | undefined,
  role: "displacement" | "force",
): { readonly text: string; readonly isClear: boolean } {
  if (role === "force")
    return { text: `it rises along ${describe(best.displacement)}`, isClear: isClearer(best, swapped) };
  const back = Math.round(100 * (best.look?.backShare ?? 1));
  return { text: `it moves steadily (${back} % of its steps in a press go back)`, isClear: isClearer(best, swapped) };
}

function isClearer(best: Candidate, swapped: Candidate | undefined): boolean {
  if (best.look === undefined) return false;
  return swapped?.look === undefined || swapped.look.backShare > 2 * best.look.backShare + 0.02;
}

/** What a message calls a column. */
export function describe(column: ColumnLook): string {
  return column.name === "" ? `column ${column.position + 1}` : `\`${column.name}\``;
}

/** What a key can be, by its travel and its largest force; some units of measure cannot be told apart by that. */
function unitByMagnitude(look: PairLook | undefined, role: "displacement" | "force"): MeasuredGuess["unit"] {
  const value = role === "displacement" ? look?.range : look?.largest;
  if (value === undefined)
    return { name: role === "displacement" ? "mm" : "cN", sureness: "unsure", reason: "nothing states it" };
  const shown = Number(value.toPrecision(3));
  if (role === "displacement") {
    const name = value < 0.25 ? "in" : value < 60 ? "mm" : "um";
    return {
      name,
      sureness: "likely",
      reason: `nothing states it, but a press of ${shown} is a key's in ${name} only`,
    };
  }
  if (value < 10) return { name: "N", sureness: "likely", reason: `nothing states it, but a largest force of ${shown} is a key's in N only` }; // prettier-ignore
  if (value > 1500) return { name: "mN", sureness: "likely", reason: `nothing states it, but a largest force of ${shown} is a key's in mN only` }; // prettier-ignore
  return { name: "gf", sureness: "unsure", reason: `nothing states it: a largest force of ${shown} could be in gf or cN, which differ by 2 %` }; // prettier-ignore
}
