// Starts the app: says what it is doing, and in words what stands in the way.

import init, { start, onScreen } from "./tautmark.js";
import { answered, lags, letGo, load } from "./storage.js";
import { size } from "./release.js";

const NO_STORAGE = "This browser does not let Tautmark keep anything here. Allow site data for this page, or use an ordinary window instead of a private one, and try again.";
// So long is waited for an answer before a way out is offered, milliseconds.
const PATIENCE = 10_000;

const shell = document.getElementById("shell");
const progress = document.getElementById("progress");
const again = document.getElementById("again");

function say(words) {
  document.getElementById("words").textContent = words;
  shell.hidden = false;
}

function offer(name, what) {
  progress.hidden = true;
  again.hidden = false;
  again.textContent = name;
  again.onclick = what;
}

/** Ends the start: what is wrong, and what to do. */
class Stop extends Error {}

function missing() {
  if (!isSecureContext) {
    return "This page was opened over http, where a browser keeps nothing safely. Open it by its https address.";
  }
  const canvas = document.createElement("canvas");
  const able = typeof WebAssembly === "object" && "indexedDB" in window
    && "locks" in navigator && canvas.getContext("webgl2");
  return able ? undefined
    : "This browser cannot draw Tautmark. Bring it up to date, or open this page in another one.";
}

// One page works on the jobs; another is given the choice. The page that has them lets go when asked,
// and for good: it writes nothing more. `ask` is "let go", or "let go unsaved" once the person knows.
const pages = new BroadcastChannel("tautmark");

function hold(options) {
  return new Promise((resolve, reject) => {
    let granted = false;
    navigator.locks.request("tautmark", options, (lock) => {
      granted = Boolean(lock);
      resolve(granted);
      return lock && new Promise((release) => answerOthers(release));
    }).catch((error) => (granted ? goneOn() : reject(error)));
  });
}

/** Another window has the jobs now. */
function goneOn() {
  letGo();
  document.getElementById("canvas")?.remove();
  say("Tautmark goes on in another window.");
  offer("Use it here", () => location.reload());
}

function answerOthers(release) {
  pages.onmessage = async ({ data }) => {
    if (data.ask === undefined) {
      return;
    }
    // What is being typed is kept, the page ends, and the other one begins.
    dispatchEvent(new Event("pagehide"));
    await answered();
    if (lags() && data.ask !== "let go unsaved") {
      pages.postMessage({ answer: "unsaved" });
      return;
    }
    goneOn();
    release();
  };
}

function choice(words, name) {
  say(words);
  return new Promise((chosen) => offer(name, () => {
    again.hidden = true;
    chosen();
  }));
}

/** Waits until the page that has the jobs has let go of them, or the person takes them from it. */
function takeOver() {
  return new Promise((have, failed) => {
    const waiting = new AbortController();
    const silent = setTimeout(async () => {
      await choice("The other window does not answer. Close it; or go on here, without what it has not saved.", "Use it here all the same");
      waiting.abort();
      hold({ steal: true }).then(have, failed);
    }, PATIENCE);
    pages.onmessage = async ({ data }) => {
      clearTimeout(silent);
      if (data.answer === "unsaved") {
        await choice("The other window has figures that could not be saved. They are lost if you go on here: look there first.", "Use it here all the same");
        pages.postMessage({ ask: "let go unsaved" });
      }
    };
    hold({ signal: waiting.signal }).then(have, (error) => waiting.signal.aborted || failed(error));
    pages.postMessage({ ask: "let go" });
  });
}

async function haveJobs() {
  try {
    if (await hold({ ifAvailable: true })) {
      return;
    }
    await choice("Tautmark is open in another window of this browser. Your jobs can be worked on in one at a time.", "Use it here");
    say("Waiting for the other window to finish.");
    await takeOver();
  } catch (error) {
    console.error(error);
    throw new Stop(NO_STORAGE);
  }
}

