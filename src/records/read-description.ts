import type { Validator } from "./description-validator.js";
import { createValidators } from "./description-validator.js";
import { reportSchemaErrors } from "./description-problems.js";
import type { ProblemCollector } from "./problem-collector.js";
import type { SizeLimits } from "./read-source.js";
import { readSource } from "./read-source.js";
import type { DescriptionSchema } from "./schemas/description-schema.js";
import type { YamlDocument } from "./yaml-document.js";
import { parseYaml } from "./yaml-document.js";
import { YamlView } from "./yaml-view.js";

/** What the readers of one archive share while they read. */
export interface ReadingContext {
  /** Real path of the archive's folder. */
  readonly root: string;
  readonly limits: SizeLimits;
  readonly problems: ProblemCollector;
  readonly validatorOf: (schema: DescriptionSchema) => Validator;
}

export function readingContext(root: string, limits: SizeLimits, problems: ProblemCollector): ReadingContext {
  return { root, limits, problems, validatorOf: createValidators() };
}

/** A description as the reader understood it, with the view that knows its places. */
export interface Described<T> {
  readonly value: T;
  readonly view: YamlView;
}

/** Reads and parses one YAML file; undefined, with problems, where it cannot be parsed. */
export function openDescription(context: ReadingContext, file: string): YamlDocument | undefined {
  const source = readSource(context.root, file, context.limits.yamlBytes, context.problems);
  return source && parseYaml(source, context.problems);
}

/** The view of a description that fits its schema; undefined, with every misfit as a problem, where it does not. */
export function fitDescription(
  context: ReadingContext,
  document: YamlDocument,
  schema: DescriptionSchema,
): YamlView | undefined {
  const errors = context.validatorOf(schema)(document.data);
  if (errors !== null) {
    reportSchemaErrors(document, errors, context.problems);
    return undefined;
  }
  return document.unreadable.length > 0 ? undefined : new YamlView(document);
}

/** Opens and fits in one step. */
export function readDescription(
  context: ReadingContext,
  file: string,
  schema: DescriptionSchema,
): YamlView | undefined {
  const document = openDescription(context, file);
  return document && fitDescription(context, document, schema);
}

/** Reports an id that differs from the folder's or file's name. */
export function checkId(context: ReadingContext, view: YamlView, expected: string, name = "id"): void {
  const found = view.text(name);
  if (found !== expected) context.problems.add("E_ID_PATH", view.placeOf(name), { found, expected });
}
