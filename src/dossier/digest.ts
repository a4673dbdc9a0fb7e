import { createHash } from "node:crypto";

/** sha256 of a text's UTF-8 bytes, in lower-case hexadecimal. */
export function sha256(text: string): string {
  return createHash("sha256").update(text, "utf8").digest("hex");
}

/** Bytes of a text in UTF-8. */
export function byteLength(text: string): number {
  return Buffer.byteLength(text, "utf8");
}

/** The source expression by which a policy admits one inline style sheet (CSP level 3, 2.3.1). */
export function policyHash(text: string): string {
  return `'sha256-${createHash("sha256").update(text, "utf8").digest("base64")}'`;
}
