"use strict";
// Ticks are kept by the browser under the piece and the line; where it keeps nothing, boxes still
// tick, and a sheet on paper has its boxes anyway.
(() => {
  const kept = (action) => {
    try {
      return action(window.localStorage);
    } catch {
      return null;
    }
  };
  const boxes = [...document.querySelectorAll("input[data-kept]")];
  const name = (box) => `surfacecalc ${box.dataset.kept}`;
  for (const box of boxes) {
    box.checked = kept((store) => store.getItem(name(box))) === "1";
    box.addEventListener("change", () => {
      kept((store) => (box.checked ? store.setItem(name(box), "1") : store.removeItem(name(box))));
    });
  }
  const clear = document.getElementById("clear");
  if (clear) {
    clear.hidden = boxes.length === 0;
    clear.addEventListener("click", () => {
      for (const box of boxes) {
        box.checked = false;
        kept((store) => store.removeItem(name(box)));
      }
    });
  }
})();
