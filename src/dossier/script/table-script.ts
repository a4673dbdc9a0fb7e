/**
 * The one script that a page may carry, admitted by its hash: sorts and filters tables that offer it. It stands in the head
 * and marks the page at once, so that the controls' room is kept from the first paint; it touches nothing outside the
 * tables, stores and sends nothing. A row's values and a cell's place in its column are attributes that the page brings.
 */
export const tableScript = `"use strict";
document.documentElement.classList.add("scripted");
document.addEventListener("DOMContentLoaded", () => {
  for (const plate of document.querySelectorAll(".tooled")) {
    const body = plate.querySelector("tbody");
    const rows = [...body.rows];
    const heads = [...plate.querySelectorAll("thead th")];
    const selects = [...plate.querySelectorAll("select")];
    const state = plate.querySelector(".table-state");
    let sorted = "";
    const say = () => {
      const shown = rows.filter((row) => !row.hidden).length;
      const count = shown === rows.length ? rows.length + " rows" : shown + " of " + rows.length + " rows";
      state.textContent = count + sorted;
    };
    const keepWidths = () => {
      for (const head of heads) head.style.minWidth = head.offsetWidth + "px";
    };
    const filter = () => {
      keepWidths();
      for (const row of rows) {
        row.hidden = selects.some((select) => {
          const values = row.getAttribute("data-pick-" + select.dataset.filter).split(" ");
          return select.value !== "" && !values.includes(select.value);
        });
      }
      say();
    };
    const sort = (column, button) => {
      const direction = heads[column].getAttribute("aria-sort") === "ascending" ? "descending" : "ascending";
      for (const head of heads) head.removeAttribute("aria-sort");
      heads[column].setAttribute("aria-sort", direction);
      const place = (row) => row.cells[column].dataset.order;
      const sign = direction === "ascending" ? 1 : -1;
      const order = [...rows].sort((a, b) => {
        const [left, right] = [place(a), place(b)];
        if (left === undefined || right === undefined) return (left === undefined) - (right === undefined);
        return sign * (left - right);
      });
      body.append(...order);
      sorted = ", sorted by " + button.textContent.trim() + ", " + direction;
      say();
    };
    heads.forEach((head, column) => {
      const button = head.querySelector("button");
      if (button !== null) button.addEventListener("click", () => sort(column, button));
    });
    for (const select of selects) {
      select.value = "";
      select.addEventListener("change", filter);
    }
    const all = plate.querySelector(".all-rows");
    if (all !== null) all.addEventListener("click", () => {
      for (const select of selects) select.value = "";
      filter();
    });
  }
});
`;
