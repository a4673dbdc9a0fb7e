import type { Archive, Session } from "./archive.js";
import type { ProblemCollector } from "./problem-collector.js";
import type { Table } from "./table.js";

/** Checks the connections in a table against those of the unit, and against the settings that the session states. */
export function checkConnections(
  archive: Pick<Archive, "units">,
  session: Session,
  table: Table,
  problems: ProblemCollector,
): void {
  const unit = archive.units.find((each) => each.id === session.unit);
  const measured = new Set(table.texts("connection").filter((connection) => connection !== ""));
  for (const connection of measured) {
    const place = table.place(table.texts("connection").indexOf(connection), "connection");
    if (unit !== undefined && !unit.connections.includes(connection)) {
      problems.add("E_CONNECTION_UNKNOWN", place, { found: connection, names: unit.connections });
    } else if (!Object.hasOwn(session.connections, connection)) {
      problems.add("W_CONNECTION_SETTINGS_ABSENT", place, { found: connection });
    }
  }
  for (const connection of Object.keys(session.connections)) {
    if (measured.has(connection)) continue;
    problems.add("W_CONNECTION_NO_PRESSES", table.headerPlace("connection"), { found: connection });
  }
}
