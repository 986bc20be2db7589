// The review page: what is picked, opened, kept, undone. The server makes the HTML; this puts it in its place.

import { morph, typed } from "./morph.js";
import { bringUp, listen, show, spans } from "./talk.js";

const body = document.body;
const { at, token, name } = body.dataset;
const byId = (id) => document.getElementById(id);
const wide = matchMedia("(min-width: 48rem) and (min-height: 28rem)"); // as in the style
let edition = body.dataset.edition;
let open = ""; // the part whose editor is open
let refused = null; // a change that was not kept since the draft had been changed elsewhere
let queue = Promise.resolve();

// Asking the server

async function get(path) {
  const answer = await fetch(`${at}/${path}`, { headers: { accept: "application/json" } });
  const text = await answer.text();
  if (!answer.ok) throw new Error(text.trim());
  return JSON.parse(text);
}

// One change after the other: each needs the edition that the one before has made.
function send(path, wish, wrong) {
  const asked = () => sent(path, wish, wrong);
  queue = queue.then(asked, asked);
  return queue;
}

async function sent(path, wish, wrong) {
  let answer;
  let data;
  try {
    answer = await fetch(`${at}/${path}/${name}`, {
      method: "POST",
      headers: { "content-type": "application/json", "x-desk-token": token },
      body: JSON.stringify({ ...wish, edition, open }),
    });
    data = await answer.json();
  } catch {
    wrong("The page can't reach stovescript any more. What you typed is still here; start stovescript desk again.");
    return false;
  }
  if (answer.status === 409) {
    elsewhere(data, { path, wish, wrong });
    return false;
  }
  if (!answer.ok) {
    wrong(data.sentence);
    return false;
  }
  wrong("");
  take(data);
  return data;
}

// Puts new pieces in the place of what is shown.
function take(data) {
  edition = data.edition;
  const changed = new Set();
  for (const [piece, html] of Object.entries(data.pieces)) {
    const found = morph(byId(piece), html);
    if (!["top", "questions", "yours"].includes(piece)) for (const one of found) changed.add(one);
  }
  if (data.said) say(data.said);
  document.title = `${document.querySelector("h1").textContent} · review`;
  if (open && !byId(`slot-${open}`)) open = "";
  if (open && data.open === open) fill(open, data.editor);
  flash(changed);
}

function flash(changed) {
  const items = new Set([...changed].map((one) => one?.closest?.(".item")).filter(Boolean));
  for (const item of items) item.classList.remove("fresh");
  requestAnimationFrame(() => { for (const item of items) item.classList.add("fresh"); }); // starts anew
  const first = [...items][0];
  if (first && !byId("pane-draft").contains(document.activeElement)) first.scrollIntoView({ block: "nearest" });
}

function say(text) {
  byId("said").textContent = "";
  requestAnimationFrame(() => { byId("said").textContent = text; });
}

// Picking: the words that something came from

function pick(item, play) {
  for (const other of document.querySelectorAll("[aria-current]")) other.removeAttribute("aria-current");
  item.setAttribute("aria-current", "true");
  show(item.dataset.heard ?? "", play);
  if (!item.dataset.heard && play && item.id !== "dish-item") say("This is yours; it was not said in the talk.");
}

listen((start, end) => {
  const used = [...document.querySelectorAll("#pane-draft [data-heard]")].filter((item) =>
    spans(item.dataset.heard).some(([from, to]) => from < end - 0.01 && to > start + 0.01));
  for (const other of document.querySelectorAll("[aria-current]")) other.removeAttribute("aria-current");
  for (const item of used) item.setAttribute("aria-current", "true");
  if (used.length && wide.matches) used[0].scrollIntoView({ block: "center" });
  const names = used.map((item) => item.querySelector(".pick")?.textContent.trim()).filter(Boolean);
  say(names.length ? `From these words: ${names.join("; ")}` : "Nothing in the draft comes from these words.");
});

// Opening and closing editors

const slot = (id) => byId(`slot-${id}`);

function fill(id, html) {
  const box = slot(id);
  if (box.hidden) box.innerHTML = html;
  else morph(box, html);
  box.hidden = false;
  byId(`${id}-change`)?.setAttribute("aria-expanded", "true");
}

async function openEditor(id, focus = true) {
  if (open && open !== id) close(false);
  try {
    const data = await get(`edit/${encodeURIComponent(id)}/${name}`);
    if (!slot(id)) return;
    open = id;
    fill(id, data.editor);
    if (data.edition !== edition) look();
    if (focus) focusIn(id);
  } catch (error) {
    say(error.message.startsWith("{") ? "That is not in the draft any more." : error.message);
  }
}

