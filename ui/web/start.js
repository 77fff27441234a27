// Starts the app: says what it is doing, and in words what stands in the way.

import init, { start, onScreen } from "./tautmark.js";
import { load } from "./storage.js";
import { size } from "./release.js";

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

// One page works on the jobs; another is given the choice. The page that has them lets go when asked.
const pages = new BroadcastChannel("tautmark");

function hold(options) {
  return new Promise((resolve, reject) => {
    navigator.locks.request("tautmark", options, (lock) => {
      resolve(Boolean(lock));
      return lock && new Promise((letGo) => whenAsked(letGo));
    }).catch(reject);
  });
}

function whenAsked(letGo) {
  pages.onmessage = ({ data }) => {
    if (data === "let go") {
      // What is being typed is kept, the page ends, and the other one begins.
      dispatchEvent(new Event("pagehide"));
      document.getElementById("canvas").remove();
      say("Tautmark goes on in another window.");
      offer("Use it here", () => location.reload());
      letGo();
    }
  };
}

async function haveJobs() {
  if (await hold({ ifAvailable: true })) {
    return;
  }
  say("Tautmark is open in another window of this browser. Your jobs can be worked on in one at a time.");
  await new Promise((chosen) => offer("Use it here", chosen));
  again.hidden = true;
  say("Waiting for the other window to finish.");
  pages.postMessage("let go");
  await hold({});
}

async function fetched() {
  const address = new URL("./tautmark_bg.wasm", import.meta.url);
  // Kept here already: the browser has it ready to run.
  if (navigator.serviceWorker?.controller) {
    return fetch(address);
  }
  say("Fetching Tautmark. From the second time on it opens without a network.");
  progress.hidden = false;
  const response = await fetch(address);
  let got = 0;
  const counted = response.body.pipeThrough(new TransformStream({
    transform(bytes, out) {
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
  try {
    return await load();
  } catch (error) {
    console.error(error);
    throw new Stop(`The browser does not open its storage (${error.name}). In a private window it keeps nothing: use an ordinary one, and try again.`);
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

async function begin() {
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
