// Keeps the screen on while a step is open, and says so when the computer that serves the bench cannot be reached.
(function () {
  "use strict";
  let lock = null;
  async function stayAwake() {
    if (document.visibilityState !== "visible" || !("wakeLock" in navigator) || lock) return;
    try {
      lock = await navigator.wakeLock.request("screen");
      lock.addEventListener("release", function () { lock = null; });
    } catch (refused) { lock = null; }
  }
  document.addEventListener("visibilitychange", stayAwake);
  stayAwake();

  function notSaved() {
    let line = document.getElementById("not-reached");
    if (!line) {
      line = document.createElement("p");
      line.id = "not-reached";
      line.className = "refusal";
      line.setAttribute("role", "alert");
      line.textContent = "The bench computer cannot be reached, so that was not saved. Tap again when it is back.";
      document.getElementById("main").prepend(line);
    }
  }
  document.addEventListener("htmx:error", notSaved);
  document.addEventListener("htmx:after:request", function () {
    const line = document.getElementById("not-reached");
    if (line) line.remove();
  });
})();
