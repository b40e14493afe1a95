// Where on the screen things lie: pixels per mm, and the pixel of 0, 0.
"use strict";

const CLOSEST = 60; // pixels per mm
const MOST_PIXELS = 2e6; // of a sheet: sharper would only be slower

function canvasSize(screen) {
  const sharp = Math.min(window.devicePixelRatio || 1, 2);
  const area = Math.max(1, screen.clientWidth * screen.clientHeight);
  const ratio = Math.min(sharp, Math.sqrt(MOST_PIXELS / area));
  return {
    ratio,
    width: Math.max(1, Math.round(screen.clientWidth * ratio)),
    height: Math.max(1, Math.round(screen.clientHeight * ratio)),
  };
}

// What is to be seen of a scope, mm: [left, top, right, bottom].
function extentsOf(scope) {
  const { stage, whole } = scope;
  const fields = whole ? stage.data.hoopings : [stage.data.hoopings[scope.index]];
  const spots = fields.flatMap((hooping) => fieldCorners(hooping, whole));
  if (whole) spots.push(...stage.data.outline.map(([x, y]) => [x / 10, y / 10]));
  const [x, y] = [0, 1].map((axis) => spots.map((spot) => spot[axis]));
  return [Math.min(...x), Math.min(...y), Math.max(...x), Math.max(...y)];
}

function fieldCorners(hooping, onPiece) {
  const [width, height] = hooping.field;
  const corners = [[-1, -1], [1, -1], [1, 1], [-1, 1]].map(([x, y]) => [x * width / 2, y * height / 2]);
  return onPiece ? corners.map((corner) => toPiece(hooping, corner)) : corners;
}

function toPiece(hooping, [x, y]) {
  const angle = (hooping.turn * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return [hooping.centre[0] + cos * x - sin * y, hooping.centre[1] + sin * x + cos * y];
}

function toField(hooping, [x, y]) {
  const angle = (-hooping.turn * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const [across, down] = [x - hooping.centre[0], y - hooping.centre[1]];
  return [cos * across - sin * down, sin * across + cos * down];
}

function wholeView(scope, size) {
  const [left, top, right, bottom] = extentsOf(scope);
  const room = 0.94;
  const scale = room * Math.min(size.width / (right - left), size.height / (bottom - top));
  return {
    scale,
    left: size.width / 2 - (scale * (left + right)) / 2,
    top: size.height / 2 - (scale * (top + bottom)) / 2,
  };
}

// A view brought closer by a factor, with a pixel kept where it is.
function zoomed(view, factor, [u, v], widest) {
  const scale = Math.min(Math.max(view.scale * factor, widest / 2), CLOSEST);
  const by = scale / view.scale;
  return { scale, left: u + (view.left - u) * by, top: v + (view.top - v) * by };
}