function focusIn(id) {
  const box = slot(id);
  const field = box.querySelector("[data-first]") ?? box.querySelector("input:not([type=hidden]), textarea, select");
  field?.focus({ preventScroll: true });
  box.closest(".item").scrollIntoView({ block: "nearest" });
}

function close(focus = true) {
  const id = open;
  open = "";
  if (!id || !slot(id)) return;
  slot(id).hidden = true;
  slot(id).replaceChildren();
  byId(`${id}-change`)?.setAttribute("aria-expanded", "false");
  if (focus) byId(`${id}-change`)?.focus();
}

// The steps to choose from are those on the page.
function offerSteps(select) {
  const chosen = select.value;
  const steps = [...document.querySelectorAll("li.step")].map((step, place) => {
    const words = step.querySelector(".pick").lastChild.textContent.trim();
    return new Option(`Step ${place + 1}: ${words.length > 44 ? `${words.slice(0, 43)}…` : words}`, step.id);
  });
  const none = [...select.options].filter((option) => !option.value);
  select.replaceChildren(...none, ...steps);
  select.value = chosen;
}

for (const used of ["focusin", "pointerdown"]) {
  document.addEventListener(used, (event) => {
    const select = event.target.closest("select[data-steps]");
    if (select && select.options.length < 3) offerSteps(select);
  }, true);
}

// Views of a narrow screen

function view(which) {
  body.dataset.view = which;
  for (const button of document.querySelectorAll("[data-show]")) {
    button.setAttribute("aria-pressed", String(button.dataset.show === which));
  }
  if (which === "talk") bringUp();
}

// Keeping changes

const mark = (form) => (text) => {
  const wrong = form.querySelector(".wrong");
  const field = form.querySelector("input:not([type=hidden]), textarea");
  if (wrong) wrong.textContent = text;
  else if (text) say(text);
  if (field && text) field.setAttribute("aria-invalid", "true");
  else field?.removeAttribute("aria-invalid");
};

async function keep(form) {
  const wish = { do: form.dataset.do, of: form.dataset.of ?? "" };
  for (const field of form.elements) {
    if (field.name) wish[field.name] = field.type === "checkbox" ? field.checked : field.value;
  }
  if (form.dataset.needs && !wish[form.dataset.needs]) return mark(form)("Choose one first.");
  const value = form.elements.to;
  if (form.hasAttribute("data-kept") && value.type !== "checkbox") {
    if (value.value === value.defaultValue || value.value === value.dataset.sent) return undefined;
    value.dataset.sent = value.value;
  }
  const item = form.closest(".item, details");
  const back = item?.id;
  const done = await send("change", wish, mark(form));
  if (value?.dataset) delete value.dataset.sent;
  if (!done) return undefined;
  if (form.hasAttribute("data-clears")) {
    form.reset();
    form.closest("details").open = false;
    const made = byId(done.new) ?? byId(back);
    if (made?.matches(".item")) {
      made.scrollIntoView({ block: "nearest" });
      byId(`${made.id}-pick`)?.focus();
    } else form.closest("details").querySelector("summary").focus();
  }
  settle(back);
  return undefined;
}

// Where the focus goes when what had it is gone.
function settle(back, fallback = "ingredients-heading") {
  if (document.activeElement && document.activeElement !== body) return;
  const to = byId(`${back}-change`) ?? byId(`${back}-pick`) ?? byId(fallback);
  if (to && !to.matches("button, input")) to.tabIndex = -1;
  to?.focus();
}

async function answer(form, text) {
  const { gap } = form.dataset;
  const pane = byId(gap);
  const done = await send("answer", { gap, text }, mark(form));
  if (!done) return;
  open = "";
  if (done.open && slot(done.open)) {
    open = done.open;
    fill(open, done.editor);
    pick(byId(open), false);
    focusIn(open);
  } else if (!pane.isConnected) byId("questions-heading").focus();
}

async function move(step, direction) {
  const steps = [...document.querySelectorAll("li.step")];
  const place = steps.indexOf(step);
  const to = direction === "up" ? place - 1 : place + 1;
  if (to < 0 || to >= steps.length) return;
  const after = direction === "up" ? steps[place - 2] : steps[to];
  const done = await send("change", { do: "move", of: step.id, where: after?.id ?? "" }, (text) => text && say(text));
  if (!done) return;
  say(`Step ${place + 1} is now step ${to + 1}.`);
  const button = byId(`${step.id}-${direction}`);
  (button.disabled ? byId(`${step.id}-pick`) : button).focus();
  step.scrollIntoView({ block: "nearest" });
}

// Changed elsewhere

