import type { ReportItem, Statement, TitleBlock } from "../dossier/index.js";
import type { Unit } from "../records/archive.js";

/**
 * What ISO/IEC 17025:2017, 7.8.2 asks of a test report, item by item, with what the page says of it and where. An item that
 * the archive does not hold is null, which the page prints as "not recorded".
 */
export function reportItems(block: TitleBlock, statements: readonly Statement[], unit: Unit): readonly ReportItem[] {
  const said = (heading: string): string | null =>
    statements.find((statement) => statement.heading === heading)?.text ?? null;
  const { laboratory } = block;
  const items: readonly (readonly [letter: string, item: string, text: string | null, place: ReportItem["place"]])[] = [
    ["a", "Title", "heads the title block", "title_block"],
    ["b", "Laboratory and address", `${laboratory.name}, ${laboratory.address}`, "title_block"],
    ["c", "Place of the work", laboratory.address, "title_block"],
    ["d", "Identification of every part, and an end", identification(block), "every_sheet"],
    ["e", "Customer", block.customer, "title_block"],
    ["f", "Methods", block.methods.map(({ id }) => id).join(", ") || null, "title_block"],
    [
      "g",
      "Item: description, identity, condition",
      `${unit.id}: ${block.item.name}; as received: ${unit.condition}`,
      "title_block",
    ],
    ["h", "Date of receipt", unit.received, "title_block"],
    ["i", "Dates of the work", workDates(block), "title_block"],
    ["j", "Date of issue", block.issued ?? "not issued", "title_block"],
    ["k", "Sampling", `the unit: ${unit.obtained}; its keys: those that the method names`, "title_block"],
    ["l", "Results concern only the items tested", said("Items tested"), "statements"],
    ["m", "Results with their units of measure", "each with its uncertainty and grounds", "schedule"],
    ["n", "Additions, deviations, exclusions", "all that the sessions record", "deviations"],
    ["o", "Authorised by", block.approvedBy ?? "not approved", "title_block"],
    ["p", "Results of outside providers", "none declared: every session is one of the laboratory's own", "title_block"],
  ];
  return [
    ...items.map(([letter, item, text, place]) => ({ clause: `7.8.2.1 ${letter}`, item, text: orNull(text), place })),
    {
      clause: "7.8.2.1 note",
      item: "Reproduction in full only",
      text: orNull(said("Reproduction")),
      place: "statements",
    },
    { clause: "7.8.2.2", item: "What the customer supplied", text: "nothing declared", place: "title_block" },
    {
      clause: "7.8.6.2 c",
      item: "Decision rule",
      text: "guard band of the expanded uncertainty; in the ground of each verdict",
      place: "schedule",
    },
  ];
}

function identification({ number }: TitleBlock): string {
  return `${number ?? "DRAFT, no number yet"}; on every sheet, closed by an end mark`;
}

function workDates({ work }: TitleBlock): string | null {
  if (work === null) return null;
  return work.start === work.end ? work.start : `${work.start} to ${work.end}`;
}

/** A text that says that nothing was recorded is no record. */
function orNull(text: string | null): string | null {
  return text === null || /^(?:not recorded)?$/i.test(text.trim()) ? null : text;
}
