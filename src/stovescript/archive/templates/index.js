// Sorts the table of drafts by a column and shows the rows that hold every word searched for.
(() => {
  const table = document.getElementById("drafts");
  if (!table) return;
  const body = table.tBodies[0];
  const rows = [...body.rows];
  const plain = (text) => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
  const texts = new Map(rows.map((row) => [row, plain(row.textContent)]));
  const headings = [...table.tHead.rows[0].cells];

  const value = (row, column) => {
    const cell = row.cells[column];
    return "value" in cell.dataset ? Number(cell.dataset.value) : plain(cell.querySelector("a, span").textContent);
  };
  const order = (a, b) => (typeof a === "number" ? a - b : a.localeCompare(b));

  headings.forEach((heading, column) => {
    const button = document.createElement("button");
    button.type = "button";
    button.append(...heading.childNodes);
    heading.append(button);
    button.addEventListener("click", () => {
      const sign = heading.getAttribute("aria-sort") === "ascending" ? -1 : 1;
      headings.forEach((other) => other.removeAttribute("aria-sort"));
      heading.setAttribute("aria-sort", sign > 0 ? "ascending" : "descending");
      rows.sort((one, two) => sign * order(value(one, column), value(two, column)));
      body.append(...rows);
    });
  });

  const search = document.querySelector(".search");
  const shown = document.getElementById("shown");
  const field = search.querySelector("input");
  search.hidden = false;
  const narrow = () => {
    const words = plain(field.value).split(/\s+/).filter(Boolean);
    let count = 0;
    for (const row of rows) {
      row.hidden = !words.every((word) => texts.get(row).includes(word));
      count += row.hidden ? 0 : 1;
    }
    shown.textContent = words.length ? `${count} of ${rows.length} drafts hold these words.` : "";
  };
  field.addEventListener("input", narrow);
  narrow();
})();
