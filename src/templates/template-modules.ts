import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { benchfolioFolder, packageFolder } from "./package-folder.js";

/** A module that cells may import, by its specifier. */
export interface TemplateModule {
  /** Absolute path of the declarations that the checker reads. */
  readonly declarations: string;
  /** Absolute path of the code that the sealed process loads. */
  readonly code: string;
  /** Exports that cells do not get, each with the reason, as a clause. */
  readonly withheld: Readonly<Record<string, string>>;
}

export type TemplateModules = Readonly<Record<string, TemplateModule>>;

/** Floors and subjects of this package that cells may import. */
const ownModules: Readonly<Record<string, string>> = {
  "benchfolio/keystroke": "keystroke/index",
  "benchfolio/latency": "latency/index",
  "benchfolio/statistics": "statistics/index",
  "benchfolio/comparison": "comparison/index",
  "benchfolio/metrology": "metrology/index",
  "benchfolio/figures": "figures/index",
  "benchfolio/words": "templates/words/index",
  "benchfolio/subject/unit": "templates/subject/unit",
  "benchfolio/subject/archive": "templates/subject/archive",
  "benchfolio/subject/change": "templates/subject/change",
  "benchfolio/subject/study": "templates/subject/study",
  "benchfolio/subject/rig": "templates/subject/rig",
};

const unseeded = "it draws unseeded random numbers; use shuffler(seededRandom(1).uniform) of the same module";
const drawn = "the dossier draws charts itself; return chart({ marks, x, y }, { finding, data })";
const still = "a dossier has no scripts, so nothing on it reacts to a pointer";

/** Classes of marks; a class of one's own made from them would be handed the drawing's document. */
const markClasses =
  "Mark Area Arrow BarX BarY Cell Contour Density Dot Frame Geo Hexgrid Image Line Link Raster Rect RuleX RuleY Text TickX TickY Tip Vector WaffleX WaffleY".split(
    " ",
  );

const otherModules: Readonly<Record<string, { types: [string, string]; code: [string, string]; withheld: Record<string, string> }>> = {
  "d3-array": {
    types: ["@types/d3-array", "index.d.ts"],
    code: ["d3-array", "dist/d3-array.mjs"],
    withheld: { shuffle: unseeded },
  },
  "simple-statistics": {
    types: ["simple-statistics", "index.d.ts"],
    code: ["simple-statistics", "dist/simple-statistics.mjs"],
    withheld: {},
  },
  "@observablehq/plot": {
    types: ["@observablehq/plot", "src/index.d.ts"],
    code: ["@observablehq/plot", "src/index.js"],
    withheld: {
      plot: drawn,
      legend: drawn,
      scale: drawn,
      image: "a dossier loads no images",
      tip: still,
      crosshair: still,
      crosshairX: still,
      crosshairY: still,
      pointer: still,
      pointerX: still,
      pointerY: still,
      ...Object.fromEntries(markClasses.map((name) => [name, "make marks with the functions, whose names are lower-case"])),
    },
  },
};

/**
 * The modules that cells may import, found from this file: the compiled floors of this package, and the general
 * libraries that it is built on.
 * @param packageRoot folder of the benchfolio package; by default the one that this file belongs to
 */
export function templateModules(packageRoot: string = benchfolioFolder(import.meta.url)): TemplateModules {
  const own = Object.entries(ownModules).map(([specifier, path]): [string, TemplateModule] => {
    const file = join(packageRoot, "dist", path);
    return [specifier, { declarations: `${file}.d.ts`, code: `${file}.js`, withheld: {} }];
  });
  const other = Object.entries(otherModules).map(([specifier, { types, code, withheld }]): [string, TemplateModule] => [
    specifier,
    {
      declarations: join(packageFolder(types[0], packageRoot), types[1]),
      code: join(packageFolder(code[0], packageRoot), code[1]),
      withheld,
    },
  ]);
  return Object.fromEntries([...own, ...other]);
}

/** What a module gives to cells at run time: its exports without the withheld ones. */
export type ModuleExports = Readonly<Record<string, unknown>>;

/** Loads modules for a run, before the process is sealed. Each specifier must be one of `modules`. */
export async function loadTemplateModules(
  modules: TemplateModules,
  specifiers: readonly string[] = Object.keys(modules),
): Promise<Readonly<Record<string, ModuleExports>>> {
  const loaded: Record<string, ModuleExports> = {};
  for (const specifier of specifiers) {
    const module = modules[specifier];
    if (module === undefined) throw new RangeError(`"${specifier}" is no module that cells may import`);
    const namespace = (await import(pathToFileURL(module.code).href)) as Record<string, unknown>;
    loaded[specifier] = Object.fromEntries(Object.entries(namespace).filter(([name]) => !(name in module.withheld)));
  }
  return loaded;
}
