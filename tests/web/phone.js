// A phone with the app on it: pressed by name, read by its labels.

import { mkdir, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";

const SHOTS = new URL("../../target/screens/", import.meta.url).pathname;
const UPRIGHT = [412, 915];
const FLAGS = [
  "--no-sandbox", "--enable-unsafe-swiftshader", "--use-gl=angle", "--use-angle=swiftshader",
  "--disable-quic", "--no-first-run", "--disable-background-networking",
  "--disable-component-update", "--disable-sync",
  // A screen that is finer in truth: one that is only emulated leaves the canvas coarse.
  "--force-device-scale-factor=2",
];

/** The browser of one phone, with a storage of its own. */
export class Phone {
  static async withNothing() {
    const phone = new Phone();
    phone.folder = await mkdtemp(join(tmpdir(), "tautmark-"));
    await mkdir(SHOTS, { recursive: true });
    await phone.switchOn();
    return phone;
  }

  async switchOn() {
    this.browser = await chromium.launchPersistentContext(this.folder, {
      executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
      args: FLAGS,
      viewport: null,
      hasTouch: true,
      acceptDownloads: true,
    });
  }

  async switchOff() {
    await this.browser.close();
  }

  /** The battery is gone: no process gets to say goodbye. */
  async crash() {
    const closed = new Promise((resolve) => this.browser.once("close", resolve));
    const session = await this.browser.browser().newBrowserCDPSession();
    session.send("Browser.crash").catch(() => {});
    await closed;
  }

  async throwAway() {
    await this.switchOff();
    await rm(this.folder, { recursive: true, force: true, maxRetries: 5 });
  }

  /** A page of the app, with its first frame drawn. */
  async open(address) {
    const page = await this.page(address);
    await page.drawn();
    return page;
  }

  async page(address) {
    const page = await this.browser.newPage();
    const app = new Page(page, await this.browser.newCDPSession(page));
    await app.turn(...UPRIGHT);
    await page.goto(address);
    return app;
  }
}

export class Page {
  constructor(page, session) {
    this.page = page;
    this.session = session;
    this.faults = [];
    page.on("pageerror", (error) => {
      if (!error.message.startsWith("Using exceptions for control flow")) {
        this.faults.push(error.message);
      }
    });
  }

  /** Gives the screen this size, CSS pixels. */
  async turn(width, height) {
    const screen = { width, height, deviceScaleFactor: 0, mobile: true };
    await this.session.send("Emulation.setDeviceMetricsOverride", screen);
  }

  /** Waits for the first frame; milliseconds from the start of the navigation to it. */
  async drawn() {
    await this.page.waitForFunction(() => performance.getEntriesByName("tautmark-drawn").length);
    return this.page.evaluate(() => performance.getEntriesByName("tautmark-drawn")[0].startTime);
  }

  async things() {
    const rows = await this.page.evaluate(() => window.tautmark.onScreen());
    return rows.map(([label, role, value, x, y, width, height]) =>
      ({ label, role, value, x, y, width, height }));
  }

  async labels() {
    return (await this.things()).map(({ label }) => label);
  }

  /** The thing of this label, buttons first, once it is there. */
  async thing(label) {
    const found = async () => {
      const all = (await this.things()).filter((one) => one.label === label);
      return all.find(({ role }) => role === "button") ?? all[0];
    };
    return this.until(found, `“${label}” is not on the screen`);
  }

  /** Waits until a label is there that fits, and gives it. */
  async reads(pattern) {
    const found = async () => (await this.labels()).find((label) => pattern.test(label));
    return this.until(found, `nothing on the screen reads ${pattern}`);
  }

  async until(found, otherwise) {
    const end = Date.now() + 60_000;
    while (Date.now() < end) {
      const got = await found();
      if (got !== undefined) {
        return got;
      }
      await this.frame();
    }
    throw new Error(`${otherwise}; there is: ${(await this.labels()).join(" | ")}`);
  }

  frame() {
    return this.page.evaluate(() => new Promise((next) => requestAnimationFrame(next)));
  }

  /** Presses the thing of this label with a finger. */
  async press(label) {
    const { x, y, width, height } = await this.thing(label);
    await this.page.touchscreen.tap(x + width / 2, y + height / 2);
    await this.frame();
  }

  /** Types a figure on the app's own keys. */
  async type(figure) {
    for (const key of figure) {
      await this.press(key);
    }
  }

  /** Draws a finger across the page. */
  async swipe(from, to) {
    const touch = (type, points) =>
      this.session.send("Input.dispatchTouchEvent", { type, touchPoints: points });
    await touch("touchStart", [from]);
    for (let step = 1; step <= 10; step += 1) {
      const part = step / 10;
      await touch("touchMove", [{
        x: from.x + (to.x - from.x) * part,
        y: from.y + (to.y - from.y) * part,
      }]);
      await this.frame();
    }
    await touch("touchEnd", []);
  }

  async shot(name) {
    await this.frame();
    await this.page.screenshot({ path: join(SHOTS, `web-${name}.png`) });
  }

  /** The text of every file that is kept, by its path, once all that was handed over is there. */
  kept() {
    return this.page.evaluate(() => new Promise((resolve, reject) => {
      const asked = indexedDB.open("tautmark");
      asked.onerror = () => reject(asked.error);
      asked.onsuccess = () => {
        const store = asked.result.transaction("pieces").objectStore("pieces");
        const keys = store.getAllKeys();
        const values = store.getAll();
        values.onsuccess = () => {
          const files = {};
          keys.result.forEach(([path], at) => {
            const text = new TextDecoder().decode(values.result[at].bytes);
            files[path] = (files[path] ?? "") + text;
          });
          asked.result.close();
          resolve(files);
        };
      };
    }));
  }
}
