// Moving things: a drag, a nudge, a slide. The page only moves the picture; every figure comes from
// the program, which is asked what the place in the hand would mean, and told of it when let go.
"use strict";

const trial = { asked: null, running: false };

async function ask(values) {
  trial.asked = values;
  if (trial.running) return; // one question at a time, always the latest
  trial.running = true;
  while (trial.asked) {
    const body = new URLSearchParams(trial.asked);
    trial.asked = null;
    try {
      const answer = await fetch("/try", { method: "POST", body });
      if (!trial.asked && busy) show(await answer.json());
    } catch { break; }
  }
  trial.running = false;
}

function show(form) {
  if (form.superseded) return; // it was let go meanwhile: the verdict follows
  const tally = document.getElementById("tally");
  const cg = document.getElementById("cg");
  if (form.trouble) {
    if (tally) tally.textContent = form.trouble;
    return;
  }
  if (tally) tally.textContent = form.tally;
  if (cg && form.cg) cg.textContent = form.cg.figure;
  const slide = document.querySelector(".slide:focus-within output");
  if (slide && form.station) slide.textContent = form.station;
  const gaps = document.getElementById("gaps");
  gaps?.replaceChildren(...form.gaps.map((gap) => {
    const row = document.createElement("div");
    const name = row.appendChild(document.createElement("dt"));
    const value = row.appendChild(document.createElement("dd"));
    const limit = document.createElement("small");
    name.textContent = gap.to;
    value.className = gap.outcome;
    limit.textContent = gap.limit;
    value.append(gap.figure, " ", limit);
    return row;
  }));
}

// A change is written with the value that this page showed; what it did comes back with the notes,
// and the drawing, which takes longer, after them. One is written after the other.
let writing = Promise.resolve();

function write(row, name, key, next, back) {
  busy += 1;
  const post = () => htmx.ajax("POST", "/change", {
    source: document.body, swap: "none",
    values: { address: name, old: row.dataset[key], new: next, back, leave: "drawing" },
  });
  const redraw = () => {
    if (document.querySelector("#said .made")) row.dataset[key] = next;
    if (busy > 1) return null; // another change follows: its drawing will do
    return htmx.ajax("GET", location.pathname + location.search, {
      source: document.body, swap: "none", values: { leave: "said,notes,title_block" },
    });
  };
  writing = writing.then(post).then(redraw).finally(() => { busy -= 1; caughtUp(); });
  return writing;
}

const plain = (number) => Number(number.toFixed(3));

// ---- items on trays
const hand = { group: null };

function rowOf(about) {
  return document.querySelector(`tr[data-about="${CSS.escape(about)}"]`);
}

// A name, or the room of a plug, is as good a handle as its box.
function handleOf(found) {
  if (!found) return null;
  return document.querySelector(`.moving g[role='button'][data-about="${CSS.escape(found.dataset.about)}"]`);
}

function take(group, event) {
  const row = rowOf(group.dataset.about);
  const at = row ? JSON.parse(row.dataset.at) : [];
  if (at.length < 2 || at.some((one) => typeof one !== "number")) return false;
  Object.assign(hand, {
    group, row, at, about: group.dataset.about, view: group.closest(".moving"), moved: [0, 0],
    from: event ? [event.clientX, event.clientY] : null,
    parts: document.querySelectorAll(`.moving svg [data-about="${CSS.escape(group.dataset.about)}"]`),
  });
  hand.scale = Number(hand.view.dataset.scale);
  hand.px = group.ownerSVGElement.getScreenCTM().a * hand.scale;
  busy += 1;
  hand.view.classList.add("held");
  hand.parts.forEach((one) => one.classList.add("in-hand"));
  mark(hand.about);
  return true;
}

function move(x, y) {
  if (x === hand.moved[0] && y === hand.moved[1]) return;
  hand.moved = [x, y];
  const across = x * hand.scale;
  const down = -y * hand.scale;
  hand.parts.forEach((one) => {
    const level = one.dataset.part.startsWith("elevation") ? 0 : down;
    one.setAttribute("transform", `translate(${across} ${level})`);
  });
  ask({
    address: `${hand.about}.at_mm`, old: hand.row.dataset.at, new: JSON.stringify(place()),
    item: hand.about.slice("item.".length),
  });
}

function place() {
  return [plain(hand.at[0] + hand.moved[0]), plain(hand.at[1] + hand.moved[1]), ...hand.at.slice(2)];
}