/** Gives up on a line that says nothing for long. */
function silence(given) {
  return setTimeout(() => given.abort(), 3 * PATIENCE);
}

async function fetched() {
  const address = new URL("./tautmark_bg.wasm", import.meta.url);
  // Kept here already: the browser has it ready to run.
  if (navigator.serviceWorker?.controller) {
    return fetch(address);
  }
  say("Fetching Tautmark. From the second time on it opens without a network.");
  progress.hidden = false;
  const given = new AbortController();
  let silent = silence(given);
  const response = await fetch(address, { signal: given.signal });
  let got = 0;
  const counted = response.body.pipeThrough(new TransformStream({
    flush() {
      clearTimeout(silent);
    },
    transform(bytes, out) {
      clearTimeout(silent);
      silent = silence(given);
      got += bytes.length;
      progress.value = Math.min(got / size, 1);
      out.enqueue(bytes);
    },
  }));
  const { status, headers } = response;
  return new Response(counted, { status, headers });
}

async function program() {
  try {
    const response = await fetched();
    if (!response.ok) {
      throw new Stop(`Tautmark could not be fetched (${response.status}). Try again.`);
    }
    await init({ module_or_path: response });
  } catch (error) {
    console.error(error);
    throw error instanceof Stop ? error
      : new Stop("Tautmark could not be fetched. Look whether there is a network, and try again.");
  }
  progress.hidden = true;
}

async function jobs() {
  const slow = setTimeout(() => {
    say("The browser's storage does not answer. Close other windows of Tautmark, or start the browser again.");
    offer("Try again", () => location.reload());
  }, PATIENCE);
  try {
    return await load();
  } catch (error) {
    console.error(error);
    throw new Stop(NO_STORAGE);
  } finally {
    clearTimeout(slow);
  }
}

function run(pieces) {
  try {
    start(pieces);
  } catch (error) {
    // The event loop leaves by an exception of its own and goes on.
    if (!String(error?.message ?? error).startsWith("Using exceptions for control flow")) {
      throw error;
    }
  }
}

/** What a canvas needs from its page: a finger that is taken away, and a drawing that is lost. */
function watchCanvas() {
  const canvas = document.getElementById("canvas");
  // A palm or a gesture of the system ends the touch; it must not count as a press where it began.
  addEventListener("pointercancel", (event) => {
    if (event.isTrusted && event.target === canvas) {
      event.stopImmediatePropagation();
      const { pointerId, pointerType, isPrimary } = event;
      const away = { pointerId, pointerType, isPrimary, clientX: -1e5, clientY: -1e5, bubbles: true };
      canvas.dispatchEvent(new PointerEvent("pointercancel", away));
    }
  }, { capture: true });
  canvas.addEventListener("webglcontextlost", () => {
    // Nothing can be drawn any more. What is being typed is kept, and the page begins again.
    dispatchEvent(new Event("pagehide"));
    location.reload();
  });
}

async function begin() {
  window.tautmarkBegun = true;
  const wrong = missing();
  if (wrong) {
    throw new Stop(wrong);
  }
  navigator.serviceWorker?.register("./sw.js", { updateViaCache: "none" }).catch(console.error);
  await haveJobs();
  await program();
  say("Opening your jobs.");
  const pieces = await jobs();
  addEventListener("tautmark-drawn", () => {
    shell.hidden = true;
    performance.mark("tautmark-drawn");
  }, { once: true });
  addEventListener("tautmark-stopped", () => {
    say("Tautmark has stopped at a fault of its own. Everything you entered up to then is kept.");
    offer("Start again", () => location.reload());
  });
  watchCanvas();
  run(pieces);
  window.tautmark = { onScreen };
}

begin().catch((error) => {
  if (!(error instanceof Stop)) {
    console.error(error);
  }
  say(error instanceof Stop ? error.message : `Tautmark could not start (${error.message ?? error}).`);
  offer("Try again", () => location.reload());
});
