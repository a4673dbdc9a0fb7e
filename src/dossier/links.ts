import type { Link } from "../figures/link.js";
import { checkLinkAddress } from "../figures/link.js";
import type { Markup } from "./markup.js";
import { html } from "./markup.js";

/** A pointer to another dossier; its text alone where the address could lead out of the output. */
export function renderLink(link: Link): Markup {
  if (checkLinkAddress(link.href) !== null) return html`${link.text}`;
  return html`<a href="${link.href}">${link.text}</a>`;
}

/** What an address in a template's prose may be. */
export type SafeAddress =
  { readonly kind: "outside" | "dossier"; readonly href: string } | { readonly kind: "anchor"; readonly id: string };

/**
 * Judges an address from a template's prose: http, https and mailto lead outside, a relative `.html` path to another
 * dossier, `#id` to a figure, table or criterion. Anything else, such as `javascript:`, `data:`, `file:` or `//host`, is null.
 */
export function judgeAddress(address: string): SafeAddress | null {
  // eslint-disable-next-line no-control-regex -- browsers drop these inside an address, so "java\tscript:" must not pass
  if (/[\u0000-\u0020\u007f-\u009f]/.test(address)) return null;
  if (/^#[A-Za-z0-9_-]+$/.test(address)) return { kind: "anchor", id: address.slice(1) };
  if (/^https?:\/\/[^/?#]/i.test(address)) return { kind: "outside", href: address };
  if (/^mailto:[^?&]+@[^?&]+$/i.test(address)) return { kind: "outside", href: address };
  return checkLinkAddress(address) === null ? { kind: "dossier", href: address } : null;
}
