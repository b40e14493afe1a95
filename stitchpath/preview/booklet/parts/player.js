// The player: what its buttons, its slider and its keys do.
"use strict";

const SAY_AFTER_MS = 500; // a screen reader hears where the needle rests, not every stitch
const CALM_MS = 500; // between two pictures where the reader asked for less motion
const PAN = 60; // pixels
const ZOOM = 1.5;

class Player {
  constructor(plan) {
    this.plan = plan;
    this.stages = new Map(); // read when they are first shown
    this.points = 0;
    this.playing = false;
    this.find = (id) => document.getElementById(id);
    this.screen = this.find("screen");
    this.scrub = this.find("scrub");
    this.sheets = new Sheets(this.screen, pageColours());
    this.calm = window.matchMedia("(prefers-reduced-motion: reduce)");
    this.listen();
    this.open(this.find("scope").value);
  }

  listen() {
    const steps = {
      first: () => 0,
      "run-back": () => this.runBefore(),
      back: () => this.points - 1,
      on: () => this.points + 1,
      "run-on": () => this.next(NEW_RUN),
      stop: () => this.next(CUT | PAUSE),
      last: () => this.scope.count,
    };
    for (const [name, target] of Object.entries(steps)) {
      this.find(`go-${name}`).addEventListener("click", () => this.rest(target()));
    }
    this.find("go-play").addEventListener("click", () => this.toggle());
    this.find("go-closer").addEventListener("click", () => this.sheets.zoom(ZOOM));
    this.find("go-wider").addEventListener("click", () => this.sheets.zoom(1 / ZOOM));
    this.find("go-whole").addEventListener("click", () => this.sheets.whole());
    this.find("scope").addEventListener("change", (event) => this.open(event.target.value));
    this.scrub.addEventListener("input", () => this.rest(this.scrub.valueAsNumber));
    this.screen.addEventListener("keydown", (event) => this.key(event));
    listenToPointer(this.screen, this.sheets);
    new ResizeObserver(() => this.sheets.fit()).observe(this.screen);
    const repaint = () => {
      this.sheets.colours = pageColours();
      this.sheets.redraw();
    };
    window.matchMedia("(prefers-color-scheme: dark)").addEventListener("change", repaint);
  }

  // Shows what a choice such as "quilt 3" names; 0 is the whole stage.
  open(choice) {
    this.halt();
    const [name, number] = choice.split(" ");
    if (!this.stages.has(name)) {
      const data = this.plan.stages.find((stage) => stage.name === name);
      this.stages.set(name, readStage(this.plan, data));
    }
    this.find("scope").value = choice;
    this.scope = chooseScope(this.stages.get(name), Number(number));
    this.points = 0;
    this.scrub.max = this.scope.count;
    this.sheets.open(this.scope, 0);
    this.show(0);
    this.say();
  }

  key(event) {
    const moves = {
      ArrowLeft: () => this.sheets.pan(PAN, 0),
      ArrowRight: () => this.sheets.pan(-PAN, 0),
      ArrowUp: () => this.sheets.pan(0, PAN),
      ArrowDown: () => this.sheets.pan(0, -PAN),
      "+": () => this.sheets.zoom(ZOOM),
      "=": () => this.sheets.zoom(ZOOM),
      "-": () => this.sheets.zoom(1 / ZOOM),
      0: () => this.sheets.whole(),
      " ": () => this.toggle(),
    };
    const move = event.ctrlKey || event.altKey || event.metaKey ? null : moves[event.key];
    if (!move) return;
    event.preventDefault();
    move();
  }

  toggle() {
    if (this.playing) {
      this.halt();
      this.say();
      return;
    }
    if (this.points >= this.scope.count) this.points = 0;
    this.playing = true;
    this.find("go-play").textContent = "Stop";
    this.clock = this.points ? this.scope.made[this.points - 1] : this.scope.starts;
    this.last = this.drawn = performance.now();
    this.frame = requestAnimationFrame((now) => this.play(now));
  }

  halt() {
    this.playing = false;
    cancelAnimationFrame(this.frame);
    this.find("go-play").textContent = "Play";
  }

  play(now) {
    const passed = Math.max(0, Math.min(now - this.last, 1000)) / 1000; // a hidden page rests
    this.last = now;
    this.clock = Math.min(this.clock + passed * Number(this.find("speed").value), this.scope.ends);
    if (!this.calm.matches || now - this.drawn >= CALM_MS) {
      this.drawn = now;
      this.show(firstAbove(this.scope.made, this.clock), this.clock);
    }
    if (this.clock >= this.scope.ends) {
      this.rest(this.scope.count);
      return;
    }
    this.frame = requestAnimationFrame((later) => this.play(later));
  }

