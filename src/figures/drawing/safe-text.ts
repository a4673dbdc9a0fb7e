/** Characters that no XML document may hold, and the controls that override the direction of the text after them. */
const unsafe = /(?![\t\n\r])\p{Cc}|\p{Surrogate}|[\u202a-\u202e\ufffe\uffff]/gu;

const isolates = /[\u2066-\u2069]/g;

const rightToLeft = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc]/;

/**
 * Text from a record as it may stand in a drawing: characters that would break the document, or override the direction of
 * what follows, become the replacement character. Markup needs no escape here: the serialiser escapes all text.
 */
export function safeText(text: string): string {
  return text.replace(unsafe, "\ufffd");
}

/** A label from a record on one line; set apart by isolates where it is written from right to left. */
export function safeLabel(text: string): string {
  const line = safeText(text).replace(isolates, "").replace(/\s+/g, " ").trim();
  return rightToLeft.test(line) ? `\u2068${line}\u2069` : line;
}
