import { suffixOfSymbol } from "../../src/metrology/units.js";
import { characteristics } from "../../src/records/characteristics.js";
import { acceptedSuffixes } from "../../src/records/measure-names.js";
import { baselineSchema } from "../../src/records/schemas/baseline.js";
import { checksSchema } from "../../src/records/schemas/checks.js";
import type { DescriptionSchema, MeasureRule } from "../../src/records/schemas/description-schema.js";
import { identifier } from "../../src/records/schemas/description-schema.js";
import { filmsSchema } from "../../src/records/schemas/films.js";
import { forceSchema } from "../../src/records/schemas/force.js";
import { labSchema } from "../../src/records/schemas/lab.js";
import { methodSchemas } from "../../src/records/schemas/methods.js";
import { pressesSchema } from "../../src/records/schemas/presses.js";
import { readingsSchema } from "../../src/records/schemas/readings.js";
import { calibrationTerms, rigSchema } from "../../src/records/schemas/rig.js";
import { sessionSchema } from "../../src/records/schemas/session.js";
import { studySchema } from "../../src/records/schemas/study.js";
import type { TableField, TableSchema } from "../../src/records/schemas/table-schema.js";
import { timingsSchema } from "../../src/records/schemas/timings.js";
import { unitSchema } from "../../src/records/schemas/unit.js";
import type { Meanings } from "./meanings.js";
import * as meanings from "./meanings.js";
import * as words from "./words.js";

/** The page of every file of an archive with its keys and columns, from the schemas that a check holds them against. */
export function renderFormatDocs(): string {
  return [
    words.opening,
    words.lab,
    description(labSchema, meanings.labMeanings),
    words.unit,
    description(unitSchema, meanings.unitMeanings),
    words.session,
    description(sessionSchema, meanings.sessionMeanings),
    words.force,
    table(forceSchema),
    words.presses,
    table(pressesSchema),
    words.films,
    table(filmsSchema),
    words.baseline,
    table(baselineSchema),
    words.timings,
    table(timingsSchema),
    words.keystrokeMethod,
    description(methodSchemas.keystroke, meanings.keystrokeMeanings),
    words.latencyMethod,
    description(methodSchemas.latency, meanings.latencyMeanings),
    words.scoringMethod,
    description(methodSchemas.scoring, meanings.scoringMeanings),
    words.rig,
    description(rigSchema, meanings.rigMeanings),
    words.terms,
    termList(),
    words.checks,
    table(checksSchema),
    words.study,
    description(studySchema, meanings.studyMeanings),
    words.readings,
    table(readingsSchema),
    words.characteristics,
    characteristics.map(({ name, symbol }) => `\`${name}\` (${symbol})`).join(", ") + ".",
    "",
  ].join("\n\n");
}

const head = "| key | | form | meaning |\n| --- | --- | --- | --- |";

function description(schema: DescriptionSchema, said: Meanings): string {
  const keys = keysOf(schema, "").filter(({ path }) => !openParts.some((part) => path.startsWith(`${part}.`)));
  const unsaid = keys.filter(({ path }) => said[path] === undefined);
  const unused = Object.keys(said).filter((path) => keys.every((key) => key.path !== path));
  if (unsaid.length > 0 || unused.length > 0) {
    throw new Error(
      `${schema.title}: without meaning ${unsaid.map(({ path }) => path).join(", ")}; no key ${unused.join(", ")}`,
    );
  }
  const rows = keys.map(
    (key) => `| \`${key.name}\` | ${key.required ? "needed" : ""} | ${cell(key.form)} | ${cell(said[key.path]!)} |`,
  );
  return [head, ...rows].join("\n");
}

/** Parts whose keys are a list of their own (characteristics, terms, kinds of effort), described with their parent. */
const openParts = ["smallest_change", "effort", "curves", "calibrations[].terms", "purposes"];

interface DocumentedKey {
  /** `limits[].min` */
  readonly path: string;
  /** As it is written: with its unit of measure. */
  readonly name: string;
  readonly required: boolean;
  readonly form: string;
}

