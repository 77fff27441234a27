// Sees that the page starts. A release that the host no longer has, or a start that stands still, must
// not leave a person before one word for ever. Of no release itself, so that it is always there.
(() => {
  const PATIENCE = 20_000;
  const words = document.getElementById("words");
  const again = document.getElementById("again");

  async function afresh() {
    again.hidden = true;
    words.textContent = "Fetching Tautmark again.";
    try {
      const workers = (await navigator.serviceWorker?.getRegistrations()) ?? [];
      await Promise.all(workers.map((worker) => worker.unregister()));
      const names = (await window.caches?.keys()) ?? [];
      await Promise.all(names.map((name) => caches.delete(name)));
      // Past whatever the browser keeps of this page.
      await fetch("./", { cache: "reload" });
      location.reload();
    } catch {
      words.textContent = "There is no answer. See that there is a network, and try again. Your jobs are kept.";
      again.hidden = false;
    }
  }

  function stuck(why) {
    words.textContent = `${why} Your jobs are kept.`;
    again.textContent = "Fetch it again";
    again.hidden = false;
    again.onclick = afresh;
  }

  // A module that cannot be loaded tells nobody but its own element.
  for (const script of document.querySelectorAll("script[type=module]")) {
    script.addEventListener("error", () => stuck("A part of Tautmark could not be fetched."));
  }
  setTimeout(() => {
    if (!window.tautmarkBegun) {
      stuck("Tautmark is taking long to start.");
    }
  }, PATIENCE);
})();
