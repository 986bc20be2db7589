// Makes a piece of the page look like new HTML while what is focused, typed or open in it stays.

const OURS = ["aria-current", "aria-expanded", "open"]; // set by the page's script, not by the server

const WHOLE = ".item, select";

export const typed = (field) =>
  field.matches("input:not([type=checkbox]):not([type=hidden]), textarea") && field.value !== field.defaultValue;

// `changed` collects the elements in which something is new.
export function morph(now, html, changed = new Set()) {
  const next = document.createElement(now.tagName);
  next.innerHTML = html;
  const focused = document.activeElement?.id;
  inside(now, next, changed);
  if (focused && document.activeElement.id !== focused) document.getElementById(focused)?.focus();
  return changed;
}

function one(now, next, changed) {
  if (now.nodeType !== Node.ELEMENT_NODE) {
    if (now.nodeValue !== next.nodeValue) {
      now.nodeValue = next.nodeValue;
      changed.add(now.parentElement);
    }
    return;
  }
  if (now.hasAttribute("data-slot") || next.hasAttribute("data-same")) return;
  if (now.matches("select[data-steps]") && now === document.activeElement) return;
  if (now.matches(WHOLE) && now.isEqualNode(next)) return; // most lines stay as they are
  const keeps = typed(now) && now.value !== now.dataset.sent;
  for (const { name, value } of [...next.attributes]) {
    if (now.getAttribute(name) !== value && !OURS.includes(name)) now.setAttribute(name, value);
  }
  for (const { name } of [...now.attributes]) {
    if (!next.hasAttribute(name) && !OURS.includes(name) && name !== "data-sent") now.removeAttribute(name);
  }
  if (now.tagName === "TEXTAREA") now.defaultValue = next.defaultValue;
  else inside(now, next, changed);
  if (now.matches("input, textarea, select") && !keeps) {
    if (now.type === "checkbox") now.checked = next.checked;
    else if (now.value !== next.value) now.value = next.value;
  }
}

function inside(now, next, changed) {
  const wanted = new Set([...next.children].map((child) => child.id).filter(Boolean));
  const here = new Map();
  for (const child of [...now.children]) {
    if (!child.id) continue;
    if (wanted.has(child.id)) here.set(child.id, child);
    else child.remove();
  }
  let place = now.firstChild;
  for (const want of [...next.childNodes]) {
    let use = null;
    if (want.id) {
      const known = here.get(want.id);
      use = known?.tagName === want.tagName ? known : null;
    } else if (place && !place.id && place.nodeName === want.nodeName) {
      use = place;
    }
    if (!use) {
      now.insertBefore(want, place);
      changed.add(want.nodeType === Node.ELEMENT_NODE ? want : now);
      continue;
    }
    if (use === place) place = place.nextSibling;
    else {
      now.insertBefore(use, place);
      changed.add(use);
    }
    one(use, want, changed);
  }
  while (place) {
    const gone = place;
    place = place.nextSibling;
    gone.remove();
  }
}
