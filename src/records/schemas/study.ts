import type { DescriptionSchema } from "./description-schema.js";
import { identifier, jsonSchemaDialect, listOf, mapping, oneOf, text } from "./description-schema.js";
import { studyFactors } from "./readings.js";

export const studySchema: DescriptionSchema = {
  $schema: jsonSchemaDialect,
  title: "study.yaml",
  ...mapping(
    {
      id: identifier,
      title: text,
      kind: oneOf("crossed", "readers", "candidate_methods"),
      question: text,
      factors: { ...listOf(oneOf(...studyFactors), 1), uniqueItems: true },
    },
    ["id", "title", "kind", "question", "factors"],
  ),
};
