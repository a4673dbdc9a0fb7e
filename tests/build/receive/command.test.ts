import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, readdirSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { checkArchive } from "../../../src/records/index.js";
import type { Ended } from "../../cli/run-benchfolio.js";
import { inTemporaryFolder, runBenchfolio } from "../../cli/run-benchfolio.js";
import { makeArchive } from "../../records/make-archive.js";

const down = Array.from({ length: 24 }, (_, i) => [(0.15 * i).toFixed(2), (i < 3 ? 0.1 * i : 3 * i).toFixed(1)]);
const stream = (key: number, cycles = 2): string =>
  Array.from({ length: cycles }, (_, cycle) =>
    [...down, ...down.toReversed()].map(([mm, n]) => `${mm},${n}${key}${cycle}`).join("\n"),
  ).join("\n");
const columns = `kind: force
displacement: { column: mm, unit: mm }
force: { column: load, unit: cN }
key: { file_name: "{key}.csv" }
stroke: { from: stream }
cycle: { from: order }
`;

interface Bench {
  readonly folder: string;
  readonly data: string;
  readonly receive: (files: readonly string[], ...more: readonly string[]) => Promise<Ended>;
}

/** A temporary folder with an archive, a columns file and the exports of two keys. */
async function onBench<T>(use: (bench: Bench) => Promise<T>): Promise<T> {
  return inTemporaryFolder(async (folder) => {
    const { root, remove } = makeArchive();
    try {
      writeFileSync(join(folder, "columns.yaml"), columns);
      writeFileSync(join(folder, "KeyF.csv"), `mm,load\n${stream(1)}\n`);
      writeFileSync(join(folder, "KeyA.csv"), `mm,load\r\n${stream(2).replaceAll("\n", "\r\n")}\r\n`);
      const receive: Bench["receive"] = (files, ...more) =>
        runBenchfolio(
          [
            "receive",
            ...files,
            "--columns",
            "columns.yaml",
            "--unit",
            "u01",
            "--session",
            "s3",
            "--data",
            root,
            ...more,
          ],
          { cwd: folder },
        );
      return await use({ folder, data: root, receive });
    } finally {
      remove();
    }
  });
}

function everythingIn(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" }).toSorted();
}

