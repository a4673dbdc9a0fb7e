import { Count, Quantity } from "../../metrology/quantity.js";
import type { Lab, Limit, Rig, Session, Stated, Unit } from "../../records/archive.js";

/** A limit with its numbers as quantities, ready for a decision or a figure. */
export interface LimitView {
  readonly characteristic: string;
  readonly min?: Quantity;
  readonly max?: Quantity;
  readonly nominal?: Quantity;
  readonly binds: Limit["binds"];
  /** `limit` is judged; `typical` is shown and never judged. */
  readonly force: Limit["force"];
  readonly source: string;
  /** Press speed at which the source states it; absent where the source does not say. */
  readonly pressSpeed?: Quantity<"mm/s">;
  readonly switchKinds: readonly string[];
}

/** A number that a description states, as a quantity without uncertainty. */
export function quantityOf<S extends string>(stated: Stated<S>): Quantity<S> {
  return new Quantity(stated.value, stated.symbol, [], stated.evidence);
}

export function limitView(limit: Limit): LimitView {
  return {
    characteristic: limit.characteristic,
    binds: limit.binds,
    force: limit.force,
    source: limit.source,
    switchKinds: limit.switchKinds ?? [],
    ...(limit.min === undefined ? {} : { min: quantityOf(limit.min) }),
    ...(limit.max === undefined ? {} : { max: quantityOf(limit.max) }),
    ...(limit.nominal === undefined ? {} : { nominal: quantityOf(limit.nominal) }),
    ...(limit.pressSpeed === undefined ? {} : { pressSpeed: quantityOf(limit.pressSpeed) }),
  };
}

/** A session as a page describes it; texts only, so that they can be printed as they stand. */
export interface SessionView {
  readonly id: string;
  readonly method: string;
  readonly rig: string;
  readonly operator: string;
  /** ISO dates of the first and last measurement. */
  readonly start: string;
  readonly end: string;
  readonly date: string;
  readonly contactSource: string;
  readonly firmware: string;
  readonly driver: string;
  readonly software: string;
  readonly pressSpeed: string;
  readonly temperature: string;
  readonly humidity: string;
  readonly deviations: readonly string[];
  readonly exclusions: readonly { readonly key: string; readonly cycle: Count; readonly reason: string }[];
  readonly connections: readonly ConnectionView[];
  readonly folder: string;
}

export interface ConnectionView {
  readonly name: string;
  readonly pollingSet: string;
  readonly pollingMeasured: string;
  readonly debounce: string;
  readonly adapter: string;
}

const notRecorded = "not recorded";

export function sessionView(session: Session): SessionView {
  return {
    id: session.id,
    method: session.method,
    rig: session.rig,
    operator: session.operator,
    start: session.start,
    end: session.end,
    date: session.start.slice(0, 10),
    contactSource: session.contactSource,
    firmware: session.firmware,
    driver: session.driver,
    software: session.software,
    pressSpeed: statedText(session.pressSpeed),
    temperature: statedText(session.environment.temperature),
    humidity: statedText(session.environment.humidity),
    deviations: session.deviations,
    exclusions: session.exclusions.map(({ key, cycle, reason, evidence }) => ({
      key,
      cycle: new Count(cycle, evidence),
      reason,
    })),
    connections: Object.entries(session.connections).map(([name, settings]) => ({
      name,
      pollingSet: settings.pollingSet,
      pollingMeasured: statedText(settings.pollingMeasured),
      debounce: settings.debounce,
      adapter: settings.adapter,
    })),
    folder: session.folder,
  };
}

/** "0.5 mm/s", or "not recorded". */
export function statedText(stated: Stated | undefined): string {
  return stated === undefined ? notRecorded : `${stated.value}\u00a0${stated.symbol}`;
}

/** The lab as a page describes it. */
export interface LabDescription {
  readonly name: string;
  readonly address: string;
  readonly contact: string;
  readonly customer: string;
  readonly roles: Readonly<Record<string, string>>;
  readonly statements: Readonly<Record<string, string>>;
  /** Smallest change that matters, by characteristic. */
  readonly smallestChange: Readonly<Record<string, Quantity>>;
  readonly effort: Readonly<Record<string, Quantity<"min">>>;
  readonly limits: readonly LimitView[];
}

export function labDescription(lab: Lab): LabDescription {
  const quantities = <S extends string>(stated: Readonly<Record<string, Stated<S>>>): Record<string, Quantity<S>> =>
    Object.fromEntries(Object.entries(stated).map(([name, value]) => [name, quantityOf(value)]));
  return {
    name: lab.name,
    address: lab.address,
    contact: lab.contact,
    customer: lab.customer,
    roles: lab.roles,
    statements: lab.statements,
    smallestChange: quantities(lab.smallestChange),
    effort: quantities(lab.effort),
    limits: lab.limits.map(limitView),
  };
}

/** A rig with its calibrations and checks, as recorded. */
export type RigView = Rig;

/** What a unit's cover says about it. */
export interface UnitDescription {
  readonly id: string;
  /** "Maker Model, sample 3". */
  readonly name: string;
  readonly maker: string;
  readonly model: string;
  readonly sampleNo: string;
  readonly received: string;
  readonly obtained: string;
  readonly condition: string;
  readonly status: Unit["status"];
  readonly statusNote: string;
  readonly layout: string;
  readonly alphabeticKeys: Count;
  readonly switchKind: Unit["switch"]["kind"];
  readonly switchName: string;
  readonly travel: Unit["switch"]["travel"];
  readonly actuationSetting: string;
  readonly connections: readonly string[];
}

export function unitDescription(unit: Unit): UnitDescription {
  return {
    id: unit.id,
    name: `${unit.maker} ${unit.model}, sample ${unit.sampleNo}`,
    maker: unit.maker,
    model: unit.model,
    sampleNo: unit.sampleNo,
    received: unit.received,
    obtained: unit.obtained,
    condition: unit.condition,
    status: unit.status,
    statusNote: unit.statusNote,
    layout: unit.layout,
    alphabeticKeys: new Count(unit.alphabeticKeys, unit.evidence),
    switchKind: unit.switch.kind,
    switchName: unit.switch.name,
    travel: unit.switch.travel,
    actuationSetting: unit.switch.actuationSetting,
    connections: unit.connections,
  };
}
