/** A pointer to another dossier of the same output, for a catalogue's table or text. */
export interface Link {
  readonly kind: "link";
  readonly text: string;
  /** Relative path of an `.html` page inside the output, with an optional `#fragment`. */
  readonly href: string;
}

/**
 * Makes a link to another page of the output.
 *
 * @param text what is shown; must not be empty
 * @param href relative to the page that holds the link, such as `u07.html` or `u07.html#s2`
 * @throws RangeError where the text is empty or the address could lead out of the output
 */
export function link(text: string, href: string): Link {
  if (text.trim() === "") throw new RangeError("a link needs a text");
  const problem = checkLinkAddress(href);
  if (problem !== null) throw new RangeError(problem);
  return { kind: "link", text, href };
}

/** Says why an address may not stand in a link between dossiers; null where it may. */
export function checkLinkAddress(href: string): string | null {
  const [path = "", ...fragments] = href.split("#");
  const shown = JSON.stringify(href);
  if (!/^[A-Za-z0-9._/-]+$/.test(path)) {
    return `the address ${shown} may hold only letters, digits, "-", "_", "." and "/" before its fragment`;
  }
  if (path.startsWith("/") || path.split("/").some((part) => part === "" || part === "." || part === "..")) {
    return `the address ${shown} must be a plain relative path below the page, without "." or ".."`;
  }
  if (!path.endsWith(".html")) return `the address ${shown} must name a page ending in .html`;
  if (fragments.length > 1 || (fragments.length === 1 && !/^[A-Za-z0-9_-]+$/.test(fragments[0]!))) {
    return `the fragment of ${shown} may hold only letters, digits, "-" and "_"`;
  }
  return null;
}
