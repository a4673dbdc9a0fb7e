import type { Unit } from "./archive.js";
import type { Described, ReadingContext } from "./read-description.js";
import { checkId, readDescription } from "./read-description.js";
import { readLimits } from "./read-limits.js";
import { unitSchema } from "./schemas/unit.js";
import { notRecorded } from "./yaml-view.js";

/** Reads `units/<folder>/unit.yaml`, still without its sessions; undefined, with problems, where it does not fit. */
export function readUnit(context: ReadingContext, folder: string): Described<Unit> | undefined {
  const view = readDescription(context, `units/${folder}/unit.yaml`, unitSchema);
  if (view === undefined) return undefined;
  checkId(context, view, folder);
  const key = view.child("switch")!;
  const value: Unit = {
    id: view.text("id"),
    maker: view.text("maker"),
    model: view.text("model"),
    sampleNo: view.text("sample_no", notRecorded),
    received: view.text("received"),
    obtained: view.text("obtained", notRecorded),
    status: view.choice<Unit["status"]>("status"),
    statusNote: view.text("status_note", ""),
    condition: view.text("condition", notRecorded),
    layout: view.text("layout"),
    alphabeticKeys: view.number("alphabetic_keys"),
    switch: {
      kind: key.choice<Unit["switch"]["kind"]>("kind"),
      name: key.text("name", notRecorded),
      travel: key.choice<Unit["switch"]["travel"]>("travel"),
      actuationSetting: key.text("actuation_setting", "not adjustable"),
    },
    limits: readLimits(view, context.problems),
    connections: view.texts("connections"),
    sessions: [],
    file: view.file,
    evidence: view.evidence,
  };
  return { value, view };
}
