import { existsSync } from "node:fs";
import type { Server } from "node:http";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import type { Browser } from "playwright-core";
import { chromium } from "playwright-core";

/** Starts Chromium from `CHROMIUM_PATH`, or from where Debian puts it. */
export async function launchChromium(): Promise<Browser> {
  const executablePath = process.env["CHROMIUM_PATH"] ?? "/usr/bin/chromium";
  if (!existsSync(executablePath)) {
    throw new Error(
      `The browser tests need Chromium, and there is none at ${executablePath}: ` +
        "run `apt-get install chromium`, or set CHROMIUM_PATH to where it is.",
    );
  }
  return chromium.launch({ executablePath, args: ["--no-sandbox"] });
}

/** Serves one page at every address of this machine's own loopback, so that a request for anything else would be seen. */
export async function servePage(page: string): Promise<{ readonly address: string; readonly server: Server }> {
  const server = createServer((_, response) => {
    response.writeHead(200, { "content-type": "text/html; charset=utf-8" }).end(page);
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  return { server, address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/u07.html` };
}
