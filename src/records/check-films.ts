import type { Archive, Session } from "./archive.js";
import type { ProblemCollector } from "./problem-collector.js";
import { reportDuplicateRows } from "./row-duplicates.js";
import type { Table } from "./table.js";

/** Relative difference of frame rates that is no difference of setting. */
const sameRate = 0.01;

/** Checks the rows of films.csv; rows with an error are marked as broken. */
export function checkFilms(
  archive: Pick<Archive, "methods">,
  session: Session,
  table: Table,
  problems: ProblemCollector,
): void {
  const method = archive.methods.get(session.method);
  reportDuplicateRows(table, ["clip"], "E_FILM_DUPLICATE", (row) => table.texts("clip")[row]!, problems);
  for (let row = 0; row < table.rows; row += 1) {
    if (table.broken[row] === 1) continue;
    const [first, last] = [table.numbers("first_press")[row]!, table.numbers("last_press")[row]!];
    if (last < first) {
      table.broken[row] = 1;
      problems.add("E_FILM_RANGE", table.place(row, "last_press"), { found: String(last), expected: String(first) });
    }
    const rateHz = table.numbers("frame_rate_hz")[row]!;
    const askedHz = method?.kind === "latency" && method.observes === "film" ? method.frameRate.value : rateHz;
    if (Math.abs(rateHz / askedHz - 1) <= sameRate) continue;
    problems.add("W_FRAME_RATE_DIFFERS", table.place(row, "frame_rate_hz"), {
      found: `${rateHz} Hz`,
      expected: `${askedHz} Hz`,
    });
  }
}

/** Every press lies on a clip that films.csv lists, within the range of presses listed for it. */
export function checkPressClips(presses: Table, films: Table, problems: ProblemCollector): void {
  const clips = films.texts("clip");
  for (let row = 0; row < presses.rows; row += 1) {
    const [clip, press] = [presses.texts("clip")[row]!, presses.numbers("press")[row]!];
    if (clip === "" || presses.broken[row] === 1) continue;
    const film = clips.indexOf(clip);
    if (film === -1) {
      problems.add("E_CLIP_UNKNOWN", presses.place(row, "clip"), { found: clip, names: clips });
      continue;
    }
    const [first, last] = [films.numbers("first_press")[film]!, films.numbers("last_press")[film]!];
    if (films.broken[film] === 1 || (press >= first && press <= last)) continue;
    problems.add("E_PRESS_OUTSIDE_CLIP", presses.place(row, "press"), {
      found: String(press),
      expected: `${first} to ${last}`,
    });
  }
}
