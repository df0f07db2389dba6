// The steps at the bench: once a step is open, the whole way is fetched, and from then on Done, Back and Next need no
// link. What is ticked is kept by kept.js; what the bench computer says counts, taps still waiting are laid over it.
(function () {
  "use strict";
  const kept = window.bellcrankKept, OFTEN = 10000, BOUNCE = 500, END = "end";
  let shown = document.querySelector("article.step");
  if (!shown || !kept) return;
  const job = shown.dataset.job, name = function (article) { return article.dataset.screen; };
  let screens = [shown], told = new Map(), mark = "", taken = 0;
  let whole = false, loading = false, again = false, goOn = false;
  told.set(name(shown), bare(shown));  // so that the first look at the whole way leaves the buttons under a thumb alone

  function steps() { return screens.filter(function (one) { return name(one) !== END; }); }

  function find(wanted) { return screens.find(function (one) { return name(one) === wanted; }); }

  function all(article, what) { return article.querySelectorAll("[data-" + what + "]"); }

  // How a step stands: open, done (the bench computer said so) or kept (ticked here, not there yet).
  function stands() {
    const state = new Map();
    steps().forEach(function (one) {
      state.set(one.dataset.way + " " + one.dataset.operation, one.dataset.done === "yes" ? "done" : "open");
    });
    kept.waiting().forEach(function (entry) {
      if (!entry.tick || entry.action !== "/jobs/" + job + "/steps") return;
      const told = new Map(entry.fields);
      state.set(told.get("direction") + " " + told.get("operation"), told.get("done") === "yes" ? "kept" : "open");
    });
    return state;
  }

  function stateOf(article, state) { return state.get(article.dataset.way + " " + article.dataset.operation); }

  function firstOpen() {
    const state = stands();
    return steps().find(function (one) { return stateOf(one, state) === "open"; });
  }

  function lying(state) {
    const there = new Map();
    steps().forEach(function (one) {
      if (one.dataset.way !== "in") return;
      const off = stateOf(one, state) !== "open", back = state.get("out " + one.dataset.operation);
      if (off && (!back || back === "open")) there.set(one.dataset.operation, Number(one.dataset.count));
    });
    return there;
  }

  function lay(article, state) {
    const now = stateOf(article, state) || "";
    all(article, "when").forEach(function (one) { one.hidden = !one.dataset.when.split(" ").includes(now); });
    if (!whole) return;
    const there = lying(state), open = firstOpen();
    const count = Array.from(there.values()).reduce(function (sum, one) { return sum + one; }, 0);
    const words = count + (count === 1 ? " fastener on the tray" : " fasteners on the tray");
    all(article, "tray").forEach(function (one) { one.textContent = words; });
    all(article, "end").forEach(function (one) { one.hidden = (one.dataset.end === "open") !== Boolean(open); });
    all(article, "lies").forEach(function (one) { one.hidden = !there.has(one.dataset.lies); });
    all(article, "some-lie").forEach(function (one) { one.hidden = !there.size; });
  }

  function layAll() {
    const state = stands();
    screens.forEach(function (one) { lay(one, state); });
  }

  function busy(element) {
    return Array.from(element.querySelectorAll("input:not([type=hidden]), textarea, select")).some(function (one) {
      if (one.tagName === "SELECT") return one.selectedIndex > 0 && !one.options[one.selectedIndex].defaultSelected;
      if (one.type === "checkbox" || one.type === "radio") return one.checked !== one.defaultChecked;
      return one.value !== one.defaultValue;
    }) || element.contains(document.activeElement) && document.activeElement.matches("input, textarea, select");
  }

  function read(article) {  // so that a screen reader starts with what is to be done
    const head = article.querySelector("h1");
    head.tabIndex = -1;
    head.focus({ preventScroll: true });
  }

  function show(article, onward) {
    if (!article || article === shown) return;
    shown.replaceWith(article);
    shown = article;
    document.title = article.dataset.title;
    if (onward) history.pushState({ screen: name(article) }, "", article.dataset.address);
    settle(article);
  }

  function settle(article) {
    window.scrollTo(0, 0);
    read(article);
    const buttons = Array.from(article.querySelectorAll(".step-thumb button"));
    buttons.forEach(function (one) { one.disabled = true; });  // a thumb that bounces must not tick the next step too
    setTimeout(function () { buttons.forEach(function (one) { one.disabled = false; }); }, BOUNCE);
  }

  // A screen as the bench computer wrote it, without what is laid out anew here: taps move it, so it tells no news.
  function bare(article) {
    const copy = article.cloneNode(true);
    if ("done" in copy.dataset) copy.dataset.done = "";
    copy.querySelectorAll("[data-when], [data-end], [data-lies], [data-some-lie]").forEach(function (one) { one.hidden = false; });
    all(copy, "tray").forEach(function (one) { one.textContent = ""; });
    return copy.outerHTML;
  }

  // Lay out what the bench computer says now; a screen somebody is typing into stays as it is.
  function takeOver(page) {
    const early = !whole && shown.dataset.done === "no";  // a tap may have been taken before this script was here
    let moved = false;  // the way was planned anew, and another step has the place of the one that is shown
    screens = Array.from(page.querySelectorAll("article.step"), function (fresh) {
      const old = find(name(fresh)), html = bare(fresh), same = told.get(name(fresh)) === html;
      told.set(name(fresh), html);
      if (!old) return document.adoptNode(fresh);
      const other = old.dataset.operation !== fresh.dataset.operation;
      if (other && old === shown) {
        moved = !busy(old);  // what is being typed is left alone until she goes on herself
        return document.adoptNode(fresh);
      }
      if (!other && (same || busy(old))) {
        if ("done" in fresh.dataset) old.dataset.done = fresh.dataset.done;
        return old;
      }
      const open = Array.from(old.querySelectorAll("details"), function (one) { return one.open; });
      document.adoptNode(fresh);
      fresh.querySelectorAll("details").forEach(function (one, place) { one.open = Boolean(open[place]); });
      const refusal = old.querySelector("#refusal");
      if (refusal) fresh.querySelector(".crumb").after(refusal);
      if (old === shown) {
        const focused = old.contains(document.activeElement) && document.activeElement.tagName === "H1";
        old.replaceWith(fresh);
        shown = fresh;
        if (focused) read(fresh);
      }
      return fresh;
    });
    whole = true;
    layAll();
    if (early && shown.dataset.done === "yes") moved = true;
    if (moved || !screens.includes(shown) && !busy(shown)) show(firstOpen() || find(END), true);
    document.documentElement.dataset.way = "whole";
  }

  async function load() {
    again = loading;
    if (loading) return;
    loading = true;
    const before = taken;
    try {
      const headers = mark ? { "If-None-Match": mark } : {};
      const response = await fetch("/jobs/" + job + "/way", { headers: headers, cache: "no-store" });
      kept.heard(true);
      if (response.status === 200) {
        const page = new DOMParser().parseFromString(await response.text(), "text/html");
        if (before === taken) {  // else it was written before the last tap was taken: ask again
          mark = response.headers.get("etag") || "";
          takeOver(page);
        }
      }
    } catch (unreachable) { kept.heard(false); }
    loading = false;
    if (again || before !== taken) load();
  }

  const heard = new Set();  // taps that were followed to the next step when they were tapped
  document.addEventListener("kept:added", function (event) {
    const entry = event.detail.entry;
    heard.add(entry.key);
    layAll();
    if (!entry.tick || event.detail.form.dataset.tick !== "yes") return;
    if (whole) show(firstOpen() || find(END), true);
    else goOn = true;  // the rest of the way is not on this phone yet
  });
  document.addEventListener("kept:taken", function (event) {
    const entry = event.detail, told = new Map(entry.fields);
    taken += 1;
    if (entry.tick && entry.action === "/jobs/" + job + "/steps") {
      steps().forEach(function (one) {
        if (one.dataset.way === told.get("direction") && one.dataset.operation === told.get("operation")) one.dataset.done = told.get("done");
      });
    }
    const early = !heard.has(entry.key) && told.get("done") === "yes";  // tapped before this script was here
    if (early && told.get("operation") === shown.dataset.operation && told.get("direction") === shown.dataset.way) {
      if (whole) show(firstOpen() || find(END), true);
      else goOn = true;
    }
    if (goOn) location.assign("/jobs/" + job + "/steps");
    else if (kept.waiting().length <= 1) load();
  });
  document.addEventListener("kept:refused", load);
  document.addEventListener("kept:changed", layAll);

  document.addEventListener("click", function (event) {
    const link = event.target.closest("a[href]");
    if (!link || event.defaultPrevented || event.button || event.ctrlKey || event.metaKey || event.shiftKey) return;
    const wanted = link.dataset.go === "open" ? firstOpen() : find(link.dataset.go);
    if (link.dataset.go && wanted) {
      event.preventDefault();
      show(wanted, true);
    } else if (kept.isDown() && !link.getAttribute("href").startsWith("#")) {
      event.preventDefault();  // the browser's own error page would take the steps away
      let line = document.getElementById("stays");
      if (!line) {
        line = document.createElement("p");
        line.id = "stays";
        line.className = "refusal";
        line.setAttribute("role", "alert");
        document.getElementById("main").prepend(line);
      }
      line.textContent = "That page is on the bench computer, which cannot be reached now. The steps stay open here.";
      window.scrollTo(0, 0);
      kept.send();
      load();
    }
  });
  document.addEventListener("kept:changed", function () {
    const line = document.getElementById("stays");
    if (line && !kept.isDown()) line.remove();
  });
  window.addEventListener("popstate", function (event) {
    if (event.state && event.state.screen) show(find(event.state.screen), false);
  });
  told.set(name(shown), bare(shown));
  history.replaceState({ screen: name(shown) }, "", location.href);

  function look() { if (document.visibilityState === "visible") load(); }
  document.addEventListener("visibilitychange", look);
  window.addEventListener("online", load);
  setInterval(look, OFTEN);
  load();
})();
