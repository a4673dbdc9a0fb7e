import { expect, test } from "vitest";
import { contentsOf, differingStages } from "../../src/latency/contents.js";
import { filmMethod } from "./records.js";

const states = (...args: Parameters<typeof contentsOf>) =>
  contentsOf(...args).map((row) => `${row.stage} ${row.state}`);

test("film less travel, computer and display holds contact, scan and link", () => {
  expect(states(filmMethod())).toEqual([
    "mechanics subtracted",
    "contact_and_debounce inside",
    "scan inside",
    "link_and_polling inside",
    "host_driver subtracted",
    "application subtracted",
    "display subtracted",
  ]);
});

test("film with nothing subtracted holds all seven stages", () => {
  const rows = contentsOf(filmMethod({ subtract: [], subtractTravel: false }));
  expect(new Set(rows.map((row) => row.state))).toEqual(new Set(["inside"]));
});

test("direct injection leaves out mechanics, application and display", () => {
  expect(states(filmMethod({ observes: "injection", subtract: [], subtractTravel: false }))).toEqual([
    "mechanics outside",
    "contact_and_debounce inside",
    "scan inside",
    "link_and_polling inside",
    "host_driver inside",
    "application outside",
    "display outside",
  ]);
});

test("a light on arrival holds the mechanics unless travel is subtracted", () => {
  expect(states(filmMethod({ observes: "light", subtract: [], subtractTravel: false }))[0]).toBe("mechanics inside");
  expect(states(filmMethod({ observes: "light", subtract: [], subtractTravel: true }))[0]).toBe("mechanics subtracted");
});

test("methods that hold different stages name them; a method against itself has none", () => {
  const film = contentsOf(filmMethod());
  const injected = contentsOf(filmMethod({ observes: "injection", subtract: [], subtractTravel: false }));
  expect(differingStages(film, film)).toEqual([]);
  expect(differingStages(film, injected)).toEqual(["mechanics", "host_driver", "application", "display"]);
});
