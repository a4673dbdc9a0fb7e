import { isConvertible, suffixesFor, symbolOfSuffix } from "../metrology/units.js";
import type { Limit, Stated, SwitchKind } from "./archive.js";
import { characteristicOf } from "./characteristics.js";
import type { ProblemCollector } from "./problem-collector.js";
import { limitParts } from "./schemas/limit.js";
import type { YamlView } from "./yaml-view.js";

/** Reads the limits under `limits`; a limit without numbers, with numbers of another kind or out of order is reported. */
export function readLimits(view: YamlView, problems: ProblemCollector): readonly Limit[] {
  return view.children("limits").map((limit) => readLimit(limit, problems));
}

function readLimit(view: YamlView, problems: ProblemCollector): Limit {
  const characteristic = characteristicOf(view.text("characteristic"))!; // the schema's format has made sure of it
  const parts: Partial<Record<(typeof limitParts)[number], Stated>> = {};
  for (const part of limitParts) {
    const name = view.measureName(part, "any");
    if (name === undefined) continue;
    if (isConvertible(symbolOfSuffix.get(name.slice(part.length + 1))!, characteristic.symbol)) {
      const value = view.converted(name, part, characteristic.symbol);
      parts[part] = { value, symbol: characteristic.symbol, evidence: view.evidenceOf(name) };
    } else {
      const expected = suffixesFor(characteristic.symbol).map((suffix) => `${part}_${suffix}`);
      problems.add("E_SUFFIX_WRONG", view.placeOfKey(name), { found: name, expected: expected.join(", ") });
    }
  }
  checkOrder(view, parts, problems);
  const pressSpeed = view.stated("press_speed", "mm/s");
  return {
    characteristic: characteristic.property,
    ...parts,
    binds: view.choice<Limit["binds"]>("binds"),
    force: view.choice<Limit["force"]>("force"),
    source: view.text("source"),
    ...(pressSpeed && { pressSpeed }),
    ...(view.has("switch_kinds") && { switchKinds: view.texts("switch_kinds") as readonly SwitchKind[] }),
    evidence: view.evidence,
  };
}

function checkOrder(view: YamlView, parts: Partial<Record<string, Stated>>, problems: ProblemCollector): void {
  const given = limitParts.filter((part) => view.measureName(part, "any") !== undefined);
  if (given.length === 0) {
    problems.add("E_LIMIT_EMPTY", view.place, { found: view.text("characteristic"), expected: limitParts.join(", ") });
  }
  const known = given.filter((part) => parts[part] !== undefined);
  const values = known.map((part) => parts[part]!.value);
  const falls = values.findIndex((value, i) => i > 0 && !(value >= values[i - 1]!));
  if (falls === -1) return;
  const name = view.measureName(known[falls]!, "any")!;
  problems.add("E_LIMIT_ORDER", view.placeOfKey(name), {
    found: known.map((part, i) => `${part} ${values[i]}`).join(", "),
    expected: "ascending order",
  });
}
