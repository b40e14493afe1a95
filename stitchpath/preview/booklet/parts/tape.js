// The sewn thread as a tape that winds to and fro.
//
// Every needle point is painted once, into a plain array of pixels, and what it changes there is
// noted: which pixel, what it becomes, what it was. Winding forward applies notes, winding back
// undoes them, so that showing any stitch costs no more than the pixels that differ; how many
// stitches lie between does not matter. Now and then the whole array is kept, so that a leap over
// many pixels starts from the nearest one kept.
"use strict";

const PIECE = 8; // pixels
const LEAST_GAIN = 8; // of 255
const KEPT = 4; // the array is kept each time that a quarter of its pixels has changed
const COPIED = 16; // so many pixels are copied in the time of one note

class Tape {
  // scope: the rows; view: { scale, left, top }, pixels per mm and the pixel of 0, 0;
  // look: { width, bead, threads, marks }: pixels, [red, green, blue] of each thread and of beads.
  constructor(width, height, scope, view, look) {
    this.width = width;
    this.height = height;
    this.image = new ImageData(width, height);
    this.pixels = new Uint32Array(this.image.data.buffer);
    this.size = 0;
    this.grow(1 << 16);
    this.until = new Uint32Array(scope.count + 1); // notes up to so many points
    this.kept = [{ size: 0, pixels: this.pixels.slice() }];
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
    const threads = look.threads.map(rgb);
    const owners = threads.length > 1 ? new Uint16Array(this.pixels.length) : null;
    let u = 0;
    let v = 0;
    for (let i = 0; i < scope.count; i++) {
      const toU = x[i] * view.scale + view.left;
      const toV = y[i] * view.scale + view.top;
      const seen = Math.max(u, toU) > -reach && Math.max(v, toV) > -reach
        && Math.min(u, toU) < right && Math.min(v, toV) < bottom;
      const own = scope.thread[i];
      this.over = owners && { owners, own: own + 1 };
      if (seen && i && !(before[i] & MOVED)) this.line(u, v, toU, toV, look.width / 2, threads[own]);
      if (seen && look.bead) this.bead(toU, toV, look.bead, look.threads[own], look.marks);
      this.until[i + 1] = this.size;
      if (this.size - this.kept[this.kept.length - 1].size > this.pixels.length / KEPT) {
        this.kept.push({ size: this.size, pixels: this.pixels.slice() });
      }
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
          const there = pixels[pixel] >>> 24;
          if (alpha > there + LEAST_GAIN || this.covers(pixel, alpha)) {
            this.note(pixel, ((Math.max(alpha, there) << 24) | colour) >>> 0);
          }
        }
      }
    }
  }

  // Whether the thread that is sewn hides another one that lies here.
  covers(pixel, alpha) {
    return this.over && alpha > 127 && this.over.owners[pixel] !== this.over.own;
  }

  // A needle point, over the thread; whatever is sewn later leaves it on top.
  bead(u, v, radius, thread, marks) {
    const [left, top] = [Math.max(0, Math.floor(u - radius)), Math.max(0, Math.floor(v - radius))];
    const right = Math.min(this.width - 1, Math.ceil(u + radius));
    const bottom = Math.min(this.height - 1, Math.ceil(v + radius));
    for (let row = top; row <= bottom; row++) {
      for (let column = left; column <= right; column++) {
        const off = Math.hypot(column + 0.5 - u, row + 0.5 - v);
        const share = Math.min(1, radius + 0.5 - off);
        if (share > 0) {
          const mixed = marks.map((part, i) => Math.round(thread[i] + share * (part - thread[i])));
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
    if (this.over) this.over.owners[pixel] = this.over.own;
    this.pixels[pixel] = colour;
    this.size++;
  }

  // Winds to the state in which so many points are made.
  wind(points) {
    const { where, now, was, pixels } = this;
    const target = this.until[points];
    let note = this.until[this.at];
    const far = ({ size }) => Math.abs(target - size);
    const nearest = this.kept.reduce((best, one) => (far(one) < far(best) ? one : best));
    if (far(nearest) + pixels.length / COPIED < Math.abs(target - note)) {
      pixels.set(nearest.pixels);
      note = nearest.size;
    }
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
