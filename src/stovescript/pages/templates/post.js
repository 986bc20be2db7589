(() => {
  const choices = JSON.parse(document.getElementById("choices").textContent);
  const controls = document.getElementById("switch");
  const changed = document.getElementById("changed");
  const value = (name) => Number(controls.querySelector(`[name=${name}]:checked`).value);
  const show = () => {
    const choice = value("size") * choices.systems + value("units");
    for (const place of document.querySelectorAll("[data-place]")) {
      place.textContent = choices.words[choices.texts[place.dataset.place][choice]];
    }
    const list = document.createElement("ul");
    for (const note of choices.notes[choice]) {
      list.appendChild(document.createElement("li")).textContent = choices.words[note];
    }
    changed.replaceChildren(...(list.children.length ? [list] : []));
  };
  controls.addEventListener("change", show);
  controls.hidden = false;
  show();
})();
