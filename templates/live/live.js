// The page's one module: a change goes to the server, the fragments that follow it come back.
// One request is under way at a time, and the latest change wins.

const base = document.body.dataset.base;
const form = document.getElementById("form");
const text = document.getElementById("text");
const digest = document.getElementById("digest");
const message = document.getElementById("message");
const undo = document.getElementById("undo");
const redo = document.getElementById("redo");
const save = document.getElementById("save");

const past = [];
const ahead = [];
let waiting = new Map();
let busy = false;
let saved = text.value;

async function post(path, fields) {
  const response = await fetch(base + path, { method: "POST", body: new URLSearchParams(fields) });
  if (response.status !== 200 && response.status !== 409) throw new Error(await response.text());
  return response.json();
}

function show(answer) {
  for (const [name, html] of Object.entries(answer.parts)) {
    document.getElementById(name).innerHTML = html;
  }
  for (const field of form.querySelectorAll("[data-field]")) {
    const found = (answer.fields || {})[field.dataset.field];
    field.classList.toggle("has-error", found !== undefined && found[0] === "error");
    field.classList.toggle("has-caution", found !== undefined && found[0] === "caution");
    field.querySelector(".finding").textContent = found ? found[1] + " " + found[2] : "";
  }
  text.value = answer.text;
  message.textContent = answer.message;
  marks();
  summaries();
  strip();
}

function marks() {
  undo.disabled = past.length === 0;
  redo.disabled = ahead.length === 0;
  save.classList.toggle("is-needed", text.value !== saved);
}

async function send() {
  if (busy) return;
  busy = true;
  try {
    while (waiting.size > 0) {
      const fields = Object.fromEntries(waiting);
      waiting = new Map();
      const before = text.value;
      const answer = await post("/change", { text: before, ...fields });
      if (answer.text !== before && !("text" in fields)) {
        past.push(before);
        ahead.length = 0;
      }
      show(answer);
      for (const input of form.querySelectorAll("[name]")) {
        input.classList.toggle("is-refused", input.name in answer.refused);
      }
    }
  } catch (problem) {
    message.textContent = "The page's program does not answer. Your changes are still here: " + problem.message;
  } finally {
    busy = false;
  }
}

// What lies behind a slider: where the yarn is enough, after the first answer is drawn.
let strips;
function strip() {
  clearTimeout(strips);
  strips = setTimeout(async () => {
    for (const place of form.querySelectorAll("[data-strip]")) {
      if (busy || !place.closest("details").open) continue;
      const answer = await post("/along", { text: text.value, field: place.dataset.strip });
      place.innerHTML = answer.strip;
    }
  }, 120);
}

const quarters = ["", " 1/4", " 1/2", " 3/4"];

// A number as a tape shows it: 14 1/2 in, 37.5 cm.
function taped(value, unit) {
  if (unit === "cm") return value + " cm";
  const size = Math.abs(value);
  const whole = Math.floor(size);
  const part = quarters[Math.round((size - whole) * 4) % 4];
  const number = (whole === 0 && part ? part.trim() : whole + part) || "0";
  return (value < 0 ? "-" : "") + number + " in";
}

for (const slider of form.querySelectorAll("[data-slides]")) {
  slider.parentElement.hidden = false;
  slider.addEventListener("input", (event) => {
    event.stopPropagation();
    const input = document.getElementById("f-" + slider.dataset.slides);
    input.value = taped(Number(slider.value), slider.dataset.unit);
    change(input.name, input.value);
  });
}

for (const group of form.querySelectorAll("details")) group.addEventListener("toggle", strip);

function summaries() {
  for (const place of form.querySelectorAll("[data-says]")) {
    const inputs = [...place.closest("details").querySelectorAll(":scope > .field [name]")];
    place.textContent = inputs.map((input) => input.value).filter(Boolean).join(" · ");
  }
}

function change(name, value) {
  waiting.set(name, value);
  send();
}

form.addEventListener("input", (event) => {
  if (event.target.name && event.target !== text) change(event.target.name, event.target.value);
});

async function restore(from, to) {
  if (from.length === 0 || busy) return;
  to.push(text.value);
  text.value = from.pop();
  const answer = await post("/change", { text: text.value });
  show(answer);
  values();
}

// The fields follow the text after an undo: what the file holds stands in them again.
function values() {
  const page = new DOMParser();
  fetch(base + "/", { method: "POST", body: new URLSearchParams({ text: text.value }) })
    .then((response) => response.text())
    .then((html) => {
      const other = page.parseFromString(html, "text/html");
      for (const input of form.querySelectorAll("[name]")) {
        const twin = other.getElementById(input.id);
        if (twin && input !== text && input !== digest) input.value = twin.value;
      }
    });
}

undo.addEventListener("click", () => restore(past, ahead));
redo.addEventListener("click", () => restore(ahead, past));

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const answer = await post("/save", { text: text.value, digest: digest.value });
  if (answer.digest !== digest.value) saved = text.value;
  digest.value = answer.digest;
  message.textContent = answer.message;
  marks();
});

document.addEventListener("click", (event) => {
  const button = event.target.closest("button");
  if (!button) return;
  if (button.dataset.go) {
    const input = document.getElementById("f-" + button.dataset.go.replace(/\[.*/, ""));
    if (!input) return;
    for (let box = input.closest("details"); box; box = box.parentElement.closest("details")) box.open = true;
    input.focus();
  }
  if (button.dataset.mends) {
    for (const line of button.dataset.mends.split("\n").filter(Boolean)) {
      const [field, value] = line.split("\t");
      const typed = value.replace(/^"|"$/g, "");
      const input = document.getElementById("f-" + field);
      if (input) input.value = typed;
      change(field, typed);
    }
  }
});

document.addEventListener("keydown", (event) => {
  if (!(event.ctrlKey || event.metaKey) || event.target.matches("input, select, textarea")) return;
  if (event.key === "z") restore(event.shiftKey ? ahead : past, event.shiftKey ? past : ahead);
});

addEventListener("beforeunload", (event) => {
  if (text.value !== saved) event.preventDefault();
});
