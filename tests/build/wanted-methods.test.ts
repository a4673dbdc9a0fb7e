import { expect, test } from "vitest";
import { methodsAttention, wantedMethods } from "../../src/build/wanted-methods.js";
import type { Method } from "../../src/records/archive.js";
import type { Subject } from "../../src/templates/subjects.js";

const method = (id: string, kind: Method["kind"], since: string): Method => ({ id, kind, since }) as unknown as Method;
const archive = {
  methods: new Map(
    [
      method("latency@2", "latency", "2026-05-01"),
      method("press@1", "keystroke", "2025-01-01"),
      method("press@2", "keystroke", "2026-03-01"),
      method("scoring@1", "scoring", "2026-06-01"),
    ].map((each) => [each.id, each]),
  ),
};
const template = (methods: readonly string[], subject: Subject = "unit") => ({ file: "my.md", subject, methods });

test("a template that names no method shows results by the archive's own, newest first, and says nothing of it", () => {
  expect(wantedMethods(template([]), archive).ids).toEqual(["press@2", "press@1", "latency@2"]);
  expect(wantedMethods(template([], "archive"), archive).ids).toEqual(["press@2", "press@1", "latency@2"]);
  expect(methodsAttention(template([]), archive)).toEqual([]);
});

test("a template whose methods the archive has shows those alone: a kind that is left out stays out", () => {
  expect(wantedMethods(template(["press@1"]), archive)).toEqual({ ids: ["press@1"], replaced: [] });
});

test("where the archive has none of the kind that a template names, its own stand in, and that is said", () => {
  const named = template(["keystroke@2", "keystroke@1", "latency@2"]);
  expect(wantedMethods(named, archive).ids).toEqual(["keystroke@2", "keystroke@1", "latency@2", "press@2", "press@1"]);
  expect(methodsAttention(named, archive)).toEqual([
    { kind: "retest", where: "my.md", text: "names no keystroke method of this archive; press@2, press@1 stand in" },
  ]);
});

test("a named method that the archive has covers its kind, though an older one beside it is absent", () => {
  expect(wantedMethods(template(["press@2", "press@0", "latency@2"]), archive).replaced).toEqual([]);
  expect(wantedMethods(template(["press@2", "press@0", "latency@2"]), archive).ids.slice(3)).toEqual([]);
});

test("an absent method of a name that tells no kind brings nothing in, unless the template names nothing else", () => {
  expect(wantedMethods(template(["latency@2", "injection@1"]), archive).replaced).toEqual([]);
  expect(wantedMethods(template(["injection@1"]), archive).replaced).toEqual(["keystroke", "latency"]);
});

test("another version of an absent method tells its kind", () => {
  expect(wantedMethods(template(["latency@2", "press@9"]), archive).ids).toEqual(["latency@2", "press@9", "press@2", "press@1"]); // prettier-ignore
});

test("templates about a change, a study or a rig keep what they name", () => {
  for (const subject of ["change", "study", "rig"] as const) {
    expect(wantedMethods(template(["keystroke@9"], subject), archive)).toEqual({ ids: ["keystroke@9"], replaced: [] });
  }
});
