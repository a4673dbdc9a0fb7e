import type { Page } from "playwright-core";

/**
 * Looks at every drawing of an open page as the browser has set it: texts that leave their drawing, and texts that cover
 * each other by more than a pixel across and four down. Each is one line of words; none is an empty list.
 */
export async function findClashes(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const found: string[] = [];
    for (const svg of document.querySelectorAll<SVGSVGElement>("svg.figure-drawing")) {
      const frame = svg.getBoundingClientRect();
      const name = svg.querySelector("title")?.textContent ?? "";
      const texts = [...svg.querySelectorAll("text")]
        .filter((text) => text.textContent.trim() !== "")
        .map((text) => ({ words: text.textContent, box: text.getBoundingClientRect() }));
      texts.forEach(({ words, box }, index) => {
        const isIn =
          box.left >= frame.left - 1 &&
          box.right <= frame.right + 1 &&
          box.top >= frame.top - 1 &&
          box.bottom <= frame.bottom + 1;
        if (!isIn) found.push(`${name}: "${words}" leaves the drawing`);
        for (const other of texts.slice(index + 1)) {
          const across = Math.min(box.right, other.box.right) - Math.max(box.left, other.box.left);
          const down = Math.min(box.bottom, other.box.bottom) - Math.max(box.top, other.box.top);
          if (across > 1 && down > 4) found.push(`${name}: "${words}" and "${other.words}" cover each other`);
        }
      });
    }
    return found;
  });
}
