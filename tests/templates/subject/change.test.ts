import { expect, test } from "vitest";
import { readArchive } from "../../../src/records/index.js";
import { archiveScope } from "../../../src/templates/subject/archive.js";
import { changeScope, changesOf } from "../../../src/templates/subject/change.js";

const archive = readArchive(new URL("../../../data", import.meta.url).pathname);
const { change } = changeScope(archive, new Map(), "keystroke@2", ["latency@1", "keystroke@1", "scoring@2", "unknown@1"]);
const withStanding = (standing: string): readonly string[] =>
  change.units.filter((unit) => unit.standing === standing).map(({ id }) => id);

test("a unit is retested, pending, out of reach or new, by its sessions and by whether it is held", () => {
  expect(withStanding("pending")).toEqual(["u07", "u14"]);
  expect(withStanding("out_of_reach")).toEqual(["u12", "u17"]);
  expect(withStanding("new")).toEqual(["u04", "u18"]);
  expect(withStanding("retested")).toHaveLength(12);
});

test("a unit whose firmware differs between its sessions stands apart, and no other does", () => {
  const apart = change.units.filter(({ differences }) => differences.length > 0);
  expect(apart.map(({ id, differences }) => [id, differences])).toEqual([["u16", ["firmware was 1.2 and is 1.3"]]]);
});

test("a unit whose own note names a time between its sessions has it told, and no other does", () => {
  const told = change.units.filter(({ happened }) => happened !== "").map(({ id, happened }) => [id, happened]);
  expect(told).toEqual([
    ["u09", "In use in hall 1 from October 2025 to February 2026."],
    ["u13", "Membrane replaced by the maker's service in January 2026."],
  ]);
});

test("a firmware that is not recorded is no difference, and is said to leave one open", () => {
  const open = change.units.filter(({ unsettled }) => unsettled.length > 0).map(({ id, unsettled }) => [id, unsettled]);
  expect(open).toEqual([["u11", ["firmware is not recorded in either of the two sessions"]]]);
});

test("only measuring methods of the front matter that replace nothing are added", () => {
  expect(change.added.map(({ id }) => id)).toEqual(["latency@1"]);
  expect(changeScope(archive, new Map(), "keystroke@2").change.added).toEqual([]);
});

test("the scoring before is the one in force when the method came, the one after replaced it", () => {
  expect(change.scoring.before?.id).toBe("scoring@1");
  expect(change.scoring.after?.id).toBe("scoring@2");
});

test("the archive has its changes of method, and a scoring method makes none", () => {
  expect(changesOf(archive)).toEqual(["keystroke@2"]);
  expect(archiveScope(archive, new Map(), []).archive.changes.map(({ name }) => name)).toEqual([
    "keystroke@1 to keystroke@2",
  ]);
});

test("a method that replaces none is refused", () => {
  expect(() => changeScope(archive, new Map(), "keystroke@1")).toThrow(/replaces another/);
});
