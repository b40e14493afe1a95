// Wakes the page up once it is there.
"use strict";

function start() {
  startTicks();
  const plan = JSON.parse(document.getElementById("plan").textContent);
  document.getElementById("no-scripts").remove();
  document.getElementById("stand").hidden = false;
  const player = new Player(plan);
  for (const button of document.querySelectorAll("button[data-watch]")) {
    button.hidden = false;
    button.addEventListener("click", () => {
      player.open(button.dataset.watch);
      document.getElementById("player").scrollIntoView();
      document.getElementById("go-play").focus({ preventScroll: true });
    });
  }
}

start();
