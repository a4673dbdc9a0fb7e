import type { ConnectionSettings, Session, StrokeExclusion } from "./archive.js";
import type { Described, ReadingContext } from "./read-description.js";
import { checkId, readDescription } from "./read-description.js";
import { sessionSchema } from "./schemas/session.js";
import type { YamlView } from "./yaml-view.js";
import { notRecorded } from "./yaml-view.js";

/**
 * Reads `units/<unit>/<session>/session.yaml`: the description alone, no row. Undefined, with problems, where it does
 * not fit.
 *
 * @param files names of the raw files beside it, sorted
 */
export function readSession(
  context: ReadingContext,
  unit: string,
  session: string,
  files: readonly string[],
): Described<Session> | undefined {
  const folder = `units/${unit}/${session}`;
  const view = readDescription(context, `${folder}/session.yaml`, sessionSchema);
  if (view === undefined) return undefined;
  checkId(context, view, session);
  const pressSpeed = view.stated("press_speed", "mm/s");
  const refreshRate = view.stated("refresh_rate", "Hz");
  const pressInterval = view.stated("press_interval", "ms");
  const pressIntervalJitter = view.stated("press_interval_jitter", "ms");
  const value: Session = {
    id: view.text("id"),
    unit: view.text("unit"),
    method: view.text("method"),
    rig: view.text("rig"),
    operator: view.text("operator"),
    start: view.text("start"),
    end: view.text("end"),
    ...(pressSpeed && { pressSpeed }),
    contactSource: view.choice<Session["contactSource"]>("contact_source", "none"),
    connections: readConnections(view.child("connections")),
    firmware: view.text("firmware", notRecorded),
    driver: view.text("driver", notRecorded),
    software: view.text("software", notRecorded),
    ...(refreshRate && { refreshRate }),
    ...(pressInterval && { pressInterval }),
    ...(pressIntervalJitter && { pressIntervalJitter }),
    environment: readEnvironment(view.child("environment")),
    deviations: view.texts("deviations"),
    exclusions: view.children("exclusions").map(readExclusion),
    folder,
    files,
    file: view.file,
    evidence: view.evidence,
  };
  return { value, view };
}

function readConnections(view: YamlView | undefined): Session["connections"] {
  const connections = (view?.keys ?? []).map((name) => {
    const settings = view!.child(name)!;
    const pollingMeasured = settings.stated("polling_measured", "Hz");
    const read: ConnectionSettings = {
      pollingSet: settings.text("polling_set", notRecorded),
      ...(pollingMeasured && { pollingMeasured }),
      debounce: settings.text("debounce", notRecorded),
      adapter: settings.text("adapter", notRecorded),
    };
    return [name, read] as const;
  });
  return Object.fromEntries(connections);
}

function readEnvironment(view: YamlView | undefined): Session["environment"] {
  const temperature = view?.stated("temperature", "°C");
  const humidity = view?.stated("humidity", "%");
  return { ...(temperature && { temperature }), ...(humidity && { humidity }) };
}

function readExclusion(view: YamlView): StrokeExclusion {
  return {
    key: view.text("key"),
    cycle: view.number("cycle"),
    reason: view.text("reason"),
    evidence: view.evidence,
  };
}
