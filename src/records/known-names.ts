import type { Unit } from "./archive.js";

/** What descriptions and readings may refer to; whatever has a folder or file of its own counts, readable or not. */
export interface KnownNames {
  /** Roles of lab.yaml; undefined where it could not be read. */
  readonly roles: readonly string[] | undefined;
  readonly methods: readonly string[];
  readonly rigs: readonly string[];
  readonly units: readonly string[];
  /** Connections of a unit whose description could be read. */
  readonly connectionsOf: (unit: string) => Unit["connections"] | undefined;
}