function letGo(keep) {
  if (!hand.group) return;
  const { about, row, view, parts, moved } = hand;
  const next = JSON.stringify(place());
  hand.group = null;
  trial.asked = null;
  view.classList.remove("held");
  parts.forEach((one) => one.classList.remove("in-hand"));
  if (!keep || (moved[0] === 0 && moved[1] === 0)) {
    parts.forEach((one) => one.removeAttribute("transform"));
    busy -= 1;
    return;
  }
  write(rowOf(about) ?? row, `${about}.at_mm`, "at", next, view.dataset.back);
  busy -= 1;
}

document.addEventListener("pointerdown", (event) => {
  const group = handleOf(event.target.closest?.(".moving [data-about^='item.']"));
  if (!group || event.button !== 0 || hand.group || !take(group, event)) return;
  event.preventDefault();
  group.focus({ preventScroll: true });
  group.setPointerCapture(event.pointerId);
});
document.addEventListener("pointermove", (event) => {
  if (!hand.group || !hand.from) return;
  const step = event.shiftKey ? 10 : Number(document.getElementById("snap")?.value ?? 1);
  const snapped = (px) => Math.round(px / hand.px / step) * step;
  move(snapped(event.clientX - hand.from[0]), snapped(hand.from[1] - event.clientY));
});
document.addEventListener("pointerup", () => {
  if (!hand.group || !hand.from) return;
  hand.dragged = hand.moved[0] !== 0 || hand.moved[1] !== 0;
  letGo(true);
});
document.addEventListener("pointercancel", () => letGo(false));
document.addEventListener("click", (event) => { // the end of a drag is no click
  if (!hand.dragged) return;
  hand.dragged = false;
  if (event.target.closest?.(".moving svg")) event.stopImmediatePropagation();
}, true);

const WAYS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
let calm = 0;

document.addEventListener("keydown", (event) => {
  if (event.key === "Escape") {
    clearTimeout(calm);
    letGo(false);
    return;
  }
  const group = event.target.closest?.(".moving g[role='button']");
  if (!group || event.ctrlKey || event.metaKey || event.altKey) return;
  if (event.key === "r" || event.key === "R") {
    const row = rowOf(group.dataset.about);
    write(row, `${group.dataset.about}.turn_deg`, "turn", row.dataset.turned,
      group.closest(".moving").dataset.back);
    return;
  }
  const way = WAYS[event.key];
  if (!way || (!hand.group && !take(group, null))) return;
  event.preventDefault();
  const step = event.shiftKey ? 10 : 1;
  move(hand.moved[0] + way[0] * step, hand.moved[1] + way[1] * step);
  clearTimeout(calm);
  calm = setTimeout(() => letGo(true), 450);
});
document.addEventListener("focusout", () => {
  if (hand.group && !hand.from) {
    clearTimeout(calm);
    letGo(true);
  }
});

// ---- packs on their slides
const slide = { calm: 0 };

function slid(input) {
  const row = input.closest(".slide");
  const at = JSON.parse(row.dataset.at);
  return { row, next: JSON.stringify([plain(Number(input.value)), ...at.slice(1)]) };
}

function put(input) {
  clearTimeout(slide.calm);
  if (!slide.held) return;
  slide.held = false;
  const { row, next } = slid(input);
  trial.asked = null;
  if (next !== row.dataset.at) {
    write(row, row.dataset.address, "at", next, row.closest(".slides").dataset.back);
  }
  busy -= 1;
}

function sliding(input) {
  const { row, next } = slid(input);
  if (!slide.held) busy += 1;
  slide.held = true;
  ask({ address: row.dataset.address, old: row.dataset.at, new: next, item: row.dataset.item });
}

document.addEventListener("input", (event) => {
  if (event.target.type === "range") sliding(event.target);
});
document.addEventListener("change", (event) => { // each arrow key is one; a row of them is one change
  if (event.target.type !== "range") return;
  clearTimeout(slide.calm);
  slide.calm = setTimeout(() => put(event.target), 350);
});
document.addEventListener("keydown", (event) => {
  const input = event.target;
  if (input.type !== "range" || !event.shiftKey || !WAYS[event.key]) return;
  event.preventDefault();
  input.value = Number(input.value) + 10 * (WAYS[event.key][0] || WAYS[event.key][1]);
  input.dispatchEvent(new Event("input", { bubbles: true }));
  input.dispatchEvent(new Event("change", { bubbles: true }));
});
