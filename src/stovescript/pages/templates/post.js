(() => {
  const choices = JSON.parse(document.getElementById("choices").textContent);
  const controls = document.getElementById("switch");
  const chosen = (name) => controls.querySelector(`[name=${name}]:checked`);
  const list = (id, numbers) => {
    const box = document.getElementById(id);
    box.hidden = numbers.length === 0;
    box.querySelector("ul").replaceChildren(...numbers.map((number) => {
      const item = document.createElement("li");
      item.textContent = choices.words[number];
      return item;
    }));
  };
  const show = () => {
    const choice = Number(chosen("size").value) * choices.systems + Number(chosen("units").value);
    for (const place of document.querySelectorAll("[data-place]")) {
      place.textContent = choices.words[choices.texts[place.dataset.place][choice]];
    }
    list("notes", choices.notes[choice]);
    list("mind", choices.mind[choice]);
  };
  controls.addEventListener("change", () => {
    show();
    const names = [...controls.querySelectorAll(":checked + span")].map((span) => span.textContent);
    document.getElementById("shown").textContent = `Amounts shown: ${names.join(", ")}.`;
  });
  controls.hidden = false;
  show();
})();
