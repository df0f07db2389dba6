// Keeps what is tapped or typed on the phone until the bench computer has taken it: in order, each once, and says so.
// Works on plain http: no service worker, no crypto.randomUUID. A form takes part by its attribute data-keep, which
// says in words what is sent. Nothing here ever says saved before the bench computer did.
(function () {
  "use strict";
  const SOON = 600, OFTEN = 5000, READ = 6000, PATIENCE = 60000, TRIES = 3;
  const NOT_NOW = [408, 425, 429];
  let entries = [], down = false, sending = false, again = false, shown = false, tries = 0, trouble = "";
  const onward = new Map();  // where a form of this page leads to once it is taken

  const opened = window.bellcrankStore, forms = window.bellcrankForms;

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

  // A refusal was heard, so what is sent again is a tap of its own; after trouble it may have been taken: the same tap.
  function sendAnew(entry) {
    delete entry.refused;
    if (!entry.unsure) entry.key = freshKey();
    put(entry).then(send);
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
    const form = typed ? forms.same(entry) : null;
    if (form) row.append(button("Put it back to change it", function () { forms.putBack(form, entry); drop(entry); }));
    if (!entry.tick) row.append(button("Send it again", function () { sendAnew(entry); }));
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
    entry.unsure = later;
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

  function sayAt(form, words) {
    let line = form.querySelector(".not-kept");
    if (!line) {
      line = make("p", "", "refusal not-kept");
      line.setAttribute("role", "alert");
      form.prepend(line);
    }
    line.textContent = words;
  }

  async function keep(form, submitter) {
    const store = await opened;
    const fields = forms.fieldsOf(form, submitter);
    if (!store || (fields.some(forms.isFile) && !store.files)) { forms.submitAsTapped(form, submitter); return; }
    const each = "each" in form.dataset ? fields.filter(forms.isFile) : [];
    const parts = each.length < 2 ? [fields] : each.map(function (one) {
      return fields.filter(function (field) { return !forms.isFile(field) || field === one; });
    });
    const made = parts.map(function (part) {
      return {
        key: freshKey(), action: form.getAttribute("action"), fields: part,
        words: form.dataset.keep || "What was typed", typed: forms.typedIn(form),
        tick: "tick" in form.dataset, at: Date.now(),
      };
    });
    const last = made[made.length - 1];
    if (form.dataset.then) onward.set(last.key, form.dataset.then);
    try {
      for (const entry of made) await put(entry);
    } catch (full) {
      sayAt(form, "This phone has no room for it, so it was not kept. Make room, then tap again; nothing typed is lost.");
      return;
    }
    document.dispatchEvent(new CustomEvent("kept:added", { detail: { entry: last, form: form } }));
    if (!last.tick) form.reset();
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
