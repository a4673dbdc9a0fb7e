import { characteristicNames, characteristicSymbols } from "../../src/keystroke/index.js";
import type { KeyCharacteristics, KeyReduction, KeystrokeReduction } from "../../src/keystroke/index.js";
import { Absent, Quantity, evidenceStep, normalSource, observedSource } from "../../src/metrology/index.js";
import type { Measured } from "../../src/metrology/index.js";

const evidence = evidenceStep("synthetic", []);

function characteristics(actuationForce: Measured<"cN">): KeyCharacteristics {
  const entries = characteristicNames.map((name) => [name, new Absent(characteristicSymbols[name], "not simulated")]);
  return { ...(Object.fromEntries(entries) as unknown as KeyCharacteristics), actuationForce };
}

/** A key whose cycles read the given forces: its own scatter, and a span and a zero that the rig's keys share. */
export function syntheticKey(
  session: string,
  key: string,
  forces: readonly number[],
  rig: { readonly id: string; readonly u: number } = { id: "rig/t1/zero", u: 0.2 },
  curveKind: KeyReduction["curveKind"] = "linear",
): KeyReduction {
  const mean = forces.reduce((a, b) => a + b, 0) / forces.length;
  const sd = Math.sqrt(forces.reduce((a, b) => a + (b - mean) ** 2, 0) / Math.max(1, forces.length - 1));
  const own = observedSource(
    `key/${session}/${key}/actuationForce/cycles`,
    "Scatter of the cycles",
    sd / Math.sqrt(forces.length),
    "cN",
    forces.length - 1,
  );
  const zero = normalSource(rig.id, "Zero of the force tester", rig.u, "cN");
  const value = new Quantity(
    mean,
    "cN",
    [
      { source: own, contribution: own.u },
      { source: zero, contribution: zero.u },
    ],
    evidence,
  );
  return {
    ...characteristics(value),
    key,
    curveKind,
    cycles: forces.map((force, i) => ({
      key,
      cycle: i + 1,
      used: true,
      reason: "",
      characteristics: characteristics(new Quantity(force, "cN", [], evidence)),
      curve: { press: [], release: [] },
      flags: [],
      evidence,
    })),
    medianCycle: 1,
    evidence,
  };
}

export function syntheticReduction(session: string, keys: readonly KeyReduction[]): KeystrokeReduction {
  const [unit = "", id = ""] = session.split("/");
  return {
    kind: "keystroke",
    unit,
    session: id,
    method: "",
    keys,
    missingKeys: [],
    representativeKey: keys[0]?.key ?? "",
    flags: [],
  };
}
