// The site on this machine, as a host would serve it, and a way to take it away.

import { spawn } from "node:child_process";
import { createInterface } from "node:readline";

const SERVE = new URL("../../ui/web/serve", import.meta.url).pathname;
export const SITE = new URL("../../target/web/site", import.meta.url).pathname;

export class Host {
  /** A host of this folder, on any free port. */
  static async start(site = SITE) {
    const host = new Host();
    host.process = spawn(SERVE, ["0", site], { stdio: ["ignore", "pipe", "inherit"] });
    for await (const line of createInterface(host.process.stdout)) {
      host.address = line.match(/http:\S+/)[0];
      return host;
    }
    throw new Error("the host did not start: is the site built?");
  }

  /** Stops it; a host that has been stopped stays so. */
  async stop() {
    const running = this.process;
    if (running.exitCode === null && running.signalCode === null) {
      const ended = new Promise((resolve) => running.once("exit", resolve));
      running.kill();
      await ended;
    }
  }
}
