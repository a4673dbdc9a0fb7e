import type { Wording } from "../problem.js";
import { subjects } from "../subjects.js";

/** Everything that reading a template can say, before any code of it is looked at. */
const list = (words: readonly string[]): string => words.join(", ");
const meant = (near: string | undefined, otherwise: string): string => (near === undefined ? otherwise : `did you mean "${near}"?`);

export const noFrontMatter: Wording = {
  code: "E_FRONT_MATTER",
  message: "the template does not begin with front matter, so its subject is not known",
  hint: `begin the file with three lines: "---", "subject: unit" (${list(subjects)}) and "---"`,
};

export const openFrontMatter: Wording = {
  code: "E_FRONT_MATTER",
  message: "the front matter is opened here and never closed",
  hint: 'end it with a line that holds "---" alone',
};

export function badYaml(reason: string): Wording {
  return {
    code: "E_FRONT_MATTER",
    message: `the front matter cannot be read: ${reason}`,
    hint: 'write one "name: value" a line, each name once, as in "subject: unit"',
  };
}

export const frontMatterNoMap: Wording = badYaml("it must be a list of names and values");

export function unknownKey(key: string, near: string | undefined, known: readonly string[]): Wording {
  const title = key.toLowerCase() === "title";
  return {
    code: "E_FRONT_MATTER_KEY",
    message: `the front matter has no key "${key}"`,
    hint: title ? "remove it; the title is the first heading" : meant(near, `use only ${list(known)}`),
  };
}

export const noSubject: Wording = {
  code: "E_SUBJECT",
  message: "the front matter does not say what the template is about",
  hint: `add "subject: unit", or another of ${list(subjects)}`,
};

export function unknownSubject(found: string, near: string | undefined, known: readonly string[] = subjects): Wording {
  return {
    code: "E_SUBJECT",
    message: `"${found}" is no subject of a template`,
    hint: meant(near, `use one of ${list(known)}`),
  };
}

export function badMethods(found: string): Wording {
  return {
    code: "E_METHODS",
    message: `"methods" must be a list of method ids, found ${found}`,
    hint: 'write "methods: [keystroke@2, latency@1]"',
  };
}

export function badDescription(found: string): Wording {
  return { code: "E_DESCRIPTION", message: `"description" must be a text, found ${found}`, hint: "write one line of text" };
}

export function unknownRole(found: string, near: string): Wording {
  return {
    code: "E_ROLE",
    message: `"${found}" is no role of a cell`,
    hint: `did you mean "${near}"? A listing, which never runs, has no role`,
  };
}

export function wrongLanguage(found: string, role: string): Wording {
  return {
    code: "E_CELL_LANGUAGE",
    message: `a ${role} cell cannot be written in "${found}"`,
    hint: `cells are TypeScript: begin the fence with "ts ${role}"`,
  };
}

export function noId(role: string): Wording {
  return {
    code: "E_CELL_ID",
    message: `this ${role} has no id`,
    hint: `name it after its role, as in "ts ${role} key-spread: What it shows"`,
  };
}

export function badId(found: string): Wording {
  return {
    code: "E_CELL_ID",
    message: `"${found}" cannot be an id`,
    hint: "use lower-case letters, digits and single hyphens, beginning with a letter, as in key-spread",
  };
}

export function repeatedId(id: string, firstLine: number): Wording {
  return {
    code: "E_CELL_ID_REPEATED",
    message: `the id "${id}" stands already in line ${firstLine}`,
    hint: "give each cell an id of its own",
  };
}

export function badFence(rest: string): Wording {
  return {
    code: "E_CELL_HEAD",
    message: `"${rest}" stands where a colon and a caption were expected`,
    hint: 'write the head as "ts ROLE ID: CAPTION"',
  };
}

export const openFence: Wording = {
  code: "E_FENCE_OPEN",
  message: "this fence is opened here and never closed",
  hint: "close it with a line that holds the same marks alone",
};

export function nestedCell(role: string): Wording {
  return {
    code: "E_CELL_NESTED",
    message: `a ${role} cell stands inside a list or a quotation`,
    hint: "move it out, to the left margin",
  };
}

export function emptyCell(role: string): Wording {
  return { code: "E_CELL_EMPTY", message: `this ${role} cell holds no code`, hint: "write its code or remove the fence" };
}

export function openInline(closedLater: boolean): Wording {
  return {
    code: "E_INLINE_OPEN",
    message: "this inline value is not closed on its line",
    hint: closedLater
      ? "an inline value is one expression on one line: join the lines, or name the value in a work cell"
      : 'close it with "=]", or write "\\[=" for the characters themselves',
  };
}

export const emptyInline: Wording = {
  code: "E_INLINE_EMPTY",
  message: "this inline value holds no expression",
  hint: 'write an expression between "[=" and "=]", as in "[= unit.name =]"',
};

export function misplacedInline(where: string): Wording {
  return {
    code: "E_INLINE_PLACE",
    message: `an inline value cannot stand in ${where}`,
    hint: "move it into the text",
  };
}

export const unreadInline: Wording = {
  code: "E_INLINE_PLACE",
  message: "an unpaired backtick before this inline value makes it ambiguous whether it is code",
  hint: 'pair the backtick, or write it as "\\`"',
};

export function unsafeLink(address: string): Wording {
  return {
    code: "E_LINK",
    message: `a link cannot lead to "${address}"`,
    hint: "use an https, http or mailto address, a relative one, or #fragment",
  };
}

export const image: Wording = {
  code: "E_IMAGE",
  message: "a dossier loads no images",
  hint: "draw it in a figure cell",
};
