// The app in a phone's browser, tried by touch.

import assert from "node:assert/strict";
import { cp, readFile, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterEach, beforeEach, test } from "node:test";
import { Host, SITE } from "./host.js";
import { Phone } from "./phone.js";

const MOST = 2_500_000;
// A 4-3-5 pair of triangles: B at 4 m, C 3 m square off B, D 4 m on from C along the wall.
const TAPES = ["4000", "4000", "3000", "5000", "5000", "3000"];

let host;
let phone;

beforeEach(async () => {
  host = await Host.start();
  phone = await Phone.withNothing();
});

afterEach(async () => {
  await phone.throwAway();
  await host.stop();
});

/** Starts a job between two walls with a gap and types its tapes. */
async function tape(app) {
  await app.press("New job");
  await app.press("Two walls, a gap between");
  for (const figure of TAPES) {
    await app.type(figure);
    await app.press("Next");
  }
  return app.reads(/^Four marks, all fixed\./);
}

function lengths(job) {
  return JSON.parse(job).readings.map((reading) => String(reading.length));
}

/** The job as its file has it, once the file has caught up with the typing. */
async function settled(app) {
  return app.until(async () => {
    const files = await app.kept();
    const path = Object.keys(files).find((name) => /^jobs\/.*\/job\.json$/.test(name));
    const job = path && files[path];
    return job && lengths(job).join() === TAPES.join() ? job : undefined;
  }, "the job's file does not hold the tapes");
}

test("a job is taped by touch, and is there without a network", async (t) => {
  const app = await phone.page(host.address);
  t.diagnostic(`first frame, nothing kept yet: ${Math.round(await app.drawn())} ms`);
  await app.reads(/^Jobs$/);
  await app.shot("jobs");
  await app.press("New job");
  await app.shot("start");
  await app.press("Two walls, a gap between");
  await app.type("4000");
  await app.shot("keypad");
  await app.press("Next");
  for (const figure of TAPES.slice(1)) {
    await app.type(figure);
    await app.press("Next");
  }
  const said = await app.reads(/^Four marks, all fixed\./);
  await app.shot("walls");

  // Going out of sight is when the file catches up with what was typed.
  await app.page.evaluate(() => dispatchEvent(new Event("pagehide")));
  await settled(app);
  await app.page.waitForFunction(() => navigator.serviceWorker.controller);

  await host.stop();
  await app.page.reload();
  t.diagnostic(`first frame, kept, no network: ${Math.round(await app.drawn())} ms`);
  const again = await app.labels();
  if (!again.includes(said)) {
    // Not left on the job's own page.
    await app.press(again.find((label) => label.startsWith("Two walls, a gap between")));
  }
  assert.equal(await app.reads(/^Four marks, all fixed\./), said);
  await app.shot("offline");
  assert.deepEqual(app.faults, []);
});

test("a browser that is killed has every figure that was entered", async () => {
  let app = await phone.open(host.address);
  const said = await tape(app);
  await phone.crash();
  await phone.switchOn();
  app = await phone.open(host.address);
  const labels = await app.labels();
  if (!labels.includes(said)) {
    await app.press(labels.find((label) => label.startsWith("Two walls, a gap between")));
  }
  assert.equal(await app.reads(/^Four marks, all fixed\./), said);
});

test("a second window waits until it is told to take over", async () => {
  const first = await phone.open(host.address);
  const said = await tape(first);
  const second = await phone.page(host.address);
  const words = (app) => app.page.locator("#words").innerText();
  const offer = second.page.locator("#again");
  await offer.waitFor();
  assert.match(await words(second), /open in another window/);
  await second.shot("second-window");
  await offer.tap();
  await second.drawn();
  assert.match(await words(first), /goes on in another window/);
  const labels = await second.labels();
  if (!labels.includes(said)) {
    await second.press(labels.find((label) => label.startsWith("Two walls, a gap between")));
  }
  assert.equal(await second.reads(/^Four marks, all fixed\./), said);
});

test("a full storage is told of, and catches up when there is room", async () => {
  const app = await phone.open(host.address);
  // The browser refuses, as it does when the phone has no room.
  const full = (yes) => app.page.evaluate((refuse) => {
    const own = IDBObjectStore.prototype;
    window.put ??= own.put;
    own.put = refuse ? () => { throw new DOMException("", "QuotaExceededError"); } : window.put;
  }, yes);
  await app.press("New job");
  await app.press("Two walls, a gap between");
  await app.type("4000");
  await full(true);
  await app.press("Next");
  await app.reads(/disk is full/);
  await app.shot("full");
  await full(false);
  for (const figure of TAPES.slice(1)) {
    await app.type(figure);
    await app.press("Next");
  }
  await app.until(async () => {
    await app.page.evaluate(() => dispatchEvent(new Event("pagehide")));
    return (await app.labels()).some((label) => /disk is full/.test(label)) ? undefined : true;
  }, "it still says that the disk is full");
  await settled(app);
});

test("a job goes out as a file and comes in again", async () => {
  const app = await phone.open(host.address);
  await tape(app);
  await app.press("Sheet");
  await app.shot("sheet");
  const coming = app.page.waitForEvent("download");
  await app.press("The job itself");
  const download = await coming;
  assert.match(download.suggestedFilename(), /\.job\.json$/);
  const text = await readFile(await download.path(), "utf8");
  assert.deepEqual(lengths(text), TAPES);

  const file = join(phone.folder, "came.job.json");
  await writeFile(file, text.replace("Two walls, a gap between", "Came from outside"));
  await app.press("Back");
  await app.press("jobs");
  await app.press("Bring in a file");
  const choosing = app.page.waitForEvent("filechooser");
  await app.press("A job file");
  await (await choosing).setFiles(file);
  await app.reads(/^Came from outside$/);
  await app.reads(/^Four marks, all fixed\./);
});