  // Stops at a point, however far it lies, and tells where that is.
  rest(points) {
    this.halt();
    this.show(Math.min(Math.max(points, 0), this.scope.count));
    this.say();
  }

  // Where the next of some events is, or the end.
  next(flags) {
    const { before, count } = this.scope;
    let at = this.points + 1;
    while (at < count && !(before[at] & flags)) at++;
    return Math.min(at, count);
  }

  runBefore() {
    let at = Math.max(0, this.points - 1);
    while (at > 0 && !(this.scope.before[at] & NEW_RUN)) at--;
    return at;
  }

  // Shows the state in which so many points are made; `clock` is the time where it is known
  // better than from the points.
  show(points, clock) {
    this.points = points;
    this.sheets.show(points);
    this.scrub.value = points;
    const shown = describe(this.plan, this.scope, points, clock);
    for (const [name, text] of Object.entries(shown)) this.find(`shows-${name}`).textContent = text;
    this.shown = shown;
  }

  // Tells a screen reader where the needle rests, once it does.
  say() {
    clearTimeout(this.saying);
    this.saying = setTimeout(() => {
      const { stitch, time, bobbin, hooping, run, state } = this.shown;
      const text = `Stitch ${stitch}, hooping ${hooping}, run ${run}; time ${time}; `
        + `left on the bobbin ${bobbin}; machine: ${state}`;
      this.scrub.setAttribute("aria-valuetext", `stitch ${stitch}, ${time}`);
      this.find("says").textContent = text;
    }, SAY_AFTER_MS);
  }
}

function pageColours() {
  const style = getComputedStyle(document.documentElement);
  return Object.fromEntries(["page", "ink"].map((name) => [name, style.getPropertyValue(`--${name}`).trim()]));
}

// What the readouts show of a state.
function describe(plan, scope, points, clock) {
  const { stage, count, begin, before } = scope;
  const row = begin + Math.max(0, points - 1);
  const hooping = hoopingOf(stage, row);
  const used = points && count ? stage.used[row] : stage.used[begin - 1] || 0;
  const time = clock ?? (points >= count ? scope.ends : points ? scope.made[points - 1] : scope.starts);
  const last = stage.data.hoopings.length;
  return {
    stitch: `${spaced(points)} of ${spaced(count)}`,
    time: `${clockText(time - scope.starts)} of ${clockText(scope.ends - scope.starts)}`,
    bobbin: bobbinText(plan, stage, hooping, used),
    hooping: `${stage.data.hoopings[hooping].number} of ${last}`,
    run: runText(stage, hooping, row),
    needle: count ? `${tenths(stage.fieldX[row])}, ${tenths(stage.fieldY[row])}` : "",
    state: stateText(points >= count ? 0 : before[points], points, count),
  };
}

function stateText(flags, points, count) {
  if (points >= count) return "done";
  if (!points) return "ready";
  if (flags & CUT) return "cuts the thread";
  if (flags & PAUSE) return "pauses for you";
  if (flags & MOVED) return "moves without sewing";
  return "sews";
}

// Bobbins are changed where the plan changes them: before a hooping, or within one when none lasts for it.
function bobbinText(plan, stage, hooping, used) {
  const start = stage.data.hoopings[hooping].bobbin;
  if (!start) return "not counted";
  const { count, fullMm } = plan.bobbins[stage.data.bobbinThread];
  const left = start[1] - (used - (stage.used[stage.first[hooping] - 1] || 0));
  const changed = left < 0 ? Math.ceil(-left / fullMm) : 0;
  const number = Math.min(count, start[0] + changed);
  const metres = Math.max(0, left + (number - start[0]) * fullMm) / 1000;
  return `${metres.toFixed(1)} m, bobbin ${number} of ${count}`;
}

function runText(stage, hooping, row) {
  const { runs } = stage.data.hoopings[hooping];
  return `${firstAbove(runs, row - stage.first[hooping])} of ${runs.length}`;
}

function clockText(seconds) {
  const whole = Math.round(seconds);
  const parts = [Math.floor(whole / 60) % 60, whole % 60].map((part) => String(part).padStart(2, "0"));
  return `${Math.floor(whole / 3600)}:${parts.join(":")}`;
}

function spaced(number) {
  return number.toLocaleString("en-GB");
}

function tenths(number) {
  return (number / 10).toFixed(1);
}
