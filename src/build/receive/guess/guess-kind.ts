import type { TableKind } from "../columns.js";
import { kindOfUnit, unitInHeader } from "../unit-words.js";
import type { ColumnLook } from "./column-shape.js";
import { lookAtPair } from "./column-shape.js";
import type { Sureness } from "./decision.js";
import { rolesOfName, wordsOfName } from "./name-words.js";

/** Which table a file looks like. */
export interface KindGuess {
  readonly kind: TableKind;
  readonly sureness: Sureness;
  readonly reason: string;
}

/** By the names and units of measure of the columns; by their shapes where these say nothing. */
export function kindOfColumns(columns: readonly ColumnLook[]): KindGuess {
  const units = columns.map(({ name }) => unitInHeader(name)).filter((unit) => unit !== undefined);
  const has = (kind: ReturnType<typeof kindOfUnit>): boolean => units.some((unit) => kindOfUnit(unit) === kind);
  const named = (role: Parameters<typeof rolesOfName>[1][number]): boolean =>
    columns.some(({ name, numbers }) => numbers !== null && rolesOfName(name, [role]).length > 0);
  if (has("length") && has("force")) return { kind: "force", sureness: "sure", reason: "columns are in units of length and of force" }; // prettier-ignore
  if (named("displacement") && named("force")) return { kind: "force", sureness: "sure", reason: "columns are named after displacement and force" }; // prettier-ignore
  const isWhole = (role: "contact_frame" | "response_frame"): boolean =>
    columns.some(({ name, isWhole }) => isWhole && rolesOfName(name, [role]).length > 0);
  const saysFrames = has("frames") || columns.some(({ name }) => wordsOfName(name).some((word) => /^(frames?|bild|bilder|image|cadre|fotograma)$/u.test(word))); // prettier-ignore
  if (isWhole("contact_frame") && isWhole("response_frame")) {
    return { kind: "presses", sureness: saysFrames ? "sure" : "likely", reason: "columns of whole numbers are named after contact and response" }; // prettier-ignore
  }
  if (named("start") && named("arrival")) {
    return {
      kind: "timings",
      sureness: has("time") ? "sure" : "likely",
      reason: "columns are named after start and arrival",
    };
  }
  const numeric = columns.filter(
    ({ numbers, isMonotone, words }) => numbers !== null && !isMonotone && words.length > 2,
  );
  const moves = numeric.some((a) => numeric.some((b) => a !== b && lookAtPair(a.numbers!, b.numbers!) !== undefined));
  return moves
    ? {
        kind: "force",
        sureness: "likely",
        reason: "one column of numbers rises along another, as force along displacement",
      }
    : { kind: "force", sureness: "unsure", reason: "neither names nor shapes say what these columns are" };
}
