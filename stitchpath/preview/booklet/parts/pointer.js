// Fingers, mouse and wheel on the picture: one drags, two or the wheel bring it closer.
"use strict";

function listenToPointer(screen, sheets) {
  const held = new Map();
  const place = (event) => {
    const box = screen.getBoundingClientRect();
    return [event.clientX - box.left - screen.clientLeft, event.clientY - box.top - screen.clientTop];
  };
  const release = (event) => held.delete(event.pointerId);
  screen.addEventListener("pointerdown", (event) => {
    screen.setPointerCapture(event.pointerId);
    held.set(event.pointerId, place(event));
  });
  screen.addEventListener("pointermove", (event) => {
    const before = held.get(event.pointerId);
    if (!before) return;
    const now = place(event);
    const other = [...held.entries()].find(([id]) => id !== event.pointerId);
    held.set(event.pointerId, now);
    if (other) {
      const apart = (spot) => Math.hypot(spot[0] - other[1][0], spot[1] - other[1][1]);
      sheets.zoom(apart(now) / Math.max(1, apart(before)), other[1]);
    } else {
      sheets.pan(now[0] - before[0], now[1] - before[1]);
    }
  });
  screen.addEventListener("pointerup", release);
  screen.addEventListener("pointercancel", release);
  screen.addEventListener("wheel", (event) => {
    event.preventDefault();
    sheets.zoom(Math.exp(-event.deltaY / 400), place(event));
  }, { passive: false });
}
