// Keeps what is tapped or typed on the phone until the bench computer has taken it: in order, each once, and says so.
// Works on plain http: no service worker, no crypto.randomUUID. A form takes part by its attribute data-keep, which says
// in words what is sent. Nothing here ever says saved before the bench computer did.
(function () {
  "use strict";
  const SOON = 600, OFTEN = 5000, READ = 6000, PATIENCE = 60000, TRIES = 3;
  const NOT_NOW = [408, 425, 429];
  let entries = [], down = false, sending = false, again = false, shown = false, tries = 0, trouble = "";
  const onward = new Map();  // where a form of this page leads to once it is taken

  const opened = window.bellcrankStore;

  function freshKey() {
    const bytes = crypto.getRandomValues(new Uint8Array(16));
    return Array.from(bytes, function (one) { return one.toString(16).padStart(2, "0"); }).join("");
  }

  function make(kind, words, look) {
    const made = document.createElement(kind);
    if (words) made.textContent = words;
    if (look) made.className = look;
    return made;
  }

  function button(words, act) {
    const made = make("button", words, "button");
    made.type = "button";
    made.addEventListener("click", act);
    return made;
  }

  function waiting() { return entries.filter(function (one) { return !one.refused; }); }

  function countWords(list) {
    const word = list.every(function (one) { return one.tick; }) ? "tap" : "entry";
    if (list.length === 1) return "1 " + word + " is";
    return list.length + " " + (word === "tap" ? "taps" : "entries") + " are";
  }

  function part(name, look) {
    const made = make("div", "", look), above = document.getElementById("kept");
    made.id = name;
    if (above) above.after(made);
    else document.getElementById("main").prepend(made);
    return made;
  }

  function showWaiting() {
    const list = waiting();
    let words = "";
    if (list.length) {
      words = countWords(list) + " kept on this phone, not yet on the bench computer";
      words += trouble ? ". " + trouble : down ? ": the link is down." : ". Sending.";
      shown = true;
    } else if (down) {
      words = "The bench computer cannot be reached now.";
      if (document.querySelector("form[data-keep]")) words += " What is tapped here is kept on this phone.";
      shown = true;
    } else if (shown) {
      words = "The link is up: all that was tapped here is on the bench computer.";
    }
    let line = document.getElementById("kept");
    if (!line && !words) return;
    if (!line) {
      line = part("kept", "kept");
      line.setAttribute("role", "status");
    }
    const over = Boolean(words) && !list.length && !down;
    if (over) setTimeout(function () { if (!down && !waiting().length) { shown = false; line.hidden = true; } }, READ);
    line.classList.toggle("over", over);
    line.hidden = !words;
    if (line.textContent !== words) line.textContent = words;
  }

  function sameForm(entry) {
    const told = new Map(entry.fields);
    return Array.from(document.forms).find(function (form) {
      return form.getAttribute("action") === entry.action && !("tick" in form.dataset) &&
        Array.from(form.elements).every(function (one) { return one.type !== "hidden" || told.get(one.name) === one.value; });
    });
  }

  function putBack(form, entry) {
    entry.fields.forEach(function (field) {
      Array.from(form.elements).forEach(function (one) {
        if (one.name !== field[0] || one.type === "hidden" || typeof field[1] !== "string" || one.tagName === "BUTTON") return;
        if (one.type === "checkbox" || one.type === "radio") one.checked = one.value === field[1];
        else if (one.type !== "file") one.value = field[1];
      });
    });
    for (let up = form; up; up = up.parentElement) if (up.tagName === "DETAILS") up.open = true;
    form.scrollIntoView({ block: "center" });
  }

  function refusedBox(entry) {
    const box = make("div", "", "refusal");
    box.dataset.key = entry.key;
    box.setAttribute("role", "alert");
    const line = make("p");
    line.append(make("strong", "Not taken: "), entry.words + ". " + entry.refused);
    box.append(line);
    const typed = entry.typed.filter(Boolean).join(" · ");
    if (typed) box.append(make("p", "What was typed: " + typed));
    const row = make("div", "", "refusal-ways");
    const form = typed ? sameForm(entry) : null;
    if (form) row.append(button("Put it back to change it", function () { putBack(form, entry); drop(entry); }));
    if (!entry.tick) row.append(button("Send it again", function () { delete entry.refused; put(entry).then(send); }));
    row.append(button(entry.tick ? "Seen" : "Let it go", function () { drop(entry); }));
    box.append(row);
    return box;
  }

  function showRefused() {
    const list = entries.filter(function (one) { return one.refused; });
    const place = document.getElementById("kept-refused") || (list.length ? part("kept-refused", "") : null);
    if (!place) return;
    const there = new Set(Array.from(place.children, function (box) { return box.dataset.key; }));
    Array.from(place.children).forEach(function (box) {
      if (!list.some(function (one) { return one.key === box.dataset.key; })) box.remove();
    });
    list.forEach(function (entry) { if (!there.has(entry.key)) place.append(refusedBox(entry)); });
  }

  function changed() {
    showRefused();
    if (down || !waiting().length || shown) showWaiting();
    else setTimeout(showWaiting, SOON);
    document.documentElement.dataset.waiting = String(waiting().length);
    document.dispatchEvent(new CustomEvent("kept:changed"));
  }

  async function readAll() {
    const store = await opened;
    if (store) entries = await store.all();
    changed();
  }

  async function put(entry) { await (await opened).put(entry); await readAll(); }

  async function drop(entry) { await (await opened).drop(entry.id); await readAll(); }

  // What the answer of the bench computer says: null when it took it, else its sentence.
  async function refusalIn(response) {
    const text = await response.text();
    if (!(response.headers.get("content-type") || "").includes("html")) return text;
    const page = new DOMParser().parseFromString(text, "text/html");
    const said = page.querySelector("#refusal, .refusal, .trouble .lead");
    if (!said) return "The bench computer did not take it (" + response.status + ").";
    const words = Array.from(said.childNodes).filter(function (one) { return one.nodeType === 3; });
    return words.map(function (one) { return one.data.trim(); }).filter(Boolean).join(" ");
  }

  async function post(entry) {
    const body = new FormData(), limit = new AbortController();
    entry.fields.forEach(function (field) {
      if (typeof field[1] === "string") body.append(field[0], field[1]);
      else body.append(field[0], field[1].data, field[1].name);
    });
    const late = setTimeout(function () { limit.abort(); }, PATIENCE);
    try {
      return await fetch(entry.action, {
        method: "POST", body: body, redirect: "manual", signal: limit.signal, headers: { "Idempotency-Key": entry.key },
      });
    } finally { clearTimeout(late); }
  }

  async function judge(entry, response) {
    const taken = response.type === "opaqueredirect" || response.ok;
    if (taken) {
      tries = 0;
      trouble = "";
      document.dispatchEvent(new CustomEvent("kept:taken", { detail: entry }));
      await drop(entry);
      if (onward.has(entry.key) && !waiting().length) location.assign(onward.get(entry.key));
      return true;
    }
    const later = response.status >= 500 || NOT_NOW.includes(response.status);
    if (later && ++tries < TRIES) {
      trouble = "The bench computer had trouble of its own; it is tried again.";
      return false;
    }
    tries = 0;
    trouble = "";
    entry.refused = await refusalIn(response);
    document.dispatchEvent(new CustomEvent("kept:refused", { detail: entry }));
    await put(entry);
    return true;
  }

  async function send() {
    const store = await opened;
    again = sending;
    if (sending || !store) return;
    sending = true;
    try {
      for (;;) {
        await readAll();
        const entry = waiting()[0];
        if (!entry && !again) break;
        again = false;
        if (!entry) continue;
        const response = await post(entry);
        heard(true);
        if (!(await judge(entry, response))) break;
      }
    } catch (unreachable) {
      heard(false);
    } finally {
      sending = false;
      changed();
    }
  }

  function heard(reached) {
    if (down === !reached) return;
    down = !reached;
    changed();
  }

  function fieldsOf(form, submitter) {
    const fields = [];
    for (const field of new FormData(form)) {
      if (typeof field[1] === "string") fields.push(field);
      else if (field[1].size) fields.push([field[0], { name: field[1].name, data: field[1] }]);
    }
    if (submitter && submitter.name) fields.push([submitter.name, submitter.value]);
    return fields;
  }

  function typedIn(form) {
    return Array.from(form.elements).filter(function (one) {
      return ["INPUT", "TEXTAREA", "SELECT"].includes(one.tagName) && one.type !== "hidden" &&
        (!["checkbox", "radio"].includes(one.type) || one.checked);
    }).map(function (one) { return one.value.replace(/^.*[\\/]/, ""); });
  }

  function sayAt(form, words) {
    let line = form.querySelector(".not-kept");
    if (!line) {
      line = make("p", "", "refusal not-kept");
      line.setAttribute("role", "alert");
      form.prepend(line);
    }
    line.textContent = words;
  }

  function submitAsTapped(form, submitter) {
    if (submitter && submitter.name) {  // form.submit() leaves out the button that was tapped
      const tapped = document.createElement("input");
      tapped.type = "hidden";
      tapped.name = submitter.name;
      tapped.value = submitter.value;
      form.append(tapped);
    }
    form.submit();
  }

  async function keep(form, submitter) {
    const store = await opened;
    const fields = fieldsOf(form, submitter);
    const plain = fields.every(function (field) { return typeof field[1] === "string"; });
    if (!store || (!plain && !store.files)) { submitAsTapped(form, submitter); return; }  // at once, as without this script
    const entry = {
      key: freshKey(), action: form.getAttribute("action"), fields: fields, words: form.dataset.keep || "What was typed",
      typed: typedIn(form), tick: "tick" in form.dataset, at: Date.now(),
    };
    if (form.dataset.then) onward.set(entry.key, form.dataset.then);
    try {
      await put(entry);
    } catch (full) {
      sayAt(form, "This phone has no room for it, so it was not kept. Make room, then tap again; nothing typed is lost.");
      return;
    }
    document.dispatchEvent(new CustomEvent("kept:added", { detail: { entry: entry, form: form } }));
    if (!entry.tick) form.reset();
    send();
  }

  document.addEventListener("submit", function (event) {
    const form = event.target;
    if (!form.matches("form[data-keep]")) return;
    event.preventDefault();
    if (form.dataset.busy) return;  // a thumb that bounces
    form.dataset.busy = "yes";
    keep(form, event.submitter).finally(function () { setTimeout(function () { delete form.dataset.busy; }, SOON); });
  });

  window.addEventListener("online", send);
  window.addEventListener("offline", function () { heard(false); });
  window.addEventListener("pageshow", send);
  document.addEventListener("visibilitychange", function () { if (document.visibilityState === "visible") send(); });
  setInterval(function () { if (waiting().length) send(); }, OFTEN);
  window.bellcrankKept = { waiting: waiting, heard: heard, isDown: function () { return down; }, send: send };
})();
