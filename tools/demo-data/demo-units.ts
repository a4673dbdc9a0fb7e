import type { ShapeShift } from "../simulation/unit-truth.js";
import type { ModelName } from "./models.js";
import { planted } from "./planted.js";

/** What is told of one unit, and what was done with it when. */
export interface DemoUnit {
  readonly id: string;
  readonly model: ModelName;
  readonly sample: string;
  readonly received: string;
  readonly obtained: string;
  readonly condition: string;
  readonly status?: "held" | "returned" | "withdrawn";
  readonly note?: string;
  /** Dates of the sessions; testers other than the first are named. */
  readonly one?: string;
  readonly two?: string;
  readonly twoRig?: "tester-2";
  readonly film?: string;
  readonly oddKeys?: Readonly<Record<string, ShapeShift>>;
  /** What happened between the two keystroke sessions. */
  readonly moved?: ShapeShift;
  readonly oldFirmware?: string;
  readonly filmedKey?: string;
  readonly deviations?: readonly string[];
}

const shop = "Bought from a shop without the maker's knowledge";
const lent = "Lent by the maker for the trial";
const tender = "Delivered as a sample for a tender";
const sealed = "New, sealed";

/** The units, in the order of their receipt. */
export const demoUnits: readonly DemoUnit[] = [
  {
    id: "u01",
    model: "hall31",
    sample: "1",
    received: "2025-08-18",
    obtained: tender,
    condition: sealed,
    one: "2025-09-08",
    two: "2026-03-09",
    film: "2026-04-27",
  },
  {
    id: "u02",
    model: "hall31",
    sample: "2",
    received: "2025-08-18",
    obtained: tender,
    condition: sealed,
    note: "Kept back as the check standard of both force testers.",
    one: "2025-09-09",
    two: "2026-03-10",
    film: "2026-04-28",
  },
  {
    id: "u03",
    model: "hall31",
    sample: "3",
    received: "2025-08-18",
    obtained: tender,
    condition: sealed,
    one: "2025-09-11",
    two: "2026-03-12",
    film: "2026-04-29",
  },
  {
    id: "u04",
    model: "hall31",
    sample: "4",
    received: "2026-03-30",
    obtained: shop,
    condition: sealed,
    two: "2026-04-22",
    twoRig: "tester-2",
    film: "2026-05-04",
  },
  {
    id: "u05",
    model: "row8",
    sample: "1",
    received: "2025-08-25",
    obtained: shop,
    condition: sealed,
    one: "2025-09-15",
    two: "2026-03-17",
    film: "2026-05-06",
  },
  {
    id: "u06",
    model: "sprint2",
    sample: "1",
    received: "2025-08-25",
    obtained: shop,
    condition: sealed,
    one: "2025-09-17",
    two: "2026-03-19",
    film: "2026-05-11",
  },
  {
    id: "u07",
    model: "slate14",
    sample: "1",
    received: "2025-09-01",
    obtained: lent,
    condition: "Used for two weeks by the lender",
    one: "2025-09-22",
  },
  {
    id: "u08",
    model: "benchT",
    sample: "1",
    received: "2025-09-01",
    obtained: tender,
    condition: sealed,
    one: "2025-09-24",
    two: "2026-03-24",
    film: "2026-05-13",
  },
  {
    id: "u09",
    model: "benchT",
    sample: "2",
    received: "2025-09-01",
    obtained: tender,
    condition: sealed,
    note: "In use in hall 1 from October 2025 to February 2026.",
    one: "2025-09-25",
    two: "2026-03-26",
    film: "2026-05-14",
    moved: { forceCn: planted.springWorn.forceCn },
  },
  {
    id: "u10",
    model: "row8T",
    sample: "1",
    received: "2025-09-08",
    obtained: shop,
    condition: sealed,
    one: "2025-09-29",
    two: "2026-03-31",
    film: "2026-05-18",
    oddKeys: { [planted.outlierKey.key]: { forceCn: planted.outlierKey.forceCn } },
  },
  {
    id: "u11",
    model: "form102",
    sample: "1",
    received: "2025-09-08",
    obtained: tender,
    condition: "New, box opened at the gate",
    one: "2025-10-01",
    two: "2026-04-08",
    film: "2026-05-20",
  },
  {
    id: "u12",
    model: "form110",
    sample: "1",
    received: "2025-09-08",
    obtained: lent,
    condition: sealed,
    status: "returned",
    note: "Returned to the lender on 2026-01-30.",
    one: "2025-10-06",
  },
  {
    id: "u13",
    model: "slate9",
    sample: "1",
    received: "2025-09-15",
    obtained: shop,
    condition: sealed,
    note: "Membrane replaced by the maker's service in January 2026.",
    one: "2025-10-08",
    two: "2026-04-14",
    film: "2026-05-26",
    moved: { makeMm: planted.contactMoved.preTravelMm },
    deviations: ["Room at 25.9 °C while KeyA was measured; the method asks for at most 25 °C."],
  },
  {
    id: "u14",
    model: "fold3",
    sample: "1",
    received: "2025-09-15",
    obtained: shop,
    condition: sealed,
    one: "2025-10-13",
  },
  {
    id: "u15",
    model: "tallyC",
    sample: "1",
    received: "2025-09-22",
    obtained: tender,
    condition: sealed,
    one: "2025-10-15",
    two: "2026-04-02",
    twoRig: "tester-2",
    film: "2026-05-28",
  },
  {
    id: "u16",
    model: "tallyC2",
    sample: "1",
    received: "2025-09-22",
    obtained: tender,
    condition: sealed,
    one: "2025-10-20",
    two: "2026-05-19",
    twoRig: "tester-2",
    film: "2026-06-02",
    oldFirmware: "1.2",
    filmedKey: "KeyJ",
  },
  {
    id: "u17",
    model: "fold5",
    sample: "1",
    received: "2025-09-22",
    obtained: shop,
    condition: sealed,
    status: "withdrawn",
    note: "Withdrawn on 2026-02-20: water damage in hall 2.",
    one: "2025-10-22",
  },
  {
    id: "u18",
    model: "benchL",
    sample: "1",
    received: "2026-04-01",
    obtained: tender,
    condition: sealed,
    two: "2026-04-24",
    twoRig: "tester-2",
  },
];
