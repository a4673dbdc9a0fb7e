import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";

/** What stands in place of a file: its whole text, its bytes, a change of the text, or nothing (null). */
export type Override = string | Uint8Array | null | ((text: string) => string);

export interface MadeArchive {
  readonly root: string;
  /** Removes the folder. */
  readonly remove: () => void;
}

/**
 * Writes a small valid archive into a temporary folder: one laboratory, four methods, two rigs, one unit with a keystroke
 * and a latency session, one study. Checking it gives no problem at all.
 *
 * @param overrides files that differ, by path relative to the archive's root
 */
export function makeArchive(overrides: Readonly<Record<string, Override>> = {}): MadeArchive {
  const root = mkdtempSync(join(tmpdir(), "benchfolio-archive-"));
  const files = { ...validArchive(), ...resolveOverrides(overrides) };
  for (const [path, content] of Object.entries(files)) {
    if (content === null) continue;
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), content);
  }
  return { root, remove: () => rmSync(root, { recursive: true, force: true }) };
}

/** Makes an archive, hands it to `use` and removes it, whatever happens. */
export function withArchive<T>(overrides: Readonly<Record<string, Override>>, use: (root: string) => T): T {
  const { root, remove } = makeArchive(overrides);
  try {
    return use(root);
  } finally {
    remove();
  }
}

function resolveOverrides(overrides: Readonly<Record<string, Override>>): Record<string, string | Uint8Array | null> {
  const valid = validArchive();
  return Object.fromEntries(
    Object.entries(overrides).map(([path, override]) => {
      if (typeof override !== "function") return [path, override] as const;
      const [before, after] = [valid[path] ?? "", override(valid[path] ?? "")];
      if (before === after) throw new Error(`the change of ${path} changes nothing`);
      return [path, after] as const;
    }),
  );
}

/** A change that replaces one text by another, and throws where it is not there. */
export function replacing(from: string, to: string): (text: string) => string {
  return (text) => {
    if (!text.includes(from)) throw new Error(`${JSON.stringify(from)} is not in the text`);
    return text.replace(from, () => to);
  };
}

/** The files of the valid archive by path. */
export function validArchive(): Readonly<Record<string, string>> {
  return {
    "lab.yaml": lab,
    "methods/keystroke-1.yaml": keystrokeMethod(1, ["KeyF"], ""),
    "methods/keystroke-2.yaml": keystrokeMethod(2, ["KeyF", "KeyA"], "replaces: keystroke@1\n"),
    "methods/latency-1.yaml": latencyMethod,
    "methods/scoring-1.yaml": scoringMethod,
    "rigs/tester-1/rig.yaml": tester,
    "rigs/tester-1/checks.csv": checks,
    "rigs/camera-1/rig.yaml": camera,
    "units/u01/unit.yaml": unit,
    "units/u01/s1/session.yaml": keystrokeSession,
    "units/u01/s1/force.csv": forceTable(["KeyF", "KeyA"], [1, 2]),
    "units/u01/s2/session.yaml": latencySession,
    "units/u01/s2/presses.csv": presses,
    "units/u01/s2/films.csv": films,
    "units/u01/s2/baseline.csv": baseline,
    "studies/crossed-1/study.yaml": study,
    "studies/crossed-1/readings.csv": readings,
  };
}

const lab = `name: Tarn House Keyboard Laboratory
address: 1 Tarn Lane
contact: the front desk
customer: the house itself
roles:
  operator-1: Test operator 1
  operator-2: Test operator 2
  reader-a: Film reader A
  reader-b: Film reader B
statements:
  items_tested: The results concern only the items tested, as received.
smallest_change:
  pre_travel_mm: 0.10
  actuation_force_cN: 3
  latency_ms: 2
effort:
  mount_min: 6
  film_reading_min: 15
limits:
  - characteristic: operating_force
    min_cN: 25
    max_cN: 150
    binds: each_key
    force: limit
    source: A summary of an ergonomic standard
numbering: { draft: DRAFT, prefix: TH }
`;

const keystrokeMethod = (
  version: number,
  keys: readonly string[],
  replaces: string,
): string => `id: keystroke@${version}
kind: keystroke
title: Force-displacement of ${keys.length} keys
${replaces}since: 2026-01-0${version}
keys: [${keys.join(", ")}]
min_keys: 1
conditioning_strokes: 5
cycles: 2
cycles_used: [1, 2]
press_speed_mm_per_s: 0.5
smoothing_window_mm: 0.12
prominence_cN: 3
bottom_out_slope_cN_per_mm: 300
touch_deviations: 6
touch_force_cN: 1.0
notes: []
`;

const latencyMethod = `id: latency@1
kind: latency
title: Latency from film
since: 2026-01-01
observes: film
presses: 3
kept: 2
min_presses: 2
subtract: [pc, display]
subtract_travel: true
baseline_shots: 2
frame_rate_Hz: 1000
compares: all
`;

const scoringMethod = `id: scoring@1
kind: scoring
title: Merit for the reading room
since: 2026-01-01
missing_connection: renormalise
curves:
  actuation_force_cN: [[30, 0.4], [50, 1], [90, 0]]
  latency_ms: [[5, 1], [40, 0]]
purposes:
  reading_room: { actuation_force: 3, latency: 1 }
grades: [{ name: recommended, from: 0.8 }, { name: not suitable, from: 0 }]
picks: 1
`;

