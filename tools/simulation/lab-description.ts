import type { Raw } from "./described.js";

/** The invented laboratory of the demo archive and of all generated ones. */
export const labRaw: Raw = {
  name: "Threlvane Examination Halls, Keyboard Laboratory",
  address: "Hall 3, Candle Row 17, Threlvane (an invented place)",
  contact: "keyboard-laboratory@threlvane.example",
  customer: "Equipment Board of the Threlvane Examination Halls",
  roles: {
    "operator-1": "Test operator 1",
    "operator-2": "Test operator 2",
    "operator-3": "Test operator 3",
    "reader-a": "Film reader A",
    "reader-b": "Film reader B",
    approver: "Head of the laboratory",
  },
  statements: {
    items_tested: "The results concern only the items tested, as received.",
    reproduction: "Not to be reproduced except in full without the written approval of the laboratory.",
    limits_of_use:
      "This dossier reports measurements. It is not a certificate and gives no medical or safety advice. Local codes and the findings of accredited laboratories come first.",
    safety:
      "The driven plunger can pinch: keep hands clear while it moves, and disconnect it before a unit is changed.",
  },
  smallest_change: {
    pre_travel_mm: 0.12,
    actuation_force_cN: 3,
    operating_force_cN: 3,
    differential_travel_mm: 0.12,
    latency_ms: 2.5,
  },
  effort: { mount_min: 7, key_min: 5, connection_min: 14, film_reading_min: 18 },
  limits: [
    {
      characteristic: "operating_force",
      min_cN: 25,
      max_cN: 150,
      binds: "each_key",
      force: "limit",
      source: "ISO 9241-410:2008, Annex B (as summarised in the open literature)",
    },
    {
      characteristic: "total_travel",
      min_mm: 1.5,
      max_mm: 6,
      binds: "each_key",
      force: "typical",
      source: "ISO 9241-410:2008, Annex B (as summarised in the open literature)",
    },
  ],
  numbering: { draft: "DRAFT", prefix: "TKL" },
};

/** Merits before latency was measured. */
export const scoringOneRaw: Raw = {
  id: "scoring@1",
  kind: "scoring",
  title: "Merit by purpose from force and travel",
  since: "2024-09-02",
  missing_connection: "renormalise",
  curves: {
    actuation_force_cN: [
      [25, 0.3],
      [40, 1],
      [55, 1],
      [75, 0.4],
      [95, 0],
    ],
    pre_travel_mm: [
      [0.8, 0.4],
      [1.4, 1],
      [2.2, 1],
      [3.2, 0.3],
    ],
    differential_travel_mm: [
      [0, 1],
      [0.3, 0.9],
      [0.7, 0.3],
    ],
  },
  purposes: {
    examination_hall: { actuation_force: 3, pre_travel: 2, differential_travel: 1 },
    language_booth: { actuation_force: 2, pre_travel: 1, differential_travel: 2 },
  },
  grades: [
    { name: "recommended", from: 0.85 },
    { name: "suitable", from: 0.7 },
    { name: "with reservations", from: 0.5 },
    { name: "not suitable", from: 0 },
  ],
  picks: 3,
  notes: ["One key under keystroke@1 stood for the unit."],
};

/** Merits with latency. */
export const scoringTwoRaw: Raw = {
  id: "scoring@2",
  kind: "scoring",
  title: "Merit by purpose from force, travel and latency",
  replaces: "scoring@1",
  since: "2026-04-13",
  missing_connection: "renormalise",
  curves: {
    actuation_force_cN: [
      [25, 0.3],
      [38, 1],
      [50, 1],
      [70, 0.4],
      [90, 0],
    ],
    pre_travel_mm: [
      [0.8, 0.4],
      [1.3, 1],
      [2.1, 1],
      [3.2, 0.2],
    ],
    differential_travel_mm: [
      [0, 1],
      [0.3, 0.9],
      [0.7, 0.3],
    ],
    latency_ms: [
      [4, 1],
      [12, 0.8],
      [30, 0.1],
      [45, 0],
    ],
  },
  purposes: {
    examination_hall: { actuation_force: 3, pre_travel: 2, differential_travel: 1, latency: 3 },
    language_booth: { actuation_force: 2, pre_travel: 1, differential_travel: 2, latency: 1 },
  },
  grades: [
    { name: "recommended", from: 0.85 },
    { name: "suitable", from: 0.7 },
    { name: "with reservations", from: 0.5 },
    { name: "not suitable", from: 0 },
  ],
  picks: 3,
  notes: [
    "Latency enters with the weight of force in examination halls, where every candidate must get an equal keyboard.",
  ],
};

/** Candidates beside film, kept for the comparison of methods. */
export const injectionMethodRaw: Raw = {
  id: "injection@1",
  kind: "latency",
  title: "Latency from direct electrical injection",
  since: "2026-04-13",
  observes: "injection",
  presses: 60,
  kept: 60,
  min_presses: 40,
  subtract: [],
  subtract_travel: false,
  baseline_shots: 0,
  frame_rate_Hz: 1000000,
  compares: "all",
  notes: [
    "The contact of one key is closed by a relay across its terminals; the time runs until the host has the report.",
    "The keyboard is opened and two wires are soldered in: the unit cannot go back to a hall.",
  ],
};

export const lightMethodRaw: Raw = {
  id: "light@1",
  kind: "latency",
  title: "Latency from a light that reports the arrival",
  since: "2026-04-13",
  observes: "light",
  presses: 40,
  kept: 40,
  min_presses: 25,
  subtract: [],
  subtract_travel: true,
  baseline_shots: 0,
  frame_rate_Hz: 1000000,
  compares: "all",
  notes: ["A foil on the keycap starts the timer when the plunger touches it; a light on the host's port stops it."],
};

export const flickMethodRaw: Raw = {
  id: "flick@1",
  kind: "latency",
  title: "Latency from film of a flicked finger and the screen",
  since: "2026-04-13",
  observes: "film",
  presses: 14,
  kept: 14,
  min_presses: 9,
  subtract: ["pc", "display"],
  subtract_travel: false,
  baseline_shots: 20,
  frame_rate_Hz: 960,
  compares: "all",
  notes: ["A finger flicks the key; its travel is not known and stays in the number."],
};
