// Needle points: from bytes to columns that answer every question about a stitch at once.
"use strict";

const MOVED = 1; // before this point the frame moves without sewing
const CUT = 2; // before this point the thread is cut
const PAUSE = 4; // before this point the machine stops for the maker
const NEW_RUN = 8; // this point begins a run

// All of a stage's needle points in columns, a row a point, hooping after hooping.
function readStage(plan, data) {
  const count = data.hoopings.reduce((sum, hooping) => sum + hooping.count, 0);
  const stage = {
    data,
    count,
    fieldX: new Int32Array(count), // tenths of a mm from the field's centre
    fieldY: new Int32Array(count),
    pieceX: new Float32Array(count), // mm on the piece
    pieceY: new Float32Array(count),
    made: new Float64Array(count), // seconds from the stage's start until the point is made
    thread: new Uint16Array(count), // which thread is sewn with: 0 is the stage's
    used: new Float64Array(count), // mm of bobbin thread from the stage's start
    before: new Uint8Array(count), // what happens between the last point and this one
    after: new Uint8Array(data.hoopings.length), // and after a hooping's last point
    first: new Int32Array(data.hoopings.length + 1), // a hooping's first row
    starts: new Float64Array(data.hoopings.length + 1), // seconds at which a hooping starts
  };
  data.hoopings.forEach((hooping, index) => {
    readPoints(stage, hooping, index);
    readEvents(stage, hooping, index);
    measure(stage, hooping, index, plan);
    stage.first[index + 1] = stage.first[index] + hooping.count;
    stage.starts[index + 1] = stage.starts[index] + hooping.seconds;
  });
  return stage;
}

function readPoints(stage, hooping, index) {
  const bytes = atob(hooping.steps);
  const wide = new Map(hooping.wide.map(([at, x, y]) => [at, [x, y]]));
  const angle = (hooping.turn * Math.PI) / 180;
  const cos = Math.cos(angle) / 10;
  const sin = Math.sin(angle) / 10;
  const row = stage.first[index];
  let x = 0;
  let y = 0;
  for (let i = 0; i < hooping.count; i++) {
    const far = wide.get(i);
    x += far ? far[0] : (bytes.charCodeAt(i) << 24) >> 24;
    y += far ? far[1] : (bytes.charCodeAt(hooping.count + i) << 24) >> 24;
    stage.fieldX[row + i] = x;
    stage.fieldY[row + i] = y;
    stage.pieceX[row + i] = hooping.centre[0] + cos * x - sin * y;
    stage.pieceY[row + i] = hooping.centre[1] + sin * x + cos * y;
  }
}

function readEvents(stage, hooping, index) {
  const row = stage.first[index];
  const mark = (points, flag) => {
    for (const at of points) {
      if (at < hooping.count) stage.before[row + at] |= flag;
      else stage.after[index] |= flag;
    }
  };
  mark(hooping.runs, MOVED | NEW_RUN);
  mark(hooping.hops, MOVED);
  mark(hooping.cuts, CUT);
  mark(hooping.pauses, PAUSE);
  for (const [at, thread] of hooping.threads || []) {
    stage.thread.fill(thread, row + at, row + hooping.count);
  }
}

// Time and thread are shared out over a hooping's points so that they add up to its figures.
function measure(stage, hooping, index, plan) {
  const row = stage.first[index];
  const end = row + hooping.count;
  let time = 0;
  let thread = 0;
  for (let i = row; i < end; i++) {
    time += 60 / plan.speed + waiting(stage.before[i], plan);
    stage.made[i] = time;
    if (i > row && !(stage.before[i] & MOVED)) {
      const across = (stage.fieldX[i] - stage.fieldX[i - 1]) / 10;
      const down = (stage.fieldY[i] - stage.fieldY[i - 1]) / 10;
      thread += Math.hypot(across, down) + stage.data.thickness;
    }
    stage.used[i] = thread;
  }
  time += waiting(stage.after[index], plan);
  const pace = time ? hooping.seconds / time : 1;
  const share = thread ? hooping.threadMm / thread : 1;
  const used = row ? stage.used[row - 1] : 0;
  for (let i = row; i < end; i++) {
    stage.made[i] = stage.starts[index] + stage.made[i] * pace;
    stage.used[i] = used + stage.used[i] * share;
  }
}

function waiting(flags, plan) {
  return (flags & CUT ? plan.cutSeconds : 0) + (flags & PAUSE ? plan.pauseSeconds : 0);
}

// The rows that are shown, in the frame they are shown in: a whole stage on its piece, or one
// hooping, by its number, as it lies in the hoop.
function chooseScope(stage, number) {
  const index = stage.data.hoopings.findIndex((hooping) => hooping.number === number);
  const whole = index < 0;
  const begin = whole ? 0 : stage.first[index];
  const end = whole ? stage.count : stage.first[index + 1];
  const inField = (column) => Float32Array.from(column.subarray(begin, end), (at) => at / 10);
  return {
    stage,
    index,
    whole,
    begin,
    count: end - begin,
    x: whole ? stage.pieceX : inField(stage.fieldX),
    y: whole ? stage.pieceY : inField(stage.fieldY),
    before: stage.before.subarray(begin, end),
    thread: stage.thread.subarray(begin, end),
    made: stage.made.subarray(begin, end),
    starts: whole ? 0 : stage.starts[index],
    ends: whole ? stage.starts[stage.starts.length - 1] : stage.starts[index + 1],
  };
}

// Which hooping a row of the stage belongs to.
function hoopingOf(stage, row) {
  return Math.max(0, firstAbove(stage.first, Math.min(row, stage.count - 1)) - 1);
}

// The first place in an ascending column whose value is above a limit.
function firstAbove(column, limit) {
  let low = 0;
  let high = column.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (column[middle] > limit) high = middle;
    else low = middle + 1;
  }
  return low;
}
