import { reduceKeystroke } from "../../src/keystroke/index.js";
import { seededRandom } from "../../src/metrology/random.js";
import { sheetMethod } from "./sheet-method.js";
import { readStreamFolder } from "./stream-csv.js";
import { streamStrokes } from "./stream-strokes.js";

/**
 * Adds contact edges at known places to recorded curves that have none, some with bounce, and says how well the reduction
 * finds them again:
 *
 *   tsx tools/contact-sheet/added-contacts.ts DIR
 *
 * On each file ten pairs of a closing (1.0 mm to 2.4 mm on the tester's scale) and an opening 0.05 mm to 0.4 mm above it.
 */
const [folder] = process.argv.slice(2);
if (folder === undefined) {
  console.error("use: added-contacts.ts DIR");
  process.exit(2);
}
const random = seededRandom(5);
const errors = { clean: [] as number[], bouncing: [] as number[] };
let absent = 0;
let bounced = 0;
let flagged = 0;
for (const file of readStreamFolder(folder)) {
  for (let i = 0; i < 10; i++) {
    const makeMm = 1 + 1.4 * random.uniform();
    const breakMm = makeMm - 0.05 - 0.35 * random.uniform();
    const bounces = i % 2 === 1;
    const strokes = streamStrokes(file).map((stroke) => ({
      ...stroke,
      contact: Uint8Array.from(stroke.displacementMm, (x, row) => {
        const beyond = stroke.stroke === "press" ? x - makeMm : breakMm - x;
        const changed = beyond >= 0 && !(bounces && beyond > 0.004 && beyond < 0.02 && row % 3 === 0);
        return (stroke.stroke === "press") === changed ? 1 : 0;
      }),
    }));
    const result = reduceKeystroke(strokes, {
      unit: "sheet",
      session: "s1",
      method: sheetMethod([file.name]),
      rig: { id: "none", calibration: null },
      contactSource: "electrical",
      exclusions: [],
    });
    const { differentialTravel } = result.keys[0]!.cycles[0]!.characteristics;
    if (differentialTravel.absent) {
      absent++;
      console.log(`${file.name}: ${differentialTravel.reason}`);
    } else errors[bounces ? "bouncing" : "clean"].push(Math.abs(differentialTravel.value - (makeMm - breakMm)));
    if (bounces) bounced++;
    if (bounces && result.flags.some((flag) => flag.code === "contact_bounce")) flagged++;
  }
}
for (const [kind, list] of Object.entries(errors)) {
  list.sort((a, b) => a - b);
  const [worst, median] = [list.at(-1) ?? NaN, list[list.length >> 1] ?? NaN];
  console.log(
    `${kind}: ${list.length} differential travels, worst error ${worst.toFixed(4)} mm, median ${median.toFixed(4)} mm`,
  );
}
console.log(`absent ${absent}; bounce flagged in ${flagged} of ${bounced}`);
