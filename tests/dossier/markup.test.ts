import { expect, test } from "vitest";
import { dataAddress, escapeText, html, join, styleString } from "../../src/dossier/markup.js";

test("text in a template is escaped, markup is not", () => {
  expect(html`<p title="${`"><b>`}">${"a < b & c"} ${html`<i>${"'x'"}</i>`}</p>`.text).toBe(
    '<p title="&quot;&gt;&lt;b&gt;">a &lt; b &amp; c <i>&#39;x&#39;</i></p>',
  );
});

test("lists are joined, null prints nothing, numbers print as they are", () => {
  expect(html`${["<", html`<b></b>`, null, [1, 2]]}`.text).toBe("&lt;<b></b>12");
  expect(join(["a", "b"], "<").text).toBe("a&lt;b");
});

test("controls, bidirectional overrides and lone surrogates become the replacement character", () => {
  expect(escapeText("a\u0000b\u202ec\u2066d\u009fe\ufffef")).toBe("a\ufffdb\ufffdc\ufffdd\ufffde\ufffdf");
  expect(escapeText("\ud800x")).toBe("\ufffdx");
  expect(escapeText("x\udc00")).toBe("x\ufffd");
  expect(escapeText("😀\tµ\n")).toBe("😀\tµ\n");
});

test("a style sheet's string cannot be left", () => {
  const text = styleString('a"}</style><b>\\');
  expect(text).toBe('"a\\22 \\7d \\3c \\2f style\\3e \\3c b\\3e \\5c "');
});

test("a data address gives the text back", () => {
  const text = 'a,"b <&> #%",µ 😀\r\n  1, {`2`}\t[\\]|?\'\r\n ';
  const address = dataAddress("text/csv", text);
  expect(address).not.toMatch(/["'<>&#\t\r\n]| $/);
  expect(decodeURIComponent(address.slice(address.indexOf(",") + 1))).toBe(text);
  expect(decodeURIComponent(dataAddress("text/csv", "a\ud800b").split(",")[1]!)).toBe("a\ufffdb");
});
