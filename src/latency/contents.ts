import type { LatencyMethod } from "../records/archive.js";
import type { ContentsRow, Stage } from "./model.js";

const stages: readonly (readonly [Stage, string])[] = [
  ["mechanics", "Mechanics"],
  ["contact_and_debounce", "Contact and debounce"],
  ["scan", "Scan"],
  ["link_and_polling", "Link and polling"],
  ["host_driver", "Host driver"],
  ["application", "Application"],
  ["display", "Display"],
];

/**
 * What is inside the latency of a method: seven stages in the order of a key press, each inside the number, subtracted
 * from it by a measured term, or outside it. Two methods whose rows differ do not measure the same thing; see
 * `differingStages`.
 *
 * Film runs from visible contact to the screen. Direct injection closes the contact electrically and stops at the host:
 * no mechanics, application or display. A light that reports the key's arrival runs from contact to the host.
 */
export function contentsOf(
  method: Pick<LatencyMethod, "observes" | "subtract" | "subtractTravel">,
): readonly ContentsRow[] {
  const film = method.observes === "film";
  const state = (stage: Stage): readonly [ContentsRow["state"], string] => {
    switch (stage) {
      case "mechanics":
        if (method.observes === "injection") return ["outside", "the contact is closed electrically"];
        return method.subtractTravel
          ? ["subtracted", "pre-travel over plunger speed; what the mechanics add beyond it stays inside"]
          : ["inside", "from first visible contact to the actuation position, at whatever speed the key is pressed"];
      case "host_driver":
        if (!method.subtract.includes("pc")) return ["inside", ""];
        return ["subtracted", "by the baseline device's path; its difference from the keyboard's is in the budget"];
      case "application":
        if (!film) return ["outside", "the response is taken at the host, before any application"];
        return method.subtract.includes("pc")
          ? ["subtracted", "with the computer's part of the baseline"]
          : ["inside", ""];
      case "display":
        if (!film) return ["outside", "no screen is observed"];
        return method.subtract.includes("display")
          ? ["subtracted", "scan-out and pixel response, as the baseline's detector sees them"]
          : ["inside", "scan-out and pixel response, as film sees them"];
      default:
        return ["inside", ""];
    }
  };
  return stages.map(([stage, label]) => {
    const [word, note] = state(stage);
    return { stage, label, state: word, note };
  });
}

/**
 * Stages that two methods do not hold alike. A difference of their results is "measurand and method" where this is not
 * empty; only where it is empty may it be called a bias.
 */
export function differingStages(a: readonly ContentsRow[], b: readonly ContentsRow[]): readonly Stage[] {
  return a.filter((row) => b.find((other) => other.stage === row.stage)?.state !== row.state).map((row) => row.stage);
}