test("files become a record with the files as they came, their hashes, and a description to complete", async () => {
  await onBench(async ({ folder, data, receive }) => {
    const { code, stdout, stderr } = await receive(["KeyF.csv", "KeyA.csv"]);
    expect([code, stderr]).toEqual([0, ""]);
    const session = join(data, "units/u01/s3");
    expect(everythingIn(session)).toEqual([
      "force.csv",
      "received",
      "received/KeyA.csv",
      "received/KeyF.csv",
      "received/columns.yaml",
      "received/received.yaml",
      "session.yaml",
    ]);
    for (const name of ["KeyF.csv", "KeyA.csv", "columns.yaml"]) {
      expect(readFileSync(join(session, "received", name))).toEqual(readFileSync(join(folder, name)));
    }
    const note = readFileSync(join(session, "received/received.yaml"), "utf8");
    for (const path of [join(folder, "KeyA.csv"), join(folder, "columns.yaml"), join(session, "force.csv")]) {
      expect(note).toContain(createHash("sha256").update(readFileSync(path)).digest("hex"));
    }
    expect(stdout).toContain("KeyF: cycles 1, 2: 2 presses, 2 releases; lines 2 to 97");
    expect(stdout).toContain("write method, rig, operator, start, end into it");
    expect(existsSync(join(data, "units/u01/.receiving-s3"))).toBe(false);

    const before = checkArchive(data).problems;
    expect(before.map(({ code: each, file }) => `${each} ${file}`)).toEqual(
      Array(5).fill("E_VALUE_EMPTY units/u01/s3/session.yaml"),
    );
    const description = readFileSync(join(session, "session.yaml"), "utf8")
      .replace(/^method:.*/m, "method: keystroke@2")
      .replace(/^rig:.*/m, "rig: tester-1")
      .replace(/^operator:.*/m, "operator: operator-1")
      .replace(/^start:.*/m, "start: 2026-03-09T09:10:00Z")
      .replace(/^end:.*/m, "end: 2026-03-09T10:02:00Z")
      .replace(/^# press_speed/m, "press_speed");
    writeFileSync(join(session, "session.yaml"), description);
    const { archive, problems } = checkArchive(data);
    expect(problems).toEqual([]);
    expect(archive.files.has("units/u01/s3/received/KeyF.csv")).toBe(true);
  });
});

test("a record that is there is never changed, and the next free session is named", async () => {
  await onBench(async ({ data, receive }) => {
    expect((await receive(["KeyF.csv"])).code).toBe(0);
    const standing = readFileSync(join(data, "units/u01/s3/force.csv"));
    const { code, stderr, stdout } = await receive(["KeyA.csv"]);
    expect([code, stdout]).toEqual([2, ""]);
    expect(stderr).toContain("units/u01/s3/force.csv is there already, and a record is never changed after receipt");
    expect(stderr).toContain("--session s4");
    expect(readFileSync(join(data, "units/u01/s3/force.csv"))).toEqual(standing);
  });
});

test("a description that is there is kept; one of another kind of method refuses the table", async () => {
  await onBench(async ({ data, receive }) => {
    const session = join(data, "units/u01/s3");
    mkdirSync(session);
    const written = readFileSync(join(data, "units/u01/s1/session.yaml"), "utf8").replace("id: s1", "id: s3");
    writeFileSync(join(session, "session.yaml"), written);
    const { code, stdout } = await receive(["KeyF.csv", "KeyA.csv"]);
    expect(code).toBe(0);
    expect(stdout).not.toContain("session.yaml");
    expect(readFileSync(join(session, "session.yaml"), "utf8")).toBe(written);

    const other = await receive(["KeyF.csv"], "--session", "s2");
    expect(other.code).toBe(2);
    expect(other.stderr).toContain("units/u01/s2 is a session of latency@1, which uses presses.csv");
  });
});

test("an error in one file leaves the archive as it was, and is shown in its place", async () => {
  await onBench(async ({ folder, data, receive }) => {
    writeFileSync(join(folder, "KeyA.csv"), `mm,load\n${stream(2).replace("0.45,", "0;45,")}\n`);
    const before = everythingIn(data);
    const { code, stdout, stderr } = await receive(["KeyF.csv", "KeyA.csv"]);
    expect(code).toBe(1);
    expect(stdout).toContain("KeyA.csv:5:1 E_NUMBER");
    expect(stdout).toContain("  5 | 0;45,9.020\n    | ^^^^\n  hint: ");
    expect(stderr).toContain("Nothing was written.");
    expect(everythingIn(data)).toEqual(before);
  });
});

test("a trial says what would be received and writes nothing", async () => {
  await onBench(async ({ data, receive }) => {
    const before = everythingIn(data);
    const { code, stdout } = await receive(["KeyF.csv"], "--dry-run");
    expect(code).toBe(0);
    expect(stdout).toContain("96 rows of 1 file would become units/u01/s3/force.csv; nothing was written");
    expect(everythingIn(data)).toEqual(before);
  });
});

test("wrong usage exits 2 with the remedy: unit, session, folder, missing options", async () => {
  await onBench(async ({ folder, data, receive }) => {
    const cases: readonly (readonly [readonly string[], string])[] = [
      [["--unit", "u1"], 'did you mean "u01"?'],
      [["--unit", "keyboard"], "describe it first"],
      [["--unit", "../u01"], "has no unit"],
      [["--session", "S 3"], "lower-case letters"],
      [["--data", "nowhere"], "--data DIR"],
    ];
    for (const [more, says] of cases) {
      const { code, stderr } = await receive(["KeyF.csv"], ...more);
      expect([more, code]).toEqual([more, 2]);
      expect(stderr).toContain(says);
      expect(stderr).not.toContain("    at ");
    }
    const bare = await runBenchfolio(["receive", "KeyF.csv", "--data", data], { cwd: folder });
    expect(bare.code).toBe(2);
    expect(bare.stderr).toContain("--columns FILE.yaml, --unit ID, --session ID");
    const none = await runBenchfolio(["receive"], { cwd: folder });
    expect(none.code).toBe(2);
  });
});

test("folders, missing files and a missing columns file are problems with their names, never a stack", async () => {
  await onBench(async ({ folder, receive }) => {
    const { code, stdout } = await receive([".", "KeyZ.csv"]);
    expect(code).toBe(1);
    expect(stdout).toContain(".:1:1 E_NO_FILE  this is no file: a folder");
    expect(stdout).toContain("KeyZ.csv:1:1 E_FILE_UNREADABLE");
    rmSync(join(folder, "columns.yaml"));
    const without = await receive(["KeyF.csv"]);
    expect([without.code, without.stderr.includes("    at ")]).toEqual([1, false]);
    expect(without.stdout).toContain("columns.yaml:1:1 E_FILE_UNREADABLE");
  });
});

test("two exports of one name from two folders are both kept, and a link is followed", async () => {
  await onBench(async ({ folder, data, receive }) => {
    for (const key of ["KeyF", "KeyA"]) {
      mkdirSync(join(folder, "x", key), { recursive: true });
      symlinkSync(join(folder, `${key}.csv`), join(folder, "x", key, "columns.yaml"));
    }
    writeFileSync(join(folder, "columns.yaml"), columns.replace("{key}.csv", "{key}/columns.yaml"));
    const { code } = await receive(["x/KeyF/columns.yaml", "x/KeyA/columns.yaml"]);
    expect(code).toBe(0);
    const received = join(data, "units/u01/s3/received");
    expect(everythingIn(received)).toEqual(["1-columns.yaml", "2-columns.yaml", "columns.yaml", "received.yaml"]);
    expect(readFileSync(join(received, "received.yaml"), "utf8")).toContain("given_as: KeyA/columns.yaml");
    expect(readFileSync(join(received, "2-columns.yaml"))).toEqual(readFileSync(join(folder, "KeyA.csv")));
  });
});

test("many cycles are named as a range, and one that lacks its release is named", async () => {
  await onBench(async ({ folder, receive }) => {
    const cut = down.map((row) => row.join(",")).join("\n");
    writeFileSync(join(folder, "KeyF.csv"), `mm,load\n${stream(1, 4)}\n${cut}\n`);
    const { code, stdout } = await receive(["KeyF.csv"], "--dry-run");
    expect(code).toBe(0);
    expect(stdout).toContain("KeyF: cycles 1 to 5: 5 presses, 4 releases, no release in cycle 5; lines 2 to 217");
  });
});

test("the result as JSON names what was taken, left out and written", async () => {
  await onBench(async ({ receive }) => {
    const done = JSON.parse((await receive(["KeyF.csv"], "--json")).stdout) as Record<string, unknown>;
    expect(done).toMatchObject({ received: true, table: "force.csv", rows: 96, problems: [] });
    const again = await receive(["KeyF.csv", "KeyF.csv"], "--json", "--session", "s4");
    expect(again.code).toBe(1);
    expect(JSON.parse(again.stdout)).toMatchObject({ received: false, problems: [{ code: "E_FILE_TWICE" }] });
  });
});

test("a proposal on standard output is a columns file that receives the files", async () => {
  await onBench(async ({ folder, receive }) => {
    const guessed = await runBenchfolio(["receive", "--guess", "KeyF.csv", "KeyA.csv"], { cwd: folder });
    expect(guessed.code).toBe(0);
    expect(guessed.stderr).toContain("unsure: force\nlikely: kind, displacement, cycle");
    writeFileSync(join(folder, "columns.yaml"), guessed.stdout);
    const { code, stdout } = await receive(["KeyF.csv", "KeyA.csv"]);
    expect([code, stdout.includes("KeyA: cycles 1, 2: 2 presses, 2 releases")]).toEqual([0, true]);
  });
});

test("an interrupted receipt leaves all of the record or none, whenever it is interrupted", async () => {
  await onBench(async ({ folder, data }) => {
    const big = `mm,load\n${stream(1, 300)}\n`;
    for (const [i, key] of ["KeyB", "KeyC", "KeyD"].entries()) {
      writeFileSync(join(folder, `${key}.csv`), big.replaceAll("\n", `${i}\n`).replace(`load${i}`, "load"));
    }
    const before = everythingIn(data);
    const ends: string[] = [];
    for (const delayMs of [60, 250, 450, 700]) {
      const session = `c${delayMs}`;
      const { code } = await new Promise<Ended>((resolve, reject) => {
        const args = ["receive", "KeyB.csv", "KeyC.csv", "KeyD.csv", "--columns", "columns.yaml", "--unit", "u01"];
        runBenchfolio([...args, "--session", session, "--data", data], {
          cwd: folder,
          onStart: (child) => void setTimeout(() => child.kill("SIGINT"), delayMs),
        }).then(resolve, reject);
      });
      const written = existsSync(join(data, "units/u01", session));
      ends.push(`${code} ${written ? everythingIn(join(data, "units/u01", session)).length : 0}`);
      rmSync(join(data, "units/u01", session), { recursive: true, force: true });
      expect(everythingIn(data)).toEqual(before);
    }
    // All of it, done or interrupted just after; or none, by our own leave or by the signal itself.
    expect(ends.filter((end) => !["0 8", "130 8", "130 0", "null 0"].includes(end))).toEqual([]);
    expect(ends.some((end) => end.endsWith(" 0"))).toBe(true);
  });
});
