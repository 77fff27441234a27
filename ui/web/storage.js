// Keeps the jobs in this browser: pieces of files in IndexedDB, one transaction a step.
// A piece is [path, part, bytes, milliseconds]; [path] alone drops every part of that path.

const STORE = "pieces";
let open;
// The storage holds all that it was handed. Once it did not, only everything afresh mends it.
let whole = true;
// This page has let go of the jobs: another one may be writing, so it never writes again.
let ended = false;
let underWay = 0;
let allAnswered = () => {};

function database() {
  return new Promise((resolve, reject) => {
    const asked = indexedDB.open("tautmark", 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore(STORE);
    asked.onerror = () => reject(asked.error);
    asked.onsuccess = () => {
      open = asked.result;
      open.onclose = lost;
      resolve(open);
    };
  });
}

/** The browser has closed the storage by itself: what was in it is probably gone. */
function lost() {
  open = undefined;
  whole = false;
  if (!ended) {
    dispatchEvent(new Event("tautmark-storage-lost"));
  }
}

function all(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/** Every piece that is kept. */
export async function load() {
  const store = (await database()).transaction(STORE).objectStore(STORE);
  const [keys, values] = await Promise.all([all(store.getAllKeys()), all(store.getAll())]);
  return keys.map(([path, part], at) => [path, part, values[at].bytes, values[at].changed]);
}

/** Whether something entered in this page is not in the storage. */
export function lags() {
  return !whole;
}

/** Waits until all that was handed over has been answered for. */
export function answered() {
  return underWay === 0 ? Promise.resolve() : new Promise((done) => (allAnswered = done));
}

/** Closes the storage to this page for good. */
export function letGo() {
  ended = true;
  open?.close();
  open = undefined;
}

function every(path) {
  return IDBKeyRange.bound([path, 0], [path, Infinity]);
}

function write(everything, pieces, answer) {
  const step = open.transaction(STORE, "readwrite", { durability: "strict" });
  let refused;
  step.oncomplete = () => answer(undefined);
  step.onabort = () => answer(refused ?? step.error ?? new DOMException("", "AbortError"));
  try {
    put(step.objectStore(STORE), everything, pieces);
    // On its way at once: it is carried out even if the page is closed this moment.
    step.commit?.();
  } catch (error) {
    refused = error;
    step.abort();
  }
}

function put(store, everything, pieces) {
  if (everything) {
    store.clear();
  }
  for (const [path, part, bytes, changed] of pieces) {
    if (part === undefined) {
      store.delete(every(path));
    } else {
      store.put({ bytes, changed }, [path, part]);
    }
  }
}

/** Begins to keep the pieces; `kept` is told once, with the fault's name where there is one. */
export function keep(everything, pieces, kept) {
  underWay += 1;
  const answer = (error) => {
    underWay -= 1;
    whole = error ? false : whole || everything;
    kept(error?.name);
    if (error && !ended) {
      // Nothing may be typed for a while; the person is to be told now.
      queueMicrotask(() => dispatchEvent(new Event("tautmark-not-kept")));
    }
    if (underWay === 0) {
      allAnswered();
    }
  };
  const refuse = (name) => queueMicrotask(() => answer(new DOMException("", name)));
  const attempt = () => {
    try {
      write(everything, pieces, answer);
    } catch (error) {
      queueMicrotask(() => answer(error));
    }
  };
  if (ended || (!whole && !everything)) {
    // A step on its own would be laid on what is no longer there.
    refuse("InvalidStateError");
  } else if (open) {
    attempt();
  } else {
    database().then(attempt, answer);
  }
  askToStay();
}

// The browser may throw away what it was not asked to let stay.
let asked = false;
function askToStay() {
  if (!asked && !ended) {
    asked = true;
    navigator.storage?.persist?.().catch(() => {});
  }
}
