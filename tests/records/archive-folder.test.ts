import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { appendFileSync, mkdirSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import type { Problem } from "../../src/records/index.js";
import { checkArchive, compareText, readArchive, readLatency, readStrokes } from "../../src/records/index.js";
import { makeArchive, validArchive, withArchive } from "./make-archive.js";

const brief = (problems: readonly Problem[]): readonly string[] => problems.map((p) => `${p.code} ${p.file}`);
const force = "units/u01/s1/force.csv";

test("a folder that is not there, and a file in its place, are one error and an empty archive", () => {
  withArchive({}, (root) => {
    for (const path of [join(root, "nowhere"), join(root, "lab.yaml")]) {
      const { archive, problems } = checkArchive(path);
      expect(brief(problems)).toEqual(["E_ARCHIVE_ABSENT ."]);
      expect(archive.units).toEqual([]);
      expect(archive.root).toBe(path);
    }
  });
});

test("every file is listed with its size and sha256, sorted by code unit, unknown ones too", () => {
  withArchive({ "units/u01/s1/Notes.txt": "by hand\n" }, (root) => {
    const { files } = readArchive(root);
    expect([...files.keys()]).toEqual([...Object.keys(validArchive()), "units/u01/s1/Notes.txt"].sort(compareText));
    const text = validArchive()[force]!;
    const sha256 = createHash("sha256").update(text).digest("hex");
    expect(files.get(force)).toEqual({ path: force, bytes: text.length, sha256 });
  });
});

test("what version control keeps and a README beside lab.yaml are no news", () => {
  const files = { "README.md": "# Data\n", ".gitattributes": "*.csv -text\n" };
  withArchive(files, (root) => {
    const { archive, problems } = checkArchive(root);
    expect(problems).toEqual([]);
    expect(archive.files.has(".gitattributes")).toBe(false);
  });
});

test("files as received stand in received/ and nowhere else", () => {
  withArchive({ "units/u01/s1/source/run 7.txt": "raw" }, (root) => {
    const { archive, problems } = checkArchive(root);
    expect(brief(problems)).toEqual(["W_FOLDER_UNKNOWN units/u01/s1/source"]);
    expect(archive.files.has("units/u01/s1/source/run 7.txt")).toBe(false);
  });
});

test("an archive reached through a link is read", () => {
  withArchive({}, (root) => {
    const link = `${root}-link`;
    symlinkSync(root, link);
    try {
      expect(checkArchive(link).problems).toEqual([]);
    } finally {
      rmSync(link);
    }
  });
});

test("a link to a file inside the archive is read; out of it, to a folder, or nowhere it is refused", () => {
  withArchive({}, (root) => {
    const other = makeArchive();
    try {
      const at = (path: string): string => join(root, path);
      rmSync(at(force));
      symlinkSync("../s2/force-kept.csv", at(force));
      writeFileSync(at("units/u01/s2/force-kept.csv"), validArchive()[force]!);
      symlinkSync(join(other.root, "lab.yaml"), at("rigs/outside"));
      symlinkSync("/etc", at("units/u01/etc"));
      symlinkSync("u01", at("units/u02"));
      symlinkSync("nowhere.yaml", at("methods/latency-9.yaml"));
      symlinkSync("loop", at("studies/loop"));
      expect(brief(checkArchive(root).problems)).toEqual([
        "E_LINK_REFUSED methods/latency-9.yaml",
        "E_LINK_OUTSIDE rigs/outside",
        "E_LINK_REFUSED studies/loop",
        "E_LINK_OUTSIDE units/u01/etc",
        "W_FILE_UNKNOWN units/u01/s2/force-kept.csv",
        "E_LINK_REFUSED units/u02",
      ]);
    } finally {
      other.remove();
    }
  });
});

test("a pipe is refused without being opened", () => {
  withArchive({}, (root) => {
    execFileSync("mkfifo", [join(root, "units/u01/s2/timings.csv")]);
    expect(brief(checkArchive(root).problems)).toEqual(["E_FILE_NOT_REGULAR units/u01/s2/timings.csv"]);
  });
});

test("a raw file that changes or goes away after the archive was read is an error, and gives no strokes", () => {
  withArchive({}, (root) => {
    const archive = readArchive(root);
    const session = archive.units[0]!.sessions[0]!;
    appendFileSync(join(root, force), "KeyF,3,press,0,0,0\n");
    const changed = readStrokes(archive, session);
    expect(brief(changed.problems)).toEqual([`E_FILE_CHANGED ${force}`]);
    expect(changed.strokes).toEqual([]);
    rmSync(join(root, force));
    expect(brief(readStrokes(archive, session).problems)).toEqual([`E_FILE_UNREADABLE ${force}`]);
  });
});

test("asking for strokes where there is no force.csv is an error, not an empty list alone", () => {
  withArchive({}, (root) => {
    const archive = readArchive(root);
    const { strokes, problems } = readStrokes(archive, archive.units[0]!.sessions[1]!);
    expect(strokes).toEqual([]);
    expect(brief(problems)).toEqual(["E_FILE_MISSING units/u01/s2/session.yaml"]);
  });
});

test("reading descriptions does not read the rows of sessions", () => {
  withArchive({ [force]: "nonsense", "units/u01/s2/presses.csv": "\0" }, (root) => {
    expect(readArchive(root).problems).toEqual([]);
    expect(checkArchive(root).problems.length).toBeGreaterThan(0);
  });
});

test("the tables of a session whose description cannot be read are checked all the same", () => {
  withArchive({ "units/u01/s1/session.yaml": "id: [", [force]: "key,cycle\nKeyF,1\n" }, (root) => {
    expect(brief(checkArchive(root).problems)).toEqual([
      ...Array.from({ length: 4 }, () => `E_COLUMN_MISSING ${force}`),
      "E_YAML_UNCLOSED units/u01/s1/session.yaml",
    ]);
  });
});

test("the sessions of a unit whose description cannot be read are checked all the same", () => {
  const files = {
    "units/u01/unit.yaml": null,
    "units/u01/s1/session.yaml": validArchive()["units/u01/s1/session.yaml"]!.replace("operator-1", "operator-9"),
    "units/u01/s2/films.csv": "clip\n",
  };
  withArchive(files, (root) => {
    const { archive, problems } = checkArchive(root);
    expect(archive.units).toEqual([]);
    expect([...new Set(brief(problems))]).toEqual([
      "E_ROLE_UNKNOWN units/u01/s1/session.yaml",
      "E_COLUMN_MISSING units/u01/s2/films.csv",
      "E_FILE_MISSING units/u01/unit.yaml",
    ]);
  });
});

test("folders that stand empty or hold folders only are reported by what they lack", () => {
  withArchive({}, (root) => {
    for (const folder of ["units/u02/s1", "rigs/light-1", "studies/later", "methods/old"]) {
      mkdirSync(join(root, folder), { recursive: true });
    }
    expect(brief(checkArchive(root).problems)).toEqual([
      "W_FOLDER_UNKNOWN methods/old",
      "E_FILE_MISSING rigs/light-1/rig.yaml",
      "E_FILE_MISSING studies/later/readings.csv",
      "E_FILE_MISSING studies/later/study.yaml",
      "E_FILE_MISSING units/u02/s1/session.yaml",
      "E_FILE_MISSING units/u02/unit.yaml",
    ]);
  });
});

test("of many problems of one code in one file the first are kept and the others counted", () => {
  const rows = Array.from({ length: 50 }, (_, i) => `KeyF,1,press,${i / 10},${i % 2 === 0 ? "x" : `y${i}`},0`);
  const files = { [force]: ["key,cycle,stroke,displacement_mm,force_cN,contact", ...rows, ""].join("\n") };
  withArchive(files, (root) => {
    const { problems } = checkArchive(root, { problemsPerCode: 3 });
    const numbers = problems.filter((p) => p.code === "E_NUMBER");
    expect(numbers.map((p) => p.line)).toEqual([2, 3, 4]);
    expect(numbers.map((p) => p.notes)).toEqual([[], [], ["47 more of E_NUMBER in this file"]]);
    const all = checkArchive(root).problems.filter((p) => p.code === "E_NUMBER");
    expect(all).toHaveLength(20);
    expect(all.filter((p) => p.found === "x").map((p) => p.line)).toEqual([2, 4, 6]);
    expect(all.at(-1)!.notes).toEqual(["30 more of E_NUMBER in this file"]);
  });
});

test("an option that does not exist is refused with the near name", () => {
  const options = { problemsPerCodes: 3 } as object;
  expect(() => readArchive(".", options)).toThrow(/no option "problemsPerCodes"; did you mean "problemsPerCode"\?/);
  expect(() => readArchive(".", { problemsPerCode: NaN })).toThrow(/the limit is NaN/);
});

test("a smaller size limit is kept, in descriptions and in the tables read with them", () => {
  withArchive({}, (root) => {
    const { problems } = readArchive(root, { limits: { csvBytes: 200, yamlBytes: 300 } });
    expect(new Set(problems.filter((p) => p.code === "E_FILE_HUGE").map((p) => p.file))).toEqual(
      new Set([
        "lab.yaml",
        "methods/keystroke-1.yaml",
        "methods/keystroke-2.yaml",
        "methods/scoring-1.yaml",
        "rigs/camera-1/rig.yaml",
        "rigs/tester-1/rig.yaml",
        "studies/crossed-1/readings.csv",
        "units/u01/s1/session.yaml",
        "units/u01/s2/session.yaml",
        "units/u01/unit.yaml",
      ]),
    );
  });
});

test("an archive reads the same whatever the working folder and time zone", () => {
  withArchive({ [force]: (text) => text.replace("0.500", "0,500") }, (root) => {
    const before = process.env["TZ"];
    const first = JSON.stringify([checkArchive(root).problems, readArchive(root).units]);
    process.env["TZ"] = "America/St_Johns";
    try {
      expect(JSON.stringify([checkArchive(root).problems, readArchive(root).units])).toBe(first);
    } finally {
      process.env["TZ"] = before;
    }
  });
});

test("the readings of a latency session without films, baseline or timings are lists of none", () => {
  withArchive({ "units/u01/s2/films.csv": null, "units/u01/s2/baseline.csv": null }, (root) => {
    const archive = readArchive(root);
    const { readings, problems } = readLatency(archive, archive.units[0]!.sessions[1]!);
    expect([readings.presses.length, readings.films, readings.baseline, readings.timings]).toEqual([5, [], [], []]);
    expect(problems).toEqual([]);
    expect(brief(archive.problems)).toEqual(
      Array.from({ length: 2 }, () => "E_FILE_MISSING units/u01/s2/session.yaml"),
    );
  });
});
