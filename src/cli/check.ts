import { checkArchive, isFolder, problemCatalogue } from "../records/index.js";
import { UsageError, exitCodes } from "./exit.js";
import { printProblems, problemJson } from "./print-problems.js";
import { openTerminal } from "./terminal.js";

export interface CheckArguments {
  readonly json: boolean;
  readonly codes: boolean;
}

/** Runs `benchfolio check` and returns its exit code. */
export function runCheck(dir: string, options: CheckArguments): number {
  const terminal = openTerminal(options);
  if (options.codes) {
    if (options.json) terminal.json(problemCatalogue);
    else
      for (const { code, severity, explanation } of problemCatalogue)
        terminal.line(`${code.padEnd(24)} ${severity.padEnd(8)} ${explanation}`);
    return exitCodes.done;
  }
  if (!isFolder(dir)) {
    throw new UsageError(`there is no folder ${dir}`, "name the folder that holds lab.yaml: benchfolio check DIR");
  }
  const { archive, problems } = checkArchive(dir);
  const errors = problems.filter(({ severity }) => severity === "error").length;
  if (options.json) {
    terminal.json({
      archive: dir,
      units: archive.units.length,
      files: archive.files.size,
      problems: problems.map(problemJson),
    });
  } else {
    printProblems(terminal, dir, problems);
    terminal.line(
      `${dir}: ${archive.units.length} ${archive.units.length === 1 ? "unit" : "units"}, ${archive.files.size} files read`,
    );
  }
  return errors > 0 ? exitCodes.problems : exitCodes.done;
}
