// The picture: four sheets on top of each other, each drawn only when it has to change.
//   ground  piece, fields, placement marks        when the view changes
//   ghost   everything that will be sewn, faint    when the view changes
//   thread  what is sewn so far                    at each stitch, by winding the tape
//   needle  the newest stitches and the needle     at each stitch
"use strict";

const NEWEST = 24; // stitches that are drawn bolder than those before
const SETTLED_MS = 140; // a view that rests so long is drawn anew; before, the sheets are moved

class Sheets {
  constructor(screen, colours) {
    this.screen = screen;
    this.holder = document.getElementById("sheets");
    this.colours = colours;
    this.names = ["ground", "ghost", "thread", "needle"];
    for (const name of this.names) this[name] = document.getElementById(`sheet-${name}`).getContext("2d");
  }

  // Shows a scope as a whole.
  open(scope, points) {
    this.scope = scope;
    this.points = points;
    this.whole();
  }

  whole() {
    this.size = canvasSize(this.screen);
    this.view = wholeView(this.scope, this.size);
    this.widest = this.view.scale;
    this.redraw();
  }

  // Follows the screen where it has another size than what is drawn.
  fit() {
    const { width, height } = canvasSize(this.screen);
    if (width !== this.size.width || height !== this.size.height) this.whole();
  }

  // Takes a new view: the sheets follow at once, and are drawn anew when it has settled.
  take(view) {
    this.view = view;
    const by = view.scale / this.drawn.scale;
    const { ratio } = this.size;
    const left = (view.left - by * this.drawn.left) / ratio;
    const top = (view.top - by * this.drawn.top) / ratio;
    this.holder.style.transform = `translate(${left}px,${top}px) scale(${by})`;
    clearTimeout(this.settling);
    this.settling = setTimeout(() => this.redraw(), SETTLED_MS);
  }

  zoom(factor, at) {
    const middle = [this.size.width / 2, this.size.height / 2];
    const pixel = at ? at.map((place) => place * this.size.ratio) : middle;
    this.take(zoomed(this.view, factor, pixel, this.widest));
  }

  pan(across, down) {
    const { ratio } = this.size;
    const { scale, left, top } = this.view;
    this.take({ scale, left: left + across * ratio, top: top + down * ratio });
  }

  redraw() {
    clearTimeout(this.settling);
    this.size = canvasSize(this.screen);
    for (const name of this.names) {
      this[name].canvas.width = this.size.width;
      this[name].canvas.height = this.size.height;
    }
    const { data } = this.scope.stage;
    const { scale } = this.view;
    const look = {
      width: Math.max(1.5 * this.size.ratio, 0.5 * scale),
      bead: scale > 6 * this.size.ratio ? Math.min(0.42 * scale, 4 * this.size.ratio) : 0,
      threads: data.threads.map(readColour),
      marks: readColour(data.marks),
    };
    this.tape = new Tape(this.size.width, this.size.height, this.scope, this.view, look);
    this.drawn = this.view;
    this.holder.style.transform = "";
    this.drawGround();
    this.ghost.putImageData(this.tape.image, 0, 0);
    this.show(this.points);
  }

  // Shows the state in which so many points are made.
  show(points) {
    this.points = points;
    this.tape.wind(points);
    this.thread.putImageData(this.tape.image, 0, 0);
    this.drawNeedle(points);
  }

