// The workbench: what is chosen is marked everywhere, and an edit made elsewhere is shown.
"use strict";

const revision = () => document.getElementById("title-block")?.dataset.revision ?? "";
let busy = 0; // moves under way: nothing is swapped under a hand

function marked() {
  return document.querySelectorAll("[aria-current='true'][data-about]");
}

function mark(about, number) {
  marked().forEach((one) => one.removeAttribute("aria-current"));
  if (!about) return;
  const words = new Set(about.split(" ").flatMap((one) => [one, one.replace(/^(item|balance\.cg)[.@]/, "")]));
  document.querySelectorAll("[data-about]").forEach((one) => {
    const own = one.dataset.about.split(" ");
    const same = number && one.dataset.finding
      ? one.dataset.finding === number
      : own.some((word) => words.has(word) || words.has(word.replace(/^(item|balance\.cg)[.@]/, "")));
    const quiet = one.dataset.part === "ruler" || one.dataset.part === "limits";
    if (same && !quiet && (!one.dataset.finding || !number || one.dataset.finding === number)) {
      one.setAttribute("aria-current", "true");
    }
  });
}

document.addEventListener("click", (event) => {
  const pick = event.target.closest("[data-pick]");
  if (pick) {
    mark(pick.dataset.pick, pick.dataset.number);
    return;
  }
  const group = event.target.closest("svg [data-about]");
  if (group) chosen(group);
});

document.addEventListener("keydown", (event) => {
  if (event.key === "Escape") mark("");
  const group = event.target.closest?.("svg [role='button']");
  if (group && (event.key === "Enter" || event.key === " ")) {
    event.preventDefault();
    chosen(group);
  }
});

function chosen(group) {
  const { about, finding } = group.dataset;
  mark(about, finding);
  if (finding) {
    document.getElementById(`finding-${finding}`)?.scrollIntoView({ block: "nearest" });
    return;
  }
  const link = document.querySelector(`a.pick[data-pick="${CSS.escape(about)}"]`);
  if (link) link.click();
}

// An edit made elsewhere: the page takes its new content, unless a hand or a half-typed field is on it.
// What this page itself has asked for is on its way already.
let posting = 0;
let missed = "";

document.addEventListener("htmx:confirm", (event) => {
  if (event.target.id !== "live") return;
  const told = event.detail.triggeringEvent?.detail?.data ?? "";
  const half = document.querySelector("[data-half]");
  if (posting || busy) missed = told;
  if (posting || busy || half || (told && told === revision())) event.preventDefault();
});
document.addEventListener("htmx:beforeRequest", (event) => {
  if (event.detail.requestConfig.verb === "post") posting += 1;
});
document.addEventListener("htmx:afterRequest", (event) => {
  if (event.detail.requestConfig.verb !== "post") return;
  setTimeout(() => { posting -= 1; caughtUp(); }, 0);
});

function caughtUp() {
  if (!missed || posting || busy) return;
  const told = missed;
  missed = "";
  if (told !== revision()) htmx.trigger("#live", "sse:changed", { data: told });
}
document.addEventListener("input", (event) => {
  if (event.target.form && event.target.type !== "range") event.target.dataset.half = "typed";
});
document.addEventListener("submit", (event) => {
  event.target.querySelectorAll("[data-half]").forEach((one) => delete one.dataset.half);
});
document.addEventListener("htmx:afterSettle", (event) => {
  if (event.target.id === "drawing" || event.target.id === "notes") {
    const row = document.querySelector("tr[aria-current='true'][data-about]");
    if (row) mark(row.dataset.about);
    if (!busy) inView();
  }
});

// On a narrow screen a drawing is wider than its window: what is selected is brought into it.
function inView() {
  const window = document.querySelector(".table-view");
  const group = window?.querySelector("g[aria-current='true']") ?? window?.querySelector(".sel");
  if (!group || window.scrollWidth <= window.clientWidth) return;
  const [own, all] = [group.getBoundingClientRect(), window.getBoundingClientRect()];
  window.scrollLeft += own.left + own.width / 2 - all.left - all.width / 2;
}
document.addEventListener("DOMContentLoaded", inView);

// The text of a file: a problem's line is put under the caret.
document.addEventListener("DOMContentLoaded", () => {
  const field = document.getElementById("text");
  const line = Number(new URLSearchParams(location.search).get("line"));
  if (!field || !line) return;
  const before = field.value.split("\n").slice(0, line - 1).join("\n").length + (line > 1 ? 1 : 0);
  field.focus({ preventScroll: true });
  field.setSelectionRange(before, before + (field.value.slice(before).split("\n")[0] ?? "").length);
  document.getElementById(`line-${line}`)?.scrollIntoView({ block: "center" });
});
