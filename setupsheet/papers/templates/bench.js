"use strict";
(() => {
  const body = document.body;
  const KEY = "setupsheet/" + body.dataset.key;
  const FORMAT = 1;
  const steps = Array.from(document.querySelectorAll("li.step"));
  const fresh = () => ({ format: FORMAT, part: body.dataset.key, spec: body.dataset.spec, ticks: {}, sizes: {}, at: "" });
  let state = fresh();
  let undo = [];

  const make = (name, text, kind) => {
    const node = document.createElement(name);
    if (text) node.textContent = text;
    if (kind) node.className = kind;
    return node;
  };
  const button = (text, kind, act) => {
    const node = make("button", text, kind);
    node.type = "button";
    node.addEventListener("click", act);
    return node;
  };
  const sound = (found) =>
    found && found.format === FORMAT && found.part === body.dataset.key &&
    typeof found.ticks === "object" && typeof found.sizes === "object" && found.ticks && found.sizes;
  const taken = (found) => {
    const kept = fresh();
    for (const [id, on] of Object.entries(found.ticks)) if (on === true) kept.ticks[id] = true;
    for (const [id, text] of Object.entries(found.sizes)) if (typeof text === "string") kept.sizes[id] = text.slice(0, 40);
    if (typeof found.at === "string") kept.at = found.at;
    return kept;
  };
  const read = () => {
    try {
      const found = JSON.parse(localStorage.getItem(KEY));
      if (sound(found)) {
        state = taken(found);
        if (found.spec !== body.dataset.spec) say("The papers changed since these ticks were made: check them.");
      }
    } catch (_) { say("This browser keeps nothing: save the ticks as a file."); }
  };
  const keep = () => {
    try { localStorage.setItem(KEY, JSON.stringify(state)); } catch (_) { say("Not kept: save the ticks as a file."); }
  };
  const change = (act) => {
    undo.push(JSON.stringify(state));
    if (undo.length > 100) undo.shift();
    act();
    keep();
    show();
  };

  /* ---- ticks and blanks ---- */
  const ticks = new Map();
  for (const box of document.querySelectorAll("span.tick")) {
    const id = box.dataset.tick;
    const node = button("", "tick", () => change(() => {
      if (state.ticks[id]) delete state.ticks[id]; else state.ticks[id] = true;
    }));
    node.setAttribute("aria-label", box.dataset.what + ": done");
    box.replaceWith(node);
    ticks.set(id, node);
  }
  const blanks = new Map();
  for (const cell of document.querySelectorAll(".blank")) {
    const id = cell.dataset.blank;
    const input = make("input");
    input.inputMode = "decimal";
    input.maxLength = 40;
    input.setAttribute("aria-label", cell.dataset.what + ", measured");
    input.addEventListener("change", () => change(() => { state.sizes[id] = input.value; }));
    cell.append(input);
    blanks.set(id, input);
  }

  /* ---- one large current step ---- */
  const card = make("section", "", "card screen");
  card.setAttribute("aria-label", "current step");
  card.hidden = true;
  const inside = make("div", "", "inside");
  inside.setAttribute("aria-live", "polite");
  const index = () => Math.max(0, steps.findIndex((step) => step.id === state.at));
  const go = (to) => { state.at = steps[Math.min(steps.length - 1, Math.max(0, to))].id; keep(); show(); inside.scrollTop = 0; };
  const done = () => {
    const here = index();
    change(() => {
      state.ticks[steps[here].id + ".0"] = true;
      if (here + 1 < steps.length) state.at = steps[here + 1].id;
    });
    inside.scrollTop = 0;
  };
  const copyText = (from, selector) => Array.from(from.querySelectorAll(selector)).map((node) => node.textContent.replace(/\s+/g, " ").trim());
  const places = (step) => {
    const section = step.closest("section.page");
    let labels = copyText(step, ".labels data");
    if (step.querySelector(".labels.run")) {
      const all = Array.from(section.querySelectorAll("tr[data-hole]")).map((row) => row.dataset.hole);
      labels = all.slice(all.indexOf(labels[0]), all.indexOf(labels[1]) + 1);
    }
    const table = make("table", "", "big");
    for (const label of labels) {
      const row = Array.from(section.querySelectorAll("tr[data-hole]")).find((one) => one.dataset.hole === label);
      if (row) table.append(row.cloneNode(true));
    }
    return table.rows.length ? table : null;
  };
  const stopTable = (step) => {
    const found = step.dataset.table && step.closest("section.page").querySelector('[data-letter="' + step.dataset.table + '"]');
    if (!found) return null;
    const copy = found.cloneNode(true);
    for (const part of copy.querySelectorAll(".stair")) part.remove();
    return copy;
  };
  const cutterOf = (here) => {
    for (let i = here; i >= 0 && steps[i].closest("section.page") === steps[here].closest("section.page"); i -= 1) {
      const found = steps[i].querySelector(".cutter");
      if (found) return found;
    }
    return null;
  };
  const showCard = () => {
    const here = index();
    const step = steps[here];
    const section = step.closest("section.page");
    inside.replaceChildren();
    const own = steps.filter((one) => one.closest("section.page") === section);
    const nodes = [make("p", section.querySelector(".count").textContent.replace(/\s+/g, " ").trim() + ": " +
      section.querySelector("h2").textContent + ", step " + (own.indexOf(step) + 1) + " of " + own.length, "where")];
    nodes.push(make("h2", copyText(step, ".do > b")[0]));
    const cutter = cutterOf(here);
    if (cutter) {
      const line = make("p", "", "cutter");
      for (const part of cutter.childNodes) line.append(part.cloneNode(true));
      const touch = line.querySelector(".touch");
      if (touch && cutter.parentNode !== step) touch.remove();
      nodes.push(line);
    }
    const facts = make("div", "", "facts");
    for (const cell of step.querySelectorAll(".where, .z")) {
      const copy = make("div", "", cell.className);
      for (const part of cell.childNodes) copy.append(part.cloneNode(true));
      facts.append(copy);
    }
    nodes.push(facts);
    const words = make("div", "", "words");
    for (const part of step.querySelectorAll(".feed, .words, .ask, .passes")) words.append(part.cloneNode(true));
    nodes.push(words);
    for (const more of [places(step), stopTable(step)]) if (more) nodes.push(more);
    inside.append(...nodes);
    next.textContent = state.ticks[step.id + ".0"] ? "Next" : "Done, next";
  };
  const next = button("Done, next", "main", () => { if (state.ticks[steps[index()].id + ".0"]) go(index() + 1); else done(); });
  const bar = make("div", "", "bar");
  const takeBack = () => {
    if (!undo.length) { say("Nothing to undo."); return; }
    state = taken(JSON.parse(undo.pop()));
    keep();
    show();
  };
  bar.append(button("Pages", "", () => openCard(false)), button("Before", "", () => go(index() - 1)), button("Undo", "", takeBack), next);
  card.append(inside, bar);
  const openCard = (open) => {
    card.hidden = !open;
    body.classList.toggle("at-work", open);
    if (open) { show(); next.focus(); } else { const step = document.getElementById(state.at); if (step) step.scrollIntoView({ block: "center" }); }
  };

  /* ---- tools: open the step, undo, save, load ---- */
  const told = make("p", "", "told");
  told.setAttribute("role", "status");
  const say = (text) => { told.textContent = text; };
  const save = () => {
    const link = make("a");
    link.href = URL.createObjectURL(new Blob([JSON.stringify(state, null, 1)], { type: "application/json" }));
    link.download = body.dataset.key.replace(/[^A-Za-z0-9._-]+/g, "-") + "-ticks.json";
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  };
  const pick = make("input");
  pick.type = "file";
  pick.accept = ".json";
  pick.hidden = true;
  pick.addEventListener("change", async () => {
    try {
      const found = JSON.parse(await pick.files[0].text());
      if (!sound(found)) { say("This file belongs to another part or revision: nothing was loaded."); return; }
      change(() => { state = taken(found); });
      say("Loaded.");
    } catch (_) { say("This file cannot be read: nothing was loaded."); }
    pick.value = "";
  });
  const tools = make("div", "", "bench screen");
  if (steps.length) tools.append(button("Current step", "main", () => openCard(true)));
  tools.append(button("Undo", "", takeBack), button("Save ticks", "", save), button("Load ticks", "", () => pick.click()), pick, told);
  document.querySelector("nav").append(tools);
  body.append(card);
  document.addEventListener("keydown", (event) => {
    if (card.hidden) return;
    if (event.key === "Escape") openCard(false);
    if (event.key === "ArrowRight") go(index() + 1);
    if (event.key === "ArrowLeft") go(index() - 1);
  });

  const show = () => {
    for (const [id, node] of ticks) {
      const on = Boolean(state.ticks[id]);
      node.setAttribute("aria-pressed", on ? "true" : "false");
      node.textContent = on ? "\u2713" : "";
    }
    for (const [id, input] of blanks) input.value = state.sizes[id] || "";
    for (const step of steps) step.classList.toggle("ticked", Boolean(state.ticks[step.id + ".0"]));
    if (!card.hidden) showCard();
  };
  read();
  if (!state.at && steps.length) state.at = steps[0].id;
  show();
})();
