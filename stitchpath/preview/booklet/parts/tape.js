// The sewn thread as a tape that winds to and fro.
//
// Every needle point is painted once, into a plain array of pixels, and what it changes there is
// noted: which pixel, what it becomes, what it was. Winding forward applies notes, winding back
// undoes them, so that showing any stitch costs no more than the pixels that differ; how many
// stitches lie between does not matter.
"use strict";

class Tape {
  // scope: the rows; view: { scale, left, top }, pixels per mm and the pixel of 0, 0;
  // look: { width, bead, thread, marks }: pixels and [red, green, blue].
  constructor(width, height, scope, view, look) {
    this.width = width;
    this.height = height;
    this.image = new ImageData(width, height);
    this.pixels = new Uint32Array(this.image.data.buffer);
    this.size = 0;
    this.grow(1 << 16);
    this.until = new Uint32Array(scope.count + 1); // notes up to so many points
    this.paintAll(scope, view, look);
    this.at = scope.count;
  }

  grow(room) {
    for (const name of ["where", "now", "was"]) {
      const longer = new Uint32Array(room);
      if (this[name]) longer.set(this[name]);
      this[name] = longer;
    }
  }

  paintAll(scope, view, look) {
    const reach = look.width / 2 + 1 + look.bead;
    const { x, y, before } = scope;
    const right = this.width + reach;
    const bottom = this.height + reach;
    const thread = rgb(look.thread);
    let u = 0;
    let v = 0;
    for (let i = 0; i < scope.count; i++) {
      const toU = x[i] * view.scale + view.left;
      const toV = y[i] * view.scale + view.top;
      const seen = Math.max(u, toU) > -reach && Math.max(v, toV) > -reach
        && Math.min(u, toU) < right && Math.min(v, toV) < bottom;
      if (seen && i && !(before[i] & MOVED)) this.line(u, v, toU, toV, look.width / 2, thread);
      if (seen && look.bead) this.bead(toU, toV, look.bead, look);
      this.until[i + 1] = this.size;
      u = toU;
      v = toV;
    }
  }

  // Covers pixels by how far their middles lie from the line: crisp, and smooth at its edges.
  line(u, v, toU, toV, half, colour) {
    const across = toU - u;
    const down = toV - v;
    const steep = Math.abs(down) > Math.abs(across);
    const length2 = across * across + down * down;
    const [from, to] = steep ? [v, toV] : [u, toU];
    const [limit, limitAcross] = steep ? [this.height, this.width] : [this.width, this.height];
    const slope = steep ? across / (down || 1) : down / (across || 1);
    const reach = (half + 0.5) * Math.sqrt(1 + slope * slope);
    const start = Math.max(0, Math.floor(Math.min(from, to) - half - 0.5));
    const stop = Math.min(limit - 1, Math.ceil(Math.max(from, to) + half + 0.5));
    for (let along = start; along <= stop; along++) {
      const inside = Math.min(Math.max(along + 0.5, Math.min(from, to)), Math.max(from, to));
      const middle = (steep ? u : v) + (inside - from) * slope;
      const first = Math.max(0, Math.floor(middle - reach));
      const last = Math.min(limitAcross - 1, Math.ceil(middle + reach));
      for (let side = first; side <= last; side++) {
        const pu = (steep ? side : along) + 0.5 - u;
        const pv = (steep ? along : side) + 0.5 - v;
        let share = length2 ? (pu * across + pv * down) / length2 : 0;
        share = share < 0 ? 0 : share > 1 ? 1 : share;
        const du = pu - share * across;
        const dv = pv - share * down;
        const cover = half + 0.5 - Math.sqrt(du * du + dv * dv);
        if (cover > 0) this.cover(steep ? along * this.width + side : side * this.width + along,
          cover > 1 ? 1 : cover, colour);
      }
    }
  }

  // Notes a pixel that a line covers more than what lay there; beads are full, and stay on top.
  cover(pixel, share, colour) {
    const alpha = Math.round(share * 255);
    if (alpha > this.pixels[pixel] >>> 24) this.note(pixel, ((alpha << 24) | colour) >>> 0);
  }

  bead(u, v, radius, look) {
    const [left, top] = [Math.max(0, Math.floor(u - radius)), Math.max(0, Math.floor(v - radius))];
    const right = Math.min(this.width - 1, Math.ceil(u + radius));
    const bottom = Math.min(this.height - 1, Math.ceil(v + radius));
    for (let row = top; row <= bottom; row++) {
      for (let column = left; column <= right; column++) {
        const off = Math.hypot(column + 0.5 - u, row + 0.5 - v);
        const share = Math.min(1, radius + 0.5 - off);
        if (share > 0) {
          const mixed = look.marks.map((part, i) => Math.round(look.thread[i] + share * (part - look.thread[i])));
          this.note(row * this.width + column, ((255 << 24) | rgb(mixed)) >>> 0);
        }
      }
    }
  }

  note(pixel, colour) {
    if (this.size === this.where.length) this.grow(2 * this.size);
    this.where[this.size] = pixel;
    this.now[this.size] = colour;
    this.was[this.size] = this.pixels[pixel];
    this.pixels[pixel] = colour;
    this.size++;
  }

  // Winds to the state in which so many points are made.
  wind(points) {
    const { where, now, was, pixels } = this;
    const target = this.until[points];
    let note = this.until[this.at];
    for (; note < target; note++) pixels[where[note]] = now[note];
    for (; note > target;) pixels[where[--note]] = was[note];
    this.at = points;
  }
}

// A colour as the low three bytes of a pixel.
function rgb([red, green, blue]) {
  return (blue << 16) | (green << 8) | red;
}

function readColour(hex) {
  return [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16));
}
