// Keeps the jobs in this browser: pieces of files in IndexedDB, one transaction a step.
// A piece is [path, part, bytes, milliseconds]; [path] alone drops every part of that path.

const STORE = "pieces";
let open;

function database() {
  return new Promise((resolve, reject) => {
    const asked = indexedDB.open("tautmark", 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore(STORE);
    asked.onerror = () => reject(asked.error);
    asked.onsuccess = () => {
      open = asked.result;
      open.onclose = () => (open = undefined);
      resolve(open);
    };
  });
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

function every(path) {
  return IDBKeyRange.bound([path, 0], [path, Infinity]);
}

function write(everything, pieces, kept) {
  const step = open.transaction(STORE, "readwrite", { durability: "strict" });
  let refused;
  step.oncomplete = () => kept(undefined);
  step.onabort = () => failed(refused ?? step.error, kept);
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

function failed(error, kept) {
  kept(error?.name ?? "AbortError");
  // Nothing may be typed for a while; the person is to be told now.
  queueMicrotask(() => dispatchEvent(new Event("tautmark-not-kept")));
}

/** Begins to keep the pieces; `kept` is told once, with the fault's name where there is one. */
export function keep(everything, pieces, kept) {
  askToStay();
  const attempt = () => write(everything, pieces, kept);
  if (open) {
    try {
      attempt();
    } catch (error) {
      queueMicrotask(() => failed(error, kept));
    }
  } else {
    database().then(attempt).catch((error) => failed(error, kept));
  }
}

// The browser may throw away what it was not asked to let stay.
let asked = false;
function askToStay() {
  if (!asked) {
    asked = true;
    navigator.storage?.persist?.().catch(() => {});
  }
}
