"use strict";
(function () {
  var body = document.body;
  var store = "yokefellow " + body.dataset.key;
  var boxes = Array.prototype.slice.call(document.querySelectorAll("main input[type=checkbox]"));
  var rows = boxes.filter(function (box) { return box.closest("tr.line"); });
  var byId = {};
  var last = "";
  var kept = true;
  boxes.forEach(function (box) { byId[box.id] = box; });

  function find(id) { return document.getElementById(id); }

  function ticked() {
    return boxes.filter(function (box) { return box.checked; }).map(function (box) { return box.id; });
  }

  function remember() {
    try {
      window.localStorage.setItem(store, JSON.stringify({ last: last, ticked: ticked() }));
      kept = true;
    } catch (problem) {
      kept = false;
    }
    tell();
  }

  function recall() {
    try {
      window.localStorage.setItem(store + " try", "1");
      window.localStorage.removeItem(store + " try");
      var text = window.localStorage.getItem(store);
      if (text === null) { return; }
      var found = JSON.parse(text);
      var ids = Object.create(null);
      found.ticked.forEach(function (id) { ids[id] = true; });
      boxes.forEach(function (box) { box.checked = ids[box.id] === true; });
      last = byId[found.last] ? found.last : "";
    } catch (problem) {
      kept = false;
    }
  }

  function firstOpen(copy, from) {
    return rows.find(function (box) {
      return !box.checked && (box.dataset.copy || "") === copy && Number(box.dataset.place) >= from;
    });
  }

  // The row after the one ticked last; in the sleeves, the same sleeve goes on,
  // unless both are knitted together and the other one now lacks this very row.
  function next() {
    var from = byId[last];
    var open = rows.find(function (box) { return !box.checked; });
    if (!from || !from.closest("tr.line") || !from.checked || !from.dataset.copy) { return open; }
    var place = Number(from.dataset.place);
    var other = firstOpen(from.dataset.copy === "left" ? "right" : "left", 0);
    if (other && Number(other.dataset.place) === place && started(other)) { return other; }
    return firstOpen(from.dataset.copy, place) || open;
  }

  function started(box) {
    return rows.some(function (each) { return each.checked && each.dataset.copy === box.dataset.copy; });
  }

  function share() {
    var done = 0;
    rows.forEach(function (box) {
      if (box.checked) { done += Number(box.closest("tr.line").dataset.stitches); }
    });
    return Math.floor(100 * done / Number(body.dataset.stitches));
  }

  function tell() {
    var to = next();
    var words = to
      ? "Next: row " + to.dataset.place + " of " + body.dataset.rows + (to.dataset.copy ? ", " + to.dataset.copy + " sleeve" : "")
      : "All " + body.dataset.rows + " rows are done";
    find("where").textContent = words + " · " + share() + " % done";
    find("continue").hidden = !to;
    document.querySelectorAll("tr.here").forEach(function (row) { row.classList.remove("here"); });
    if (to) { to.closest("tr.line").classList.add("here"); }
    find("remembers").textContent = kept
      ? "Your ticks are remembered in this browser, on this device."
      : "This browser does not let the page remember your ticks. Before you close it, save them as a text, below.";
  }

  function go() {
    var to = next();
    if (!to) { return; }
    to.scrollIntoView({ block: "center" });
    to.focus({ preventScroll: true });
  }

  // As text: "yokefellow <key>: yoke 1-17 23, sleeve-left 1-4".
  function asText() {
    var tracks = [];
    var runs = {};
    ticked().forEach(function (id) {
      var cut = id.lastIndexOf("-");
      var track = id.slice(0, cut);
      var number = Number(id.slice(cut + 1));
      if (!runs[track]) { runs[track] = []; tracks.push(track); }
      var run = runs[track][runs[track].length - 1];
      if (run && run[1] === number - 1) { run[1] = number; } else { runs[track].push([number, number]); }
    });
    return store + ": " + tracks.map(function (track) {
      return track + " " + runs[track].map(function (run) {
        return run[0] === run[1] ? String(run[0]) : run[0] + "-" + run[1];
      }).join(" ");
    }).join(", ");
  }

  function fromText(text) {
    var cut = text.indexOf(":");
    if (text.slice(0, cut).trim() !== store) { return false; }
    var ids = {};
    text.slice(cut + 1).split(",").forEach(function (part) {
      var words = part.trim().split(/\s+/);
      words.slice(1).forEach(function (word) {
        var ends = /^(\d{1,4})(?:-(\d{1,4}))?$/.exec(word);
        if (!ends) { return; }
        for (var n = Number(ends[1]); n <= Number(ends[2] || ends[1]); n += 1) { ids[words[0] + "-" + n] = true; }
      });
    });
    boxes.forEach(function (box) { box.checked = ids[box.id] === true; });
    last = "";
    remember();
    return true;
  }

  boxes.forEach(function (box) {
    box.addEventListener("change", function () {
      if (box.checked) { last = box.id; }
      remember();
    });
  });
  find("continue").addEventListener("click", go);
  find("save").addEventListener("click", function () {
    var field = find("ticks-text");
    field.value = asText();
    field.focus();
    field.select();
    find("said").textContent = "These are your ticks. Copy the text and keep it.";
  });
  find("restore").addEventListener("click", function () {
    find("said").textContent = fromText(find("ticks-text").value)
      ? "Your ticks are restored."
      : "This text does not belong to this sheet. Nothing was changed.";
  });
  find("clear").addEventListener("click", function () {
    if (!window.confirm("Clear every tick of this sheet?")) { return; }
    boxes.forEach(function (box) { box.checked = false; });
    last = "";
    remember();
    find("said").textContent = "All ticks are cleared.";
  });

  recall();
  find("bar").hidden = false;
  find("keeping").hidden = false;
  tell();
}());
