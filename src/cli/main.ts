#!/usr/bin/env node
import { Command, CommanderError, Option } from "commander";
import { readFileSync } from "node:fs";
import type { DraftArguments } from "./draft.js";
import type { ReceiveArguments } from "./receive.js";
import { UsageError, exitCodes } from "./exit.js";

/** Reads the arguments, runs one command, sets the exit code. A command's floor is loaded only when it is called. */
async function main(): Promise<number> {
  const manifest = JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8")) as {
    version: string;
  };
  let code: number = exitCodes.done;
  const program = new Command("benchfolio")
    .description("Turns a keyboard lab's raw measurements and Markdown templates into dossiers that can be defended.")
    .version(manifest.version, "-V, --version", "print the version")
    .helpOption("-h, --help", "print this help, or a command's")
    .exitOverride()
    .configureOutput({ outputError: (text, write) => write(text) })
    .showHelpAfterError("(run benchfolio --help, or benchfolio COMMAND --help)");

  program
    .command("draft")
    .summary("check and reduce an archive, then write its dossiers and reports")
    .description(
      "Checks the archive, reduces its raw measurements and writes one static HTML dossier for every subject of every " +
        "template. Nothing is written where the archive has errors. A failing cell shows its problem in its place; the " +
        "rest is built and the command exits 1.",
    )
    .argument("[dir]", "folder of the archive, as with --data")
    .option("--data <dir>", "folder of the archive", "data")
    .option("--out <dir>", "folder that is written to", "reports/draft")
    .addOption(repeated("--template <file>", "a template; may be repeated", "the templates that ship"))
    .addOption(repeated("--unit <id>", "only dossiers of this unit; may be repeated", "every subject"))
    .option("--workers <n>", "processes that work side by side (default: the number of processors)", parseWorkers)
    .option("--fresh", "reduce every session again instead of using kept results", false)
    .option("--json", "print the result as JSON", false)
    .addHelpText(
      "after",
      `
Examples:
  $ benchfolio draft                                   the archive in data/ to reports/draft/
  $ benchfolio draft --unit u07                        one unit's dossier
  $ benchfolio draft --template my-report.md --out /tmp/try
  $ benchfolio draft ../lab-archive --json | jq .attention

Exit code: 0 done; 1 the archive or a template has problems; 2 wrong usage or unreadable input.`,
    )
    .action(async (dir: string | undefined, options: DraftArguments, command: Command) => {
      if (dir !== undefined && command.getOptionValueSource("data") === "cli" && options.data !== dir) {
        throw new UsageError(
          `the archive is named twice: ${dir} and ${options.data}`,
          "name one folder, with --data or without",
        );
      }
      const { runDraft } = await import("./draft.js");
      code = await runDraft(dir === undefined ? options : { ...options, data: dir });
    });

  program
    .command("check")
    .summary("list every problem of an archive")
    .description(
      "Reads every file of the archive and lists every problem with its file, line, column, the text that offends and " +
        "a remedy. Changes nothing.",
    )
    .argument("[dir]", "folder of the archive", "data")
    .option("--codes", "list every code that a check can report, with its meaning", false)
    .option("--json", "print the problems as JSON", false)
    .addHelpText(
      "after",
      `
Examples:
  $ benchfolio check                                   the archive in data/
  $ benchfolio check ../lab-archive
  $ benchfolio check --json | jq '.problems[].code'

Exit code: 0 no errors (warnings may be listed); 1 errors; 2 wrong usage or unreadable input.`,
    )
    .action(async (dir: string, options: { readonly json: boolean; readonly codes: boolean }) => {
      const { runCheck } = await import("./check.js");
      code = runCheck(dir, options);
    });

  program
    .command("receive")
    .summary("turn a tester's or camera sheet's export into a record")
    .description(
      "Reads exports as a columns file says (which column is what, in which unit of measure, where the key's name comes " +
        "from), holds the rows against every check of an archive, and writes them as a session's table, with the files " +
        "as they came beside it and a note of what was taken and left out. Nothing is rounded, nothing that is there is " +
        "changed, and nothing is written where a file has errors.",
    )
    .argument("<file...>", "the exports, in the order in which they were recorded")
    .option("--columns <file>", "the columns file (docs/receive.md)")
    .option("--unit <id>", "the unit, which the archive describes")
    .option("--session <id>", "the session, which has no record yet")
    .option("--data <dir>", "folder of the archive", "data")
    .option("--dry-run", "say what would be received and write nothing", false)
    .option("--guess", "propose a columns file for these files and say how sure each part is", false)
    .option("--json", "print the result as JSON", false)
    .addHelpText(
      "after",
      `
Examples:
  $ benchfolio receive --guess exports/*.csv > columns.yaml
  $ benchfolio receive exports/*.csv --columns columns.yaml --unit u07 --session s3 --dry-run
  $ benchfolio receive exports/*.csv --columns columns.yaml --unit u07 --session s3

Exit code: 0 received (or proposed); 1 a file has problems, nothing was written; 2 wrong usage, or the session has a
record already.`,
    )
    .action(async (files: string[], options: ReceiveArguments) => {
      const { runReceive } = await import("./receive.js");
      code = await runReceive(files, options, `benchfolio ${manifest.version}`);
    });

  try {
    await program.parseAsync();
  } catch (error) {
    return report(error);
  }
  return code;
}

/** An option that may be given several times; none given is an empty list, told in the help as `otherwise`. */
function repeated(flags: string, description: string, otherwise: string): Option {
  const collect = (value: string, earlier: readonly string[]): readonly string[] => [...earlier, value];
  return new Option(flags, description).argParser(collect).default([], otherwise);
}

function parseWorkers(text: string): number {
  const workers = Number(text);
  if (!Number.isInteger(workers) || workers < 1 || workers > 64) {
    throw new UsageError(
      `--workers is "${text}"; it must be a whole number from 1 to 64`,
      "leave it out for one a processor",
    );
  }
  return workers;
}

/** Prints what ended the run: a mistake in one line with its remedy, a fault of ours with its stack. */
function report(error: unknown): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? exitCodes.done : exitCodes.usage;
  if (error instanceof UsageError) {
    process.stderr.write(`benchfolio: ${error.message}\n  hint: ${error.hint}\n`);
    return exitCodes.usage;
  }
  const stack = error instanceof Error ? (error.stack ?? error.message) : String(error);
  process.stderr.write(`${stack}\n\nThis is a fault of benchfolio itself. Please report it with the lines above.\n`);
  return exitCodes.fault;
}

// A reader that left early, such as `head`, is no fault: what it does not want is not written, and the command goes on.
for (const stream of [process.stdout, process.stderr]) {
  stream.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error;
  });
}
// Leaving through `exit` lets whatever is under way take its children and temporary files with it.
process.once("SIGINT", () => process.exit(exitCodes.interrupted));
process.once("SIGTERM", () => process.exit(exitCodes.terminated));
process.exitCode = await main();
