import { mkdirSync, writeFileSync } from "node:fs";
import { methodDrawings } from "./drawings.js";

mkdirSync("docs/drawings", { recursive: true });
for (const { name, svg } of methodDrawings("data")) {
  writeFileSync(`docs/drawings/${name}`, svg);
  console.log(`docs/drawings/${name}`);
}
