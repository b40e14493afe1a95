// Boxes to tick, remembered by this browser for this plan, where it lets them be remembered.
"use strict";

function startTicks() {
  const key = `stitchpath ${document.body.dataset.key}`;
  const boxes = [...document.querySelectorAll("input[data-tick]")];
  const names = [...new Set(boxes.map((box) => box.dataset.tick))];
  const ticked = recall(key);
  const show = () => {
    for (const box of boxes) box.checked = ticked.has(box.dataset.tick);
    const count = names.filter((name) => ticked.has(name)).length;
    document.getElementById("done").textContent = `${count} of ${names.length} done`;
  };
  for (const box of boxes) {
    box.addEventListener("change", () => {
      if (box.checked) ticked.add(box.dataset.tick);
      else ticked.delete(box.dataset.tick);
      remember(key, ticked);
      show();
    });
  }
  document.getElementById("clear-ticks").addEventListener("click", () => {
    ticked.clear();
    remember(key, ticked);
    show();
  });
  document.querySelector(".tick-bar").hidden = false;
  show();
}

function recall(key) {
  try {
    const kept = JSON.parse(window.localStorage.getItem(key) || "[]");
    return new Set(Array.isArray(kept) ? kept : []);
  } catch {
    return new Set(); // storage is denied, or holds something else
  }
}

function remember(key, ticked) {
  try {
    window.localStorage.setItem(key, JSON.stringify([...ticked]));
  } catch {
    // storage is denied: the ticks last as long as the page is open
  }
}