const tester = `id: tester-1
kind: force_tester
description: Force tester with a round probe
software: own
calibrations:
  - date: 2025-11-03
    due: 2026-11-03
    certificate: C-25-118
    terms:
      force_span: { value_ratio: 1.000, u_ratio: 0.003, distribution: normal }
      force_zero: { value_cN: 0.0, u_cN: 0.15, distribution: normal }
      compliance: { value_mm_per_cN: 0.0001, u_mm_per_cN: 0.00002, distribution: rectangular }
`;

const checks = `date,kind,unit,characteristic,value,u,reference,symbol
2026-01-05,check_standard,u01,actuation_force,45.2,0.3,45,cN
2026-01-05,force_zero,,,0.1,0.05,0,cN
`;

const camera = `id: camera-1
kind: camera_plunger
description: Camera and plunger
calibrations:
  - date: 2025-11-03
    due: 2026-11-03
    certificate: C-25-119
    terms:
      frame_clock: { value_ratio: 1.0, u_ratio: 0.00005, distribution: normal }
      plunger_speed: { value_mm_per_s: 120, u_mm_per_s: 2.0, distribution: normal }
`;

const unit = `id: u01
maker: Fennick Works
model: Plover 4
sample_no: "3"
received: 2026-02-11
obtained: Bought from a shop
condition: New, sealed
status: held
status_note: ""
layout: ansi
alphabetic_keys: 26
switch: { kind: tactile, name: Plover, travel: full, actuation_setting: not adjustable }
limits:
  - { characteristic: actuation_force, nominal_cN: 45, min_cN: 35, max_cN: 55, binds: each_key, force: limit, source: "Data sheet, revision 3", press_speed_mm_per_s: 0.5 }
connections: [usb, receiver]
`;

const keystrokeSession = `id: s1
unit: u01
method: keystroke@2
rig: tester-1
operator: operator-1
start: 2026-03-09T09:10:00Z
end: 2026-03-09T10:02:00Z
press_speed_mm_per_s: 0.5
contact_source: electrical
firmware: "1.4"
driver: not recorded
environment: { temperature_degC: 22.1, humidity_percent: 44 }
deviations: []
exclusions: [{ key: KeyA, cycle: 2, reason: The probe slipped }]
`;

const latencySession = `id: s2
unit: u01
method: latency@1
rig: camera-1
operator: operator-2
start: 2026-03-10T09:10:00Z
end: 2026-03-10T10:02:00Z
press_speed_mm_per_s: 120
contact_source: none
connections:
  usb: { polling_set: 1000 Hz, polling_measured_Hz: 998, debounce: not adjustable, adapter: none }
refresh_rate_Hz: 240
press_interval_ms: 1370
press_interval_jitter_ms: 120
`;

const presses = `connection,key,clip,press,reader,contact_frame,mark_frame,response_frame,outcome,excluded
usb,KeyF,c1,1,reader-a,100,116,131,ok,
usb,KeyF,c1,1,reader-b,101,116,131,ok,
usb,KeyF,c1,2,reader-a,1470,,1502,ok,The lamp flickered
usb,KeyF,c1,3,reader-a,2840,,2871,ok,
usb,KeyF,c1,4,reader-a,4210,,,missed,
`;

const films = `clip,file,sha256,frame_rate_hz,first_press,last_press
c1,c1.mov,${"0123456789abcdef".repeat(4)},1000,1,4
`;

const baseline = `block,shot,input_ms,pc_ms,display_ms,total_ms,detector
before,1,1.1,6.2,4.1,11.4,photodiode
before,2,1.0,6.4,4.0,11.4,photodiode
after,1,,6.3,4.2,,photodiode
after,2,,6.1,4.1,,photodiode
`;

const study = `id: crossed-1
title: Operators and days
kind: crossed
question: How much do operators and days add?
factors: [operator, day]
`;

const readings = `unit,key,connection,operator,reader,rig,method,day,mount,repeat,characteristic,value,symbol
u01,KeyF,,operator-1,,tester-1,keystroke@2,1,1,1,actuation_force,45.1,cN
u01,KeyF,,operator-2,,tester-1,keystroke@2,1,1,1,actuation_force,45.4,cN
u01,KeyF,,operator-1,,tester-1,keystroke@2,2,1,1,actuation_force,0.449,N
`;

/** A force table of the given keys and cycles: a tactile key, 41 rows a stroke. */
export function forceTable(keys: readonly string[], cycles: readonly number[]): string {
  const rows = keys.flatMap((key) =>
    cycles.flatMap((cycle) => [...strokeRows(key, cycle, "press"), ...strokeRows(key, cycle, "release")]),
  );
  return ["key,cycle,stroke,displacement_mm,force_cN,contact", ...rows, ""].join("\n");
}

/** The rows of one stroke of an invented tactile key: travel 0 to 4 mm, peak 55 cN near 1.4 mm, contact at 2 mm. */
export function strokeRows(key: string, cycle: number, stroke: "press" | "release"): readonly string[] {
  const steps = Array.from({ length: 41 }, (_, i) => (stroke === "press" ? i : 40 - i));
  return steps.map((step) => {
    const mm = step / 10;
    const bump = 14 * Math.exp(-(((mm - 1.4) / 0.35) ** 2));
    const force = mm === 0 ? 0 : 30 + 8 * mm + bump - (stroke === "release" ? 6 : 0);
    const contact = mm >= (stroke === "press" ? 2 : 1.7) ? 1 : 0;
    return `${key},${cycle},${stroke},${mm.toFixed(3)},${force.toFixed(1)},${contact}`;
  });
}
