import type { Facts } from "./problem-wording.js";

const letters = [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ"].map((letter) => `Key${letter}`);
const digits = [..."1234567890"].map((digit) => `Digit${digit}`);
const functionKeys = Array.from({ length: 24 }, (_, i) => `F${i + 1}`);
const numpad = [
  ...[..."0123456789"],
  ..."Add Backspace Clear ClearEntry Comma Decimal Divide Enter Equal Hash MemoryAdd MemoryClear MemoryRecall".split(
    " ",
  ),
  ..."MemoryStore MemorySubtract Multiply ParenLeft ParenRight Star Subtract".split(" "),
].map((name) => `Numpad${name}`);
const others = `
  Backquote Backslash BracketLeft BracketRight Comma Equal IntlBackslash IntlRo IntlYen Minus Period Quote Semicolon
  Slash AltLeft AltRight Backspace CapsLock ContextMenu ControlLeft ControlRight Enter MetaLeft MetaRight ShiftLeft
  ShiftRight Space Tab Convert KanaMode Lang1 Lang2 Lang3 Lang4 Lang5 NonConvert Delete End Help Home Insert PageDown
  PageUp ArrowDown ArrowLeft ArrowRight ArrowUp NumLock Escape Fn FnLock PrintScreen ScrollLock Pause BrowserBack
  BrowserFavorites BrowserForward BrowserHome BrowserRefresh BrowserSearch BrowserStop Eject LaunchApp1 LaunchApp2
  LaunchMail MediaPlayPause MediaSelect MediaStop MediaTrackNext MediaTrackPrevious Power Sleep AudioVolumeDown
  AudioVolumeMute AudioVolumeUp WakeUp`;

/** Physical key codes: W3C UI Events KeyboardEvent code Values, sections 3.1 to 3.6, without the legacy keys. */
export const keyCodes: readonly string[] = [
  ...letters,
  ...digits,
  ...others.trim().split(/\s+/),
  ...functionKeys,
  ...numpad,
];

const known = new Set(keyCodes);

/** Facts of a problem with a text that is no code: of a single letter or digit, the code of the key with this legend. */
export function keyCodeFacts(found: string): Facts {
  const code = /^\d$/.test(found) ? `Digit${found}` : `Key${found.toUpperCase()}`;
  return { found, names: keyCodes, ...(known.has(code) && { near: code }) };
}

/** Whether a text is a physical key's code; case counts. */
export function isKeyCode(text: string): boolean {
  return known.has(text);
}