function elsewhere(data, mine) {
  refused = mine;
  byId("elsewhere-what").textContent = data.lines.length
    ? "Another tab, or somebody editing the answers file, has changed this draft since you opened it:"
    : "Another tab, or somebody editing the files, has changed this draft since you opened it.";
  byId("elsewhere-lines").replaceChildren(...data.lines.map((line) => {
    const item = document.createElement("li");
    item.textContent = line;
    return item;
  }));
  const words = mine?.wish.text ?? mine?.wish.to;
  byId("elsewhere-mine").textContent = !mine ? "" : `Your change is not kept yet${words ? `: “${words}”` : ""}.`;
  byId("elsewhere-show").hidden = false;
  byId("elsewhere-again").hidden = byId("elsewhere-close").hidden = true;
  byId("elsewhere").hidden = false;
  if (mine) byId("elsewhere-heading").focus();
}

async function reload() {
  try {
    const id = open;
    take({ ...(await get(`state/${name}`)), said: "This is the draft as it is now." });
    if (id && open === id && !refused) await openEditor(id, false);
  } catch (error) {
    say(error.message);
    return;
  }
  byId("elsewhere-show").hidden = true;
  if (refused) {
    byId("elsewhere-again").hidden = byId("elsewhere-close").hidden = false;
    byId("elsewhere-again").focus();
  } else byId("elsewhere").hidden = true;
}

async function again() {
  const { path, wish, wrong } = refused;
  refused = null;
  byId("elsewhere").hidden = true;
  const done = await send(path, wish, (text) => { wrong(text); if (text) say(text); });
  if (done && wish.gap) close(false);
  settle(wish.of, "questions-heading");
}

// Has anybody else changed it? Asked when she comes back to this tab.
async function look() {
  if (refused || document.hidden) return;
  try {
    const now = await get(`edition/${name}`);
    if (now.edition !== edition) elsewhere({ lines: [] }, null);
  } catch { /* the next change will say so */ }
}

// What is pressed

document.addEventListener("click", (event) => {
  const button = event.target.closest("button");
  if (!button) return;
  const { change, goto, show: which, step, move: direction, back } = button.dataset;
  if (button.hasAttribute("data-pick")) pick(button.closest("[data-heard]"), true);
  if (change) {
    if (open === change) close();
    else {
      if (!button.hasAttribute("data-pick")) pick(button.closest("[data-heard]"), false);
      openEditor(change);
    }
  } else if (goto) {
    view("questions");
    pick(byId(goto), true);
    openEditor(goto);
  } else if (which) view(which);
  else if (step) send(step, {}, (text) => text && say(text)).then(() => settle("", "questions-heading"));
  else if (direction) move(button.closest("li.step"), direction);
  else if (back !== undefined) send("take-back", { number: Number(back) }, (text) => text && say(text)).then(() => byId("yours-open")?.focus());
  else if (button.classList.contains("close")) close();
  else if (button.id === "strip-go") view("talk");
  else if (button.id === "elsewhere-show") reload();
  else if (button.id === "elsewhere-again") again();
  else if (button.id === "elsewhere-close") {
    refused = null;
    byId("elsewhere").hidden = true;
    if (open) openEditor(open);
  }
});

document.addEventListener("submit", (event) => {
  event.preventDefault();
  const form = event.target;
  const from = event.submitter;
  if (!form.matches(".answer")) keep(form);
  else if (from?.dataset.from) answer(form, byId(from.dataset.from).value);
  else if (from?.name === "text") answer(form, from.value);
  else answer(form, form.elements.words.value);
});

document.addEventListener("change", (event) => {
  const form = event.target.closest("form[data-kept]");
  if (form) keep(form);
});

document.addEventListener("keydown", (event) => {
  const field = event.target.closest("input:not([type=checkbox]), textarea, select");
  const command = event.ctrlKey || event.metaKey;
  if (event.key === "Escape" && open) {
    if (field && typed(field) && field.closest("[data-kept]")) field.value = field.defaultValue;
    close();
  } else if (event.key === "Enter" && command && field?.matches("textarea")) {
    event.preventDefault();
    field.form.requestSubmit();
  } else if (command && event.key.toLowerCase() === "z" && !field) {
    event.preventDefault();
    byId(event.shiftKey ? "redo" : "undo").click();
  } else if (event.altKey && (event.key === "ArrowUp" || event.key === "ArrowDown") && !field) {
    const step = event.target.closest("li.step");
    if (!step) return;
    event.preventDefault();
    move(step, event.key === "ArrowUp" ? "up" : "down");
  }
});

document.addEventListener("visibilitychange", look);
window.addEventListener("focus", look);
window.addEventListener("beforeunload", (event) => {
  const unsent = [...document.querySelectorAll(".slot input, .slot textarea")].some((field) => typed(field));
  if (unsent || refused) event.preventDefault();
});

const first = document.querySelector(".questions .item");
if (first) show(first.dataset.heard, false);