test("a figure is read aloud once it is asked for, and not out of sight", async () => {
  // What the browser is given to say is kept in place of being said.
  await phone.browser.addInitScript(() => {
    window.heard = [];
    const voice = {
      speaking: false,
      pending: false,
      speak(said) {
        this.speaking = true;
        window.heard.push(`${said.lang.slice(0, 2)}: ${said.text}`);
      },
      cancel() {
        this.speaking = false;
        window.heard.push("silence");
      },
    };
    Object.defineProperty(window, "speechSynthesis", { value: voice });
    window.SpeechSynthesisUtterance = class {
      constructor(text) {
        this.text = text;
      }
    };
  });
  const app = await phone.open(host.address);
  const heard = () => app.page.evaluate(() => window.heard);
  await app.press("Open the example");
  await app.press("Posts");
  await app.press(await app.reads(/^Mark out post \d+$/));
  await app.reads(/^As built…$/);
  if ((await app.labels()).includes("Close")) {
    await app.press("Close");
  }
  assert.deepEqual(await heard(), []);
  // The choice stands at the foot of the page.
  await app.swipe({ x: 206, y: 650 }, { x: 206, y: 350 });
  await app.press("Read the figures aloud");
  const [first] = await app.until(async () => {
    const all = await heard();
    return all.length ? all : undefined;
  }, "nothing is said");
  assert.match(first, /^en: post [a-z]+, [a-z ,]+$/);
  await app.swipe({ x: 206, y: 400 }, { x: 206, y: 700 });
  await app.press("Say it");
  const again = await app.until(async () => (await heard())[2], "it is not said again");
  assert.equal(again, first);
  await app.press(await app.reads(/^Marked/));
  // The first post that stands in the ground: its caution is read before its figure is said.
  await app.press("Close");
  const next = await app.until(async () => (await heard())[4], "the next post says nothing");
  assert.notEqual(next, first);
  await app.press("Walls");
  assert.equal(await app.until(async () => (await heard())[5], "it goes on off the page"), "silence");
  assert.deepEqual(app.faults, []);
});

test("the page stays still under a finger and follows a turn of the phone", async () => {
  const app = await phone.open(host.address);
  await tape(app);
  await app.press("Strings");
  await app.shot("lines");
  await app.press("Walls");
  const fits = () => app.page.evaluate(() => {
    const { left, top, width, height } = document.getElementById("canvas").getBoundingClientRect();
    return [left, top, width, height, scrollX, scrollY, innerWidth, innerHeight];
  });
  assert.deepEqual(await fits(), [0, 0, 412, 915, 0, 0, 412, 915]);
  const reading = () => app.things().then((all) => all.find(({ label }) => label === "B to C")?.y);
  const before = await reading();
  await app.swipe({ x: 206, y: 700 }, { x: 206, y: 480 });
  await app.until(async () => ((await reading()) < before - 50 ? true : undefined), "the list did not move");
  await app.shot("swiped");
  assert.deepEqual(await fits(), [0, 0, 412, 915, 0, 0, 412, 915]);
  await app.turn(915, 412);
  await app.until(async () => {
    const all = await app.things();
    return Math.max(...all.map(({ x, width }) => x + width)) > 850 ? true : undefined;
  }, "the app did not take the new width");
  assert.deepEqual(await fits(), [0, 0, 915, 412, 0, 0, 915, 412]);
  await app.shot("turned");
  assert.deepEqual(app.faults, []);
});

test("a new release takes the place of the old one", async () => {
  const site = join(phone.folder, "site");
  await cp(SITE, site, { recursive: true });
  const change = async (file, from, to) => {
    const path = join(site, file);
    await writeFile(path, (await readFile(path, "utf8")).replace(from, to));
    await Promise.all([rm(`${path}.gz`), rm(`${path}.br`)]);
  };
  const own = await Host.start(site);
  const app = await phone.open(own.address);
  const { page } = app;
  await page.waitForFunction(() => navigator.serviceWorker.controller);
  await change("index.html", "<title>Tautmark", "<title>The next Tautmark");
  await change("sw.js", /"tautmark-\w+"/, '"tautmark-next"');
  await page.reload();
  await app.drawn();
  assert.equal(await page.title(), "Tautmark", "what is there is not waited for");
  const kept = () => page.evaluate(() => caches.keys());
  const next = async () => ((await kept()).join() === "tautmark-next" ? true : undefined);
  await app.until(next, "the next release was not fetched");
  await own.stop();
  await page.reload();
  await app.drawn();
  assert.equal(await page.title(), "The next Tautmark");
});

test("the download is small, and a browser that cannot run it is told in words", async (t) => {
  const text = await readFile(join(SITE, "sw.js"), "utf8");
  const files = JSON.parse(`[${text.match(/FILES = \[(.*)\]/)[1]}]`).filter((path) => path !== "./");
  const sizes = await Promise.all(files.map(async (path) => {
    const sent = path.endsWith(".png") ? path : `${path}.br`;
    return (await readFile(join(SITE, sent))).length;
  }));
  const sum = sizes.reduce((one, two) => one + two, 0);
  t.diagnostic(`download, compressed: ${sum} bytes in ${files.length} files`);
  assert.ok(sum < MOST, `${sum} bytes`);

  await phone.browser.addInitScript(() => {
    HTMLCanvasElement.prototype.getContext = () => null;
  });
  const app = await phone.page(host.address);
  await app.page.locator("#again").waitFor();
  assert.match(await app.page.locator("#words").innerText(), /Bring it up to date/);
});
