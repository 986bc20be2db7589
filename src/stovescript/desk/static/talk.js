// The talk side: shows and plays the words that something came from, and goes from clause to clause by keyboard.

const list = document.getElementById("clauses");
const player = document.getElementById("player");
const strip = document.getElementById("strip");
const clauses = [...list.querySelectorAll("[role=option]")];
const starts = clauses.map((clause) => Number(clause.dataset.s));
const ends = clauses.map((clause) => Number(clause.dataset.e));
let shown = [];
let stopAt = Infinity;

export const spans = (text) => text.split(" ").filter(Boolean).map((span) => span.split("-").map(Number));

// The clauses said between two seconds.
function between(start, end) {
  let low = 0;
  let high = clauses.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (ends[middle] <= start + 0.01) low = middle + 1;
    else high = middle;
  }
  const found = [];
  for (let at = low; at < clauses.length && starts[at] < Math.max(end, start + 0.02) - 0.01; at += 1) found.push(clauses[at]);
  return found;
}

// Marks the words of `heard` ("75.2-78 95-97"), brings the first into view, and plays from there.
export function show(heard, play) {
  for (const clause of shown) clause.setAttribute("aria-selected", "false");
  const places = spans(heard);
  const found = places.map(([start, end]) => between(start, end));
  shown = found.flat();
  for (const clause of shown) clause.setAttribute("aria-selected", "true");
  if (shown.length) {
    active(shown[0]);
    center(shown[0]);
  }
  tell(found[0] ?? []);
  if (places.length) from(places[0][0], found[0]?.length ? Number(found[0].at(-1).dataset.e) : places[0][1], play);
}

function from(start, end, play) {
  if (!player) return;
  player.currentTime = start;
  stopAt = Infinity;
  if (play && document.getElementById("plays").checked) {
    stopAt = end + 2;
    player.play().catch(() => {});
  }
}

function tell(said) {
  strip.hidden = !said.length;
  const words = said.slice(0, 3).map((clause) => clause.textContent).join(" ");
  document.getElementById("strip-words").textContent = said.length ? `${said[0].dataset.t}  “${words}”` : "";
}

function center(clause) {
  const pane = list.getBoundingClientRect();
  if (!pane.height) return;
  clause.scrollIntoView({ block: "center" });
}

function active(clause) {
  list.querySelector(".active")?.classList.remove("active");
  clause.classList.add("active");
  list.setAttribute("aria-activedescendant", clause.id);
}

export const bringUp = () => shown[0] && center(shown[0]);

// `used(start, end)` is called with the seconds of a clause that was picked.
export function listen(used) {
  const pick = (clause) => {
    active(clause);
    for (const other of shown) other.setAttribute("aria-selected", "false");
    shown = [clause];
    clause.setAttribute("aria-selected", "true");
    tell(shown);
    from(Number(clause.dataset.s), Infinity, true);
    used(Number(clause.dataset.s), Number(clause.dataset.e));
  };
  list.addEventListener("click", (event) => {
    const clause = event.target.closest("[role=option]");
    if (clause) pick(clause);
  });
  list.addEventListener("keydown", (event) => {
    const at = clauses.indexOf(list.querySelector(".active"));
    const page = 12;
    const to = { ArrowDown: at + 1, ArrowUp: at - 1, PageDown: at + page, PageUp: at - page, Home: 0, End: clauses.length - 1 }[event.key];
    if (to !== undefined && !event.altKey && !event.ctrlKey) {
      event.preventDefault();
      const clause = clauses[Math.min(Math.max(to, 0), clauses.length - 1)];
      active(clause);
      clause.scrollIntoView({ block: "nearest" });
    } else if ((event.key === "Enter" || event.key === " ") && at >= 0) {
      event.preventDefault();
      pick(clauses[at]);
    }
  });
  list.addEventListener("focus", () => {
    if (!list.querySelector(".active") && clauses.length) active(clauses[0]);
  });
}

if (player) {
  let at = null;
  player.addEventListener("timeupdate", () => {
    if (player.currentTime > stopAt) {
      stopAt = Infinity;
      player.pause();
    }
    const now = player.paused ? null : between(player.currentTime, player.currentTime)[0];
    if (now === at) return;
    at?.classList.remove("playing");
    now?.classList.add("playing");
    at = now;
  });
}
