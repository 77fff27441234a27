// What the app asks of the browser.

function file(name, mediaType, bytes) {
  // A copy: the bytes lie in the app's own memory, which moves as it grows.
  return new File([bytes.slice()], name, { type: mediaType });
}

function download(made) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(made);
  link.download = made.name;
  link.click();
  // The browser reads it after this turn.
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

export function save(name, mediaType, bytes) {
  download(file(name, mediaType, bytes));
}

/** Whether the browser passes a file of this kind on to other programs. */
export function canShare(name, mediaType) {
  const trial = new File([" "], name, { type: mediaType });
  return navigator.canShare?.({ files: [trial] }) ?? false;
}

/** Hands the file on; where the browser will not after all, it is saved. */
export function share(name, mediaType, bytes) {
  const made = file(name, mediaType, bytes);
  navigator.share({ files: [made], title: name }).catch((error) => {
    if (error.name !== "AbortError") {
      download(made);
    }
  });
}

/** A finger is the main pointer, as on a phone. */
export function inTheHand() {
  return matchMedia("(pointer: coarse)").matches;
}

/** Lets the person pick a job file: `then(name, bytes)`, `then(name)` if unreadable, `then()` if none. */
export function pick(then) {
  const input = document.createElement("input");
  input.type = "file";
  input.accept = ".json,application/json";
  input.style.display = "none";
  // Some browsers forget an element that is not in the page.
  document.body.append(input);
  const done = (...told) => {
    input.remove();
    then(...told);
  };
  input.addEventListener("cancel", () => done(), { once: true });
  input.addEventListener("change", () => {
    const picked = input.files?.[0];
    if (!picked) {
      done();
      return;
    }
    picked.arrayBuffer().then(
      (bytes) => done(picked.name, new Uint8Array(bytes)),
      () => done(picked.name),
    );
  }, { once: true });
  input.click();
}

let awake = false;
let lock;

async function holdAwake() {
  if (awake && !lock && document.visibilityState === "visible") {
    lock = await navigator.wakeLock?.request("screen").catch(() => undefined);
    lock?.addEventListener("release", () => (lock = undefined), { once: true });
    if (!awake) {
      lock?.release();
    }
  }
}

/** Keeps the screen on, or lets it sleep; a browser without the means lets it sleep. */
export function keepAwake(wanted) {
  if (awake !== wanted) {
    awake = wanted;
    if (awake) {
      holdAwake();
    } else {
      lock?.release();
    }
  }
}

/** Whether the browser can read aloud. */
export function hasVoice() {
  return "speechSynthesis" in window && "SpeechSynthesisUtterance" in window;
}

/** Reads English words aloud, in place of what it is reading. */
export function say(words) {
  hush();
  const said = new SpeechSynthesisUtterance(words);
  // The voice of the person's own English, where it is theirs.
  said.lang = navigator.language.startsWith("en") ? navigator.language : "en";
  speechSynthesis.speak(said);
}

/** Falls silent. */
export function hush() {
  if (speechSynthesis.speaking || speechSynthesis.pending) {
    speechSynthesis.cancel();
  }
}

/** Told when the page goes out of sight, perhaps for ever, and when something could not be kept. */
export function whenLeft(pause) {
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden") {
      if (hasVoice()) {
        hush();
      }
      pause();
    } else {
      holdAwake();
    }
  });
  addEventListener("pagehide", pause);
  addEventListener("tautmark-not-kept", pause);
}

/** Told when the browser has emptied its storage. */
export function whenStorageLost(lost) {
  addEventListener("tautmark-storage-lost", lost);
}

/**
 * The system's way back: `back()` goes one step back in the app, false where there is none left. An
 * entry of the history lies over the page, so that the gesture comes here first; one that was laid
 * without a touch may be passed over by the browser.
 */
export function whenBack(back) {
  let laid = false;
  const lay = () => {
    if (!laid) {
      laid = true;
      history.pushState(null, "");
    }
  };
  lay();
  addEventListener("pointerdown", lay, { capture: true });
  addEventListener("popstate", () => {
    laid = false;
    if (back()) {
      lay();
    } else {
      history.back();
    }
  });
}

/** A frame stands on the canvas, by day or by night. */
export function drawn(night) {
  document.documentElement.dataset.light = night ? "dusk" : "chalk";
  const ground = getComputedStyle(document.documentElement).backgroundColor;
  for (const meta of document.querySelectorAll("meta[name=theme-color]")) {
    meta.content = ground;
  }
  dispatchEvent(new Event("tautmark-drawn"));
}

/** The app has come to a fault and can only be started again. */
export function stopped(fault) {
  console.error(fault);
  dispatchEvent(new CustomEvent("tautmark-stopped", { detail: fault }));
}
