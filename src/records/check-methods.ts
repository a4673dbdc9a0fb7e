import type { Method } from "./archive.js";
import type { ProblemCollector } from "./problem-collector.js";
import type { Described } from "./read-description.js";

/** Checks what methods say about the versions they replace. */
export function checkMethods(
  methods: readonly Described<Method>[],
  known: readonly string[],
  problems: ProblemCollector,
): void {
  const byId = new Map(methods.map((method) => [method.value.id, method.value]));
  const inCircle = new Set<string>();
  for (const { value, view } of methods) {
    if (value.replaces === undefined) continue;
    const place = view.placeOf("replaces");
    if (!known.includes(value.replaces)) {
      problems.add("E_REPLACES_UNKNOWN", place, {
        found: value.replaces,
        names: known.filter((id) => id !== value.id),
        hint: "add that method to methods/ too; where it was never used here, remove `replaces`",
      });
    } else if ((byId.get(value.replaces)?.kind ?? value.kind) !== value.kind) {
      problems.add("E_REPLACES_KIND", place, { found: value.replaces, expected: value.kind });
    } else if (!inCircle.has(value.id)) {
      const circle = circleFrom(value, byId);
      if (circle === undefined) continue;
      circle.forEach((id) => inCircle.add(id));
      problems.add("E_REPLACES_CIRCULAR", place, {
        found: [...circle, value.id].join(", "),
        expected: "a first version",
      });
    }
  }
}

/** The ids from a method along `replaces` back to itself; undefined where the way ends or enters a circle elsewhere. */
function circleFrom(method: Method, byId: ReadonlyMap<string, Method>): readonly string[] | undefined {
  const way = [method.id];
  for (let next = method.replaces; next !== undefined; next = byId.get(next)?.replaces) {
    if (next === method.id) return way;
    if (way.includes(next)) return undefined;
    way.push(next);
  }
  return undefined;
}
