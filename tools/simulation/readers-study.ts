import type { StudyPlan } from "./archive-plan.js";
import type { FilmSetup, Reader } from "./film.js";
import { drawFilm } from "./film.js";
import { randomFor } from "./random.js";

/** One film read by several readers: the interval on film in ms, nothing subtracted, one row a press and reader. */
export function readersStudy(
  seed: number,
  setup: Omit<FilmSetup, "readers">,
  readers: readonly Reader[],
  facts: { readonly unit: string; readonly rig: string; readonly method: string },
): StudyPlan {
  const { presses } = drawFilm({ ...setup, readers }, "readers-1", randomFor(seed, "readers"));
  return {
    raw: {
      id: "readers-1",
      title: "Two readers of one film",
      kind: "readers",
      question:
        "How often do two readers of the same film differ, and by how much? Readings are the interval from contact to " +
        `response on a film of ${setup.frameRateHz} frames a second, nothing subtracted; the repeat is the press.`,
      factors: ["reader", "repeat"],
    },
    readings: presses.map((p) => ({
      ...facts,
      key: p.key,
      connection: p.connection,
      reader: p.reader,
      repeat: String(p.press),
      characteristic: "latency",
      value: ((p.responseFrame! - p.contactFrame!) * 1000) / setup.frameRateHz,
      symbol: "ms",
      decimals: 3,
    })),
  };
}
