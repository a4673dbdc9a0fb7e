import dgram from "node:dgram";
import dns from "node:dns";
import { syncBuiltinESMExports } from "node:module";
import net from "node:net";

/** Globals of Node through which code could reach the network, or load Node's own modules. */
const openings = ["fetch", "WebSocket", "EventSource", "XMLHttpRequest"];

/**
 * Takes the network from this process for good: Node's permission model (version 20) leaves it open. Cells cannot reach
 * it anyway; this is the second wall behind the first. Every connection and every name lookup throws.
 */
export function closeNetwork(): void {
  const refuse = (): never => {
    throw new Error("a sealed process has no network");
  };
  const close = (owner: object, names: readonly string[]): void => {
    for (const name of names) Object.defineProperty(owner, name, { value: refuse, writable: false, configurable: false });
  };
  close(net.Socket.prototype, ["connect"]);
  close(net.Server.prototype, ["listen"]);
  close(dgram.Socket.prototype, ["bind", "connect", "send"]);
  for (const resolver of [dns, dns.promises]) {
    close(
      resolver,
      Object.keys(resolver).filter((name) => /^(lookup|resolve|reverse)/.test(name)),
    );
  }
  for (const name of openings) Reflect.deleteProperty(globalThis, name);
  Reflect.deleteProperty(process, "getBuiltinModule");
  syncBuiltinESMExports();
}
