// Reads a drawn pull back where a finger or the slider stands: "at 0.42 s: 310 rpm, 640 kPa, cord 280 N".
(function () {
  "use strict";
  const STEPS = 200, DOT = 7;
  const HINT = "Slide along the pull to read it.";

  function numbers(element) {
    const read = {};
    for (const name in element.dataset) read[name] = Number(element.dataset[name]);
    return read;
  }

  function points(path) {
    return path.getAttribute("d").slice(1).split("L").map(function (pair) { return pair.split(" ").map(Number); });
  }

  function heightAt(line, x) {
    const next = line.findIndex(function (point) { return point[0] >= x; });
    if (next < 1) return line[next < 0 ? line.length - 1 : 0][1];
    const before = line[next - 1], after = line[next], wide = after[0] - before[0];
    return wide > 0 ? before[1] + (after[1] - before[1]) * (x - before[0]) / wide : after[1];
  }

  function told(trace, y) {
    const value = Math.round((trace.zero - y) / trace.per);
    return (value < 0 ? trace.under : trace.told).replace("{}", String(Math.abs(value))).replaceAll(" ", "\u00a0");
  }

  function mark(svg, kind) {
    const made = document.createElementNS(svg.namespaceURI, kind);
    made.setAttribute("class", "drawn-scrub");
    svg.append(made);
    return made;
  }

  function attach(svg) {
    const pull = svg.querySelector(".drawn-pull");
    if (!pull || svg.classList.contains("scrubbed")) return;
    svg.classList.add("scrubbed");
    const scale = numbers(pull), line = mark(svg, "path");
    const traces = Array.from(pull.querySelectorAll(".drawn-trace"), function (path) {
      const given = path.dataset;
      return {
        line: points(path), dot: mark(svg, "circle"), top: Number(given.top), zero: Number(given.zero),
        per: Number(given.per), told: given.told, under: given.under
      };
    });
    const box = document.createElement("div"), slider = document.createElement("input"), says = document.createElement("p");
    box.className = "scrub";
    slider.type = "range";
    slider.max = String(STEPS);
    slider.value = "0";
    slider.setAttribute("aria-label", "Along the pull");
    says.textContent = HINT;
    box.append(slider, says);
    svg.after(box);

    function stand(share) {
      const x = scale.left + (scale.right - scale.left) * share;
      const second = scale.start + (scale.end - scale.start) * share;
      const heights = traces.map(function (one) { return heightAt(one.line, x); });
      const values = traces.map(function (one, number) { return told(one, heights[number]); });
      const words = "at " + second.toFixed(2) + " s: " + values.join(", ");
      line.setAttribute("d", traces.map(function (one) { return "M" + x + " " + one.top + "v" + scale.high; }).join(""));
      traces.forEach(function (one, number) {
        one.dot.setAttribute("cx", x);
        one.dot.setAttribute("cy", heights[number]);
        one.dot.setAttribute("r", DOT);
      });
      says.textContent = words;
      slider.setAttribute("aria-valuetext", words);
    }

    function underFinger(event) {
      if (!event.isPrimary) return;
      const shown = svg.getBoundingClientRect();
      const x = (event.clientX - shown.left) / shown.width * svg.viewBox.baseVal.width;
      const share = Math.min(Math.max((x - scale.left) / (scale.right - scale.left), 0), 1);
      slider.value = String(Math.round(share * STEPS));
      stand(share);
    }

    slider.addEventListener("input", function () { stand(Number(slider.value) / STEPS); });
    svg.addEventListener("pointerdown", underFinger);
    svg.addEventListener("pointermove", underFinger);
  }

  function attachAll() { document.querySelectorAll(".figure-pull-trace").forEach(attach); }
  document.addEventListener("htmx:after:swap", attachAll);
  attachAll();
})();
