// What is in a form that kept.js keeps: read for sending, put back for changing, sent at once where nothing can be kept.
(function () {
  "use strict";

  function isFile(field) { return typeof field[1] !== "string"; }

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

  function sameForm(entry) {
    const told = new Map(entry.fields);
    return Array.from(document.forms).find(function (form) {
      return form.getAttribute("action") === entry.action && !("tick" in form.dataset) &&
        Array.from(form.elements).every(function (one) {
          return one.type !== "hidden" || told.get(one.name) === one.value;
        });
    });
  }

  function putBack(form, entry) {
    entry.fields.forEach(function (field) {
      Array.from(form.elements).forEach(function (one) {
        if (one.name !== field[0] || isFile(field) || one.type === "hidden" || one.tagName === "BUTTON") return;
        if (one.type === "checkbox" || one.type === "radio") one.checked = one.value === field[1];
        else if (one.type !== "file") one.value = field[1];
      });
    });
    for (let up = form; up; up = up.parentElement) if (up.tagName === "DETAILS") up.open = true;
    form.scrollIntoView({ block: "center" });
  }

  window.bellcrankForms = {
    isFile: isFile, fieldsOf: fieldsOf, typedIn: typedIn, submitAsTapped: submitAsTapped, same: sameForm, putBack: putBack,
  };
})();
