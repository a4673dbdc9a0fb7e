import { writeFileSync } from "node:fs";
import { Command, InvalidArgumentError } from "commander";
import { renderSheet } from "./render-sheet.js";

/** Writes the sheet of all figures as one HTML page, to look at. */
const program = new Command("figure-sheet")
  .description("Writes every figure, drawn from invented values, to one HTML page.")
  .argument("<out>", "path of the page, such as /tmp/figures.html")
  .option("--width <px>", "width of each drawing", readWidth)
  .option("--only <ids>", "beginnings of the ids to show, with commas", (text: string) => text.split(","))
  .parse();
const { width, only } = program.opts<{ width?: number; only?: string[] }>();
const [out] = program.args as [string];

writeFileSync(
  out,
  renderSheet({ ...(width === undefined ? {} : { widthPx: width }), ...(only === undefined ? {} : { only }) }),
);

function readWidth(text: string): number {
  const width = Number(text);
  if (!(width >= 300 && width <= 1200)) throw new InvalidArgumentError("a width is a number of px from 300 to 1200");
  return width;
}
