import { expect, test } from "vitest";
import { judgeAddress } from "../../src/dossier/links.js";
import { checkLinkAddress, link } from "../../src/figures/link.js";

test("a link leads to a page of the output and nowhere else", () => {
  expect(link("Unit 7", "units/u07.html#s2")).toEqual({ kind: "link", text: "Unit 7", href: "units/u07.html#s2" });
  for (const href of [
    "../x.html",
    "/x.html",
    "a//b.html",
    "./x.html",
    "x.pdf",
    "javascript:x.html",
    "//h/x.html",
    "a\\x.html",
    "x.html#a#b",
    "x.html#a b",
    "",
  ]) {
    expect(() => link("x", href), href).toThrow(RangeError);
  }
  expect(() => link(" ", "u07.html")).toThrow("a link needs a text");
  expect(checkLinkAddress("u07.html")).toBeNull();
});

test("prose may lead to http, https, mailto, another dossier and an anchor", () => {
  expect(judgeAddress("https://example.org/a?b=c#d")).toEqual({ kind: "outside", href: "https://example.org/a?b=c#d" });
  expect(judgeAddress("mailto:lab@example.org")).toEqual({ kind: "outside", href: "mailto:lab@example.org" });
  expect(judgeAddress("u08.html")).toEqual({ kind: "dossier", href: "u08.html" });
  expect(judgeAddress("#key-spread")).toEqual({ kind: "anchor", id: "key-spread" });
});

test.each([
  "javascript:alert(1)",
  "JaVaScRiPt:alert(1)",
  "java\tscript:alert(1)",
  " javascript:alert(1)",
  "data:text/html,x",
  "vbscript:x",
  "file:///etc/passwd",
  "//example.org/x",
  "https:///x",
  "mailto:a@b.c?body=x",
  "../../x.html",
  "#a b",
])("prose may not lead to %j", (address) => {
  expect(judgeAddress(address)).toBeNull();
});
