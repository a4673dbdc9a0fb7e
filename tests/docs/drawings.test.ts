import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { methodDrawings } from "../../tools/method-drawings/drawings.js";
import { repository } from "../cli/run-benchfolio.js";

test("the drawings of docs/methods.md are what the tool draws today (npm run method-drawings)", () => {
  for (const { name, svg } of methodDrawings(`${repository}data`)) {
    expect(readFileSync(`${repository}docs/drawings/${name}`, "utf8"), name).toBe(svg);
  }
});