  drawGround() {
    const { stage, whole, index } = this.scope;
    const own = whole ? null : stage.data.hoopings[index];
    const place = ([x, y]) => (own ? toField(own, [x / 10, y / 10]) : [x / 10, y / 10]);
    const pen = this.ground;
    const { ratio } = this.size;
    pen.fillStyle = this.colours.page;
    pen.fillRect(0, 0, this.size.width, this.size.height);
    this.trace(pen, stage.data.outline.map(place));
    pen.fillStyle = stage.data.lay;
    pen.fill();
    this.stroke(pen, this.colours.ink, 1.5 * ratio);
    this.trace(pen, stage.data.shadow.map(place));
    pen.setLineDash([8 * ratio, 5 * ratio]);
    this.stroke(pen, stage.data.marks, 1.5 * ratio);
    pen.setLineDash([]);
    for (const hooping of own ? [own] : stage.data.hoopings) {
      this.trace(pen, fieldCorners(hooping, whole));
      this.stroke(pen, stage.data.lay, 4 * ratio);
      this.stroke(pen, stage.data.hoop, (own ? 2 : 1.25) * ratio);
    }
    if (own) own.marks.forEach((mark) => this.drawCross(pen, mark));
  }

  drawCross(pen, [name, x, y]) {
    const { ratio } = this.size;
    const { hoop, lay } = this.scope.stage.data;
    const [u, v] = this.pixel(x, y);
    const arm = 9 * ratio;
    pen.beginPath();
    pen.moveTo(u - arm, v);
    pen.lineTo(u + arm, v);
    pen.moveTo(u, v - arm);
    pen.lineTo(u, v + arm);
    this.stroke(pen, lay, 6 * ratio);
    this.stroke(pen, hoop, 2.5 * ratio);
    pen.fillStyle = hoop;
    pen.font = `bold ${14 * ratio}px Arial, sans-serif`;
    pen.lineWidth = 4 * ratio;
    pen.strokeStyle = lay;
    pen.textAlign = x < 0 ? "left" : "right"; // towards the middle, clear of the cross
    const at = [u + (x < 0 ? 5 : -5) * ratio, v + (y < 0 ? 17 : -6) * ratio];
    pen.strokeText(name, ...at);
    pen.fillText(name, ...at);
  }

  drawNeedle(points) {
    const pen = this.needle;
    const { x, y, before, count, stage } = this.scope;
    const { ratio } = this.size;
    pen.clearRect(0, 0, this.size.width, this.size.height);
    if (!count) return;
    pen.lineCap = pen.lineJoin = "round";
    pen.beginPath();
    for (let i = Math.max(0, points - NEWEST); i < points; i++) {
      const [u, v] = this.pixel(x[i], y[i]);
      if (i === points - NEWEST || before[i] & MOVED) pen.moveTo(u, v);
      else pen.lineTo(u, v);
    }
    this.stroke(pen, stage.data.marks, Math.max(2.5 * ratio, 0.5 * this.view.scale));
    if (points < count && points && before[points] & MOVED) this.drawMove(pen, points);
    const [u, v] = this.pixel(x[Math.max(0, points - 1)], y[Math.max(0, points - 1)]);
    for (const [colour, width] of [[stage.data.lay, 6], [stage.data.marks, 2.5]]) {
      pen.beginPath();
      pen.arc(u, v, 9 * ratio, 0, 2 * Math.PI);
      this.stroke(pen, colour, width * ratio);
    }
  }

  // A move without sewing that comes next: dashes from the needle to the next point.
  drawMove(pen, points) {
    const { x, y, stage } = this.scope;
    pen.beginPath();
    pen.moveTo(...this.pixel(x[points - 1], y[points - 1]));
    pen.lineTo(...this.pixel(x[points], y[points]));
    pen.setLineDash([6 * this.size.ratio, 6 * this.size.ratio]);
    this.stroke(pen, stage.data.marks, 1.5 * this.size.ratio);
    pen.setLineDash([]);
  }

  pixel(x, y) {
    return [x * this.view.scale + this.view.left, y * this.view.scale + this.view.top];
  }

  trace(pen, spots) {
    pen.beginPath();
    spots.forEach(([x, y]) => pen.lineTo(...this.pixel(x, y)));
    pen.closePath();
  }

  stroke(pen, colour, width) {
    pen.strokeStyle = colour;
    pen.lineWidth = width;
    pen.stroke();
  }
}
