// The sewn thread as a tape that winds to and fro.
//
// Every needle point is painted once, into a plain array of pixels, and what it changes there is
// noted: which pixel, what it becomes, what it was. Winding forward applies notes, winding back
// undoes them, so that showing any stitch costs no more than the pixels that differ; how many
// stitches lie between does not matter.
"use strict";

const PIECE = 8; // pixels
const LEAST_GAIN = 8; // of 255

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

  // A long line goes in pieces, so that the box round each holds few pixels beside it.
  line(u, v, toU, toV, half, colour) {
    const pieces = Math.ceil(Math.max(Math.abs(toU - u), Math.abs(toV - v)) / PIECE) || 1;
    const across = (toU - u) / pieces;
    const down = (toV - v) / pieces;
    for (let i = 0; i < pieces; i++) {
      this.piece(u + i * across, v + i * down, across, down, half + 0.5, colour);
    }
  }

  // Covers pixels by how far their middles lie from the line: crisp, and smooth at its edges. A
  // pixel is noted where it is covered clearly more than by what lay there.
  piece(u, v, across, down, reach, colour) {
    const { width, pixels } = this;
    const left = Math.max(0, Math.floor(Math.min(u, u + across) - reach));
    const top = Math.max(0, Math.floor(Math.min(v, v + down) - reach));
    const right = Math.min(width - 1, Math.floor(Math.max(u, u + across) + reach));
    const bottom = Math.min(this.height - 1, Math.floor(Math.max(v, v + down) + reach));
    const perLength2 = 1 / (across * across + down * down || 1);
    for (let row = top; row <= bottom; row++) {
      const pv = row + 0.5 - v;
      for (let column = left; column <= right; column++) {
        const pu = column + 0.5 - u;
        let share = (pu * across + pv * down) * perLength2;
        share = share < 0 ? 0 : share > 1 ? 1 : share;
        const du = pu - share * across;
        const dv = pv - share * down;
        const off2 = du * du + dv * dv;
        if (off2 < reach * reach) {
          const cover = reach - Math.sqrt(off2);
          const alpha = cover >= 1 ? 255 : (cover * 255) | 0;
          const pixel = row * width + column;
          if (alpha > (pixels[pixel] >>> 24) + LEAST_GAIN) this.note(pixel, ((alpha << 24) | colour) >>> 0);
        }
      }
    }
  }

  // A needle point, over the thread; whatever is sewn later leaves it on top.
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