function keysOf(schema: DescriptionSchema, at: string): readonly DocumentedKey[] {
  const own = Object.entries(schema.properties ?? {}).flatMap(([name, of]) => {
    const path = `${at}${name}`;
    return [
      { path, name: path, required: (schema.required ?? []).includes(name), form: formOf(of) },
      ...keysOf(of, `${path}.`),
      ...(of.items ? keysOf(of.items, `${path}[].`) : []),
      ...(of.additionalProperties ? keysOf(of.additionalProperties, `${path}.*.`) : []),
    ];
  });
  const measured = Object.entries(schema.measures ?? {}).map(([stem, rule]) => ({
    path: `${at}${stem}`,
    name: `${at}${stem}_${suffixOfSymbol.get(rule.symbol) ?? "…"}`,
    required: rule.required === true,
    form: measureForm(rule),
  }));
  return [...own, ...measured];
}

function measureForm(rule: MeasureRule): string {
  const others = rule.symbol === "any" ? [] : acceptedSuffixes(rule.symbol).slice(1);
  return formOf(rule.each) + (others.length === 0 ? "" : `; or ${others.map((suffix) => `\`_${suffix}\``).join(", ")}`);
}

const formats = {
  date: "day, `2026-03-09`",
  date_or_not_recorded: "day, `2026-03-09`",
  instant: "time, `2026-03-09T09:10:00Z`",
  key_code: "key code, `KeyF`",
  characteristic: "characteristic",
} as const;

function formOf(schema: DescriptionSchema): string {
  if (schema.enum !== undefined) return schema.enum.map((value) => `\`${value}\``).join(" or ");
  if (schema.format !== undefined) return formats[schema.format];
  if (schema.pattern === identifier.pattern) return "id";
  if (schema.form !== undefined) return schema.form.replace(/such as (\S+)$/, "such as `$1`");
  if (schema.type === "array") {
    const least = (schema.minItems ?? 0) > 0 ? ", at least one" : "";
    return `list${schema.items?.properties === undefined && schema.items !== undefined ? ` of: ${formOf(schema.items)}` : ""}${least}`;
  }
  if (schema.type === "object") return "mapping";
  if (schema.type === "string") return "text";
  const kind = schema.type === "integer" ? "whole number" : "number";
  if (schema.exclusiveMinimum !== undefined) return `${kind} above ${schema.exclusiveMinimum}`;
  return schema.minimum === undefined || schema.minimum < -1 ? kind : `${kind} of at least ${schema.minimum}`;
}

function table(schema: TableSchema): string {
  const rows = schema.fields.map((field) => `| \`${field.name}\` | ${cell(fieldForm(field))} | ${cell(field.title)} |`);
  return ["| column | form | meaning |\n| --- | --- | --- |", ...rows].join("\n");
}

function fieldForm(field: TableField): string {
  const { constraints = {}, measure } = field;
  const others = [
    ...(measure?.suffixes ?? []).slice(1).map((suffix) => `\`${measure!.stem}_${suffix}\``),
    ...(field.aliases ?? []).map((name) => `\`${name}\``),
  ];
  const kind = { string: "text", integer: "whole number", number: "number" }[field.type];
  const vocabulary = {
    key_code: "key code",
    date: "day",
    characteristic: "characteristic",
    symbol: "unit of measure",
    reason: "text",
  };
  const form =
    constraints.enum?.map((word) => `\`${word}\``).join(" or ") ??
    (field.vocabulary === undefined ? undefined : vocabulary[field.vocabulary]) ??
    (field.form === undefined ? kind : field.form);
  return [
    form,
    ...(others.length === 0 ? [] : [`or ${others.join(", ")}`]),
    ...(constraints.required === true ? [] : ["may be empty"]),
  ].join("; ");
}

function termList(): string {
  const rows = Object.entries(calibrationTerms).map(([name, symbol]) => {
    const suffix = suffixOfSymbol.get(symbol);
    return `| \`${name}\` | \`value_${suffix}\`, \`u_${suffix}\` | ${words.termMeanings[name as keyof typeof calibrationTerms]} |`;
  });
  return ["| term | keys | meaning |\n| --- | --- | --- |", ...rows].join("\n");
}

function cell(text: string): string {
  return text.replaceAll("|", "\\|").replaceAll("<", "&lt;");
}
