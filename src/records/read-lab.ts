import type { Lab, Stated } from "./archive.js";
import { camelCase, characteristics } from "./characteristics.js";
import type { Described, ReadingContext } from "./read-description.js";
import { readDescription } from "./read-description.js";
import { readLimits } from "./read-limits.js";
import { labSchema } from "./schemas/lab.js";
import type { YamlView } from "./yaml-view.js";
import { notRecorded } from "./yaml-view.js";

export const labFile = "lab.yaml";

/** What stands for the lab where lab.yaml cannot be read; the problems say why. */
export const unreadLab: Lab = {
  name: notRecorded,
  address: notRecorded,
  contact: notRecorded,
  customer: notRecorded,
  roles: {},
  statements: {},
  smallestChange: {},
  effort: {},
  limits: [],
  numbering: {},
};

/** Reads lab.yaml; undefined, with problems, where it does not fit. */
export function readLab(context: ReadingContext): Described<Lab> | undefined {
  const view = readDescription(context, labFile, labSchema);
  if (view === undefined) return undefined;
  const value: Lab = {
    name: view.text("name"),
    address: view.text("address", notRecorded),
    contact: view.text("contact", notRecorded),
    customer: view.text("customer", notRecorded),
    roles: view.textMap("roles"),
    statements: view.textMap("statements"),
    smallestChange: readChanges(view.child("smallest_change")),
    effort: readEffort(view.child("effort")),
    limits: readLimits(view, context.problems),
    numbering: view.textMap("numbering"),
  };
  return { value, view };
}

function readChanges(view: YamlView | undefined): Readonly<Record<string, Stated>> {
  const stated = characteristics.flatMap(({ name, property, symbol }) => {
    const change = view?.stated(name, symbol);
    return change === undefined ? [] : [[property, change] as const];
  });
  return Object.fromEntries(stated);
}

/** The keys of `effort` end with a unit of time; the schema knows the stems. */
function readEffort(view: YamlView | undefined): Readonly<Record<string, Stated<"min">>> {
  const stated = (view?.keys ?? []).map((key) => {
    const stem = key.slice(0, key.lastIndexOf("_"));
    return [camelCase(stem), view!.required(stem, "min")] as const;
  });
  return Object.fromEntries(stated);
}
