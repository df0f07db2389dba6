// Where kept.js keeps: the phone's database, written through to the disk; else its small text store; else nowhere.
(function () {
  "use strict";
  const STORE = "taps";

  function wait(request) {
    return new Promise(function (good, bad) {
      request.onsuccess = function () { good(request.result); };
      request.onerror = function () { bad(request.error); };
    });
  }

  function inDatabase(database) {
    function write(change) {
      return new Promise(function (good, bad) {
        const work = database.transaction(STORE, "readwrite", { durability: "strict" });
        const request = change(work.objectStore(STORE));
        work.oncomplete = function () { good(request.result); };
        work.onerror = work.onabort = function () { bad(work.error); };
      });
    }
    return {
      files: true,
      all: function () { return wait(database.transaction(STORE).objectStore(STORE).getAll()); },
      put: function (entry) { return write(function (store) { return store.put(entry); }); },
      drop: function (id) { return write(function (store) { return store.delete(id); }); },
    };
  }

  function inText() {
    const name = "bellcrank-" + STORE;
    function read() { return JSON.parse(localStorage.getItem(name) || "[]"); }
    function write(list) { localStorage.setItem(name, JSON.stringify(list)); }
    write(read());
    return {
      files: false,
      all: async function () { return read(); },
      put: async function (entry) {
        const list = read().filter(function (one) { return one.id !== entry.id; });
        entry.id = entry.id || 1 + Math.max(0, ...list.map(function (one) { return one.id; }));
        write(list.concat(entry).sort(function (a, b) { return a.id - b.id; }));
      },
      drop: async function (id) { write(read().filter(function (one) { return one.id !== id; })); },
    };
  }

  async function openStore() {
    try {
      const request = indexedDB.open("bellcrank", 1);
      request.onupgradeneeded = function () {
        request.result.createObjectStore(STORE, { keyPath: "id", autoIncrement: true });
      };
      return inDatabase(await wait(request));
    } catch (closed) {
      try { return inText(); } catch (nowhere) { return null; }
    }
  }

  window.bellcrankStore = openStore();
})();
