// The live page: sends what was changed, shows what comes back.
"use strict";
(() => {
  const at = (id) => document.getElementById(id);
  if (!at("build")) return;
  const build = at("build"), shown = at("shown"), told = at("told"), finding = at("finding"), status = at("status");
  const fields = [...build.querySelectorAll("input.amount, select.amount")];
  const slides = [...build.querySelectorAll("input.slide")];
  const visit = crypto.randomUUID ? crypto.randomUUID() : String(Math.random()).slice(2);
  const units = at("units");
  const usualUnits = units.value;
  // How many steps there are to undo: those of this page, and of the one that led to it.
  const STEPS = "clothyard-steps";
  function begun() {
    try {
      const left = sessionStorage.getItem(STEPS);
      sessionStorage.removeItem(STEPS);
      return history.state ? history.state.depth || 0 : Number(left) || 0;
    } catch { return 0; }
  }
  // On to a page that is written anew, which one may undo.
  function leave(to) {
    try { sessionStorage.setItem(STEPS, String(depth + 1)); } catch { /* Then there is nothing to undo. */ }
    location.assign(to);
  }
  let depth = begun(), since = 0, settled = 0, pictures = 0;
  // The stream of answers that runs; whether its first answer has come, and whether
  // something was changed since it began.
  let stop = null, seen = false, dirty = false;
  let touched = ""; // The control that was changed last.

  // The state as the fields of a link: only what differs from the scenario.
  function state() {
    const out = new URLSearchParams();
    const here = new URLSearchParams(location.search);
    const from = build.querySelector("input[name=from]");
    if (from) out.set("from", from.value);
    if (here.has("units") || units.value !== usualUnits) out.set("units", units.value);
    const which = at("which");
    if (which && which.value) out.set("build", which.value);
    for (const field of fields) {
      const text = field.value.trim();
      if (text !== field.dataset.base) out.set(field.name, text);
    }
    for (const input of build.querySelectorAll("#carried input, #pins input")) out.set(input.name, input.value);
    return out;
  }

  function ask(path, body, signal) {
    return fetch(path, { method: "POST", body, signal });
  }

  function parse(text) {
    return new DOMParser().parseFromString(text, "text/html");
  }

  // Mistakes go beside their fields, which come into view; the rest goes to the status line.
  // That an arrow must not be shot is told beside the field that was changed last.
  function complain(page, scope) {
    const rest = [], barred = page.querySelector(".mistakes template");
    for (const item of page.querySelectorAll(".mistakes li, .mistakes p")) {
      const name = item.dataset.field || (barred && touched);
      const place = name && at("e-" + name);
      if (place && scope.contains(place)) {
        if (!place.textContent) place.textContent = item.textContent;
        at("f-" + name).setAttribute("aria-invalid", "true");
        if (scope !== build) continue;
        reveal(at("f-" + name));
        place.scrollIntoView({ block: "nearest" });
      } else {
        rest.push(item.textContent);
      }
    }
    return rest.join(" ");
  }

  function calm(scope) {
    for (const place of scope.querySelectorAll(".wrong")) place.textContent = "";
    for (const field of scope.querySelectorAll("[aria-invalid]")) field.removeAttribute("aria-invalid");
  }

  // Events of a stream: a name and what it says.
  async function* events(answer) {
    const reader = answer.body.pipeThrough(new TextDecoderStream()).getReader();
    let rest = "";
    for (;;) {
      const { value, done } = await reader.read();
      if (done) return;
      rest += value;
      for (let end = rest.indexOf("\n\n"); end >= 0; end = rest.indexOf("\n\n")) {
        const lines = rest.slice(0, end).split("\n");
        rest = rest.slice(end + 2);
        const of = (name) => lines.filter((line) => line.startsWith(name)).map((line) => line.slice(name.length)).join("");
        if (of("data: ")) yield [of("event: "), JSON.parse(of("data: "))];
      }
    }
  }

  // Puts a part in its place; a drawing of the same shape glides from what it showed.
  function put(place, text, glides) {
    const before = glides ? [...place.querySelectorAll("svg")] : [];
    place.replaceChildren(...parse(text).body.childNodes);
    place.classList.remove("stale", "barred");
    if (before.length > 0) clothyard.glide(before, [...place.querySelectorAll("svg")]);
  }

  function show(data) {
    finding.setAttribute("aria-busy", String(!data.last));
    shown.dataset.scale = data.scale;
    told.dataset.link = data.link;
    for (const [name, text] of Object.entries(data.parts)) {
      if (text === null) { if (name !== "mind") at(name).classList.add("stale"); }
      else put(at(name), text, name === "shown" || name === "side");
    }
    for (const list of shown.querySelectorAll(".strip")) list.hidden = false;
    pictures += 1;
    document.documentElement.dataset.pictures = String(pictures);
  }

  // What was asked last counts; the first answer of a stream is worth its end.
  function fly() {
    if (at("question")) at("question").classList.add("stale");
    delete document.documentElement.dataset.asked;
    if (stop && !seen) dirty = true;
    else stream();
  }

  async function stream() {
    if (stop) stop.abort();
    const own = stop = new AbortController();
    const began = since;
    let last = false;
    seen = false;
    dirty = false;
    const body = state();
    body.set("visit", visit);
    // The face keeps its scale while everything fits on it.
    if (shown.dataset.scale) body.set("scale", shown.dataset.scale);
    if (!status.textContent) status.textContent = "Flying arrows\u2026";
    try {
      const answer = await ask("/live", body, own.signal);
      if (answer.ok) for await (const [name, data] of events(answer)) {
        if (stop !== own) return;
        if (name === "answer") {
          calm(build);
          show(data);
          seen = true;
          last = data.last;
          const which = data.last ? "sharp" : data.before === 0 ? "quick" : "better";
          document.documentElement.dataset[which] = (performance.now() - began).toFixed(1);
          status.textContent = data.last ? "" : "Flying more arrows\u2026";
          if (data.last && at("pace")) at("pace").textContent = "Answering what the scenario asks\u2026";
          if (data.last) settle();
        } else if (name === "asked") {
          inquired(parse(data.html));
        } else if (name === "pace") {
          (last ? at("pace") : status).textContent = data.text;
        } else if (!dirty) {
          if (last) at("pace").textContent = complain(parse(data.html), build);
          else refused(parse(data.html));
        }
        if (dirty) break;
      } else if (!dirty) {
        refused(parse(await answer.text()));
      }
    } catch (error) {
      if (error.name !== "AbortError") (last ? at("pace") : status).textContent = "The program does not answer. Is it still running?";
    }
    if (stop !== own) return;
    own.abort();
    stop = null;
    if (dirty) stream();
    else if (at("asked")) document.documentElement.dataset.asked = "1";
  }

  // An arrow that must not be shot is not drawn, nor is another one left in its place.
  function refused(page) {
    const barred = page.querySelector(".mistakes template"), pictures = [shown, at("glance"), told, at("side")];
    calm(build);
    for (const place of [...pictures, finding]) place.classList.add("stale");
    if (barred) {
      put(at("mind"), barred.innerHTML);
      put(finding, "<p class=answer>No answer: this bow must not shoot this arrow.</p>");
      for (const place of pictures) place.classList.add("barred");
    }
    status.textContent = complain(page, build);
    settle();
  }

  function settle() {
    settled += 1;
    document.documentElement.dataset.settled = String(settled);
    document.dispatchEvent(new Event("clothyard:settled"));
  }

  // The scenario's own question, once its builds stand: its verdict, and what else its short
  // answer says before the table.
  function inquired(page) {
    at("pace").textContent = "";
    const whole = page.querySelector("[data-part=asked]"), old = finding.querySelector(".answer");
    const lead = [whole.querySelector(".answer").cloneNode(true)];
    let next = whole.dataset.short !== undefined && whole.querySelector(".answer").nextElementSibling;
    for (; next && next.matches("p") && !next.textContent.endsWith(":"); next = next.nextElementSibling) lead.push(next.cloneNode(true));
    at("asked").replaceChildren(...[...page.querySelectorAll("[data-part=asked]")].flatMap((one) => [...one.childNodes]));
    if (old) old.replaceWith(...lead);
    at("question").classList.remove("stale");
  }

  function links() {
    const text = state().toString();
    at("link").href = "/?" + text;
    for (const link of document.querySelectorAll("a.export")) {
      const own = new URLSearchParams(text);
      if (link.dataset.build) own.set("build", link.dataset.build);
      link.href = link.dataset.path + "?" + own;
    }
    const beside = /^(from|units|build|at|pinned|p\..*)$/;
    at("changed").hidden = [...new URLSearchParams(text).keys()].every((name) => beside.test(name));
    return text;
  }

  function change(lasting) {
    since = performance.now();
    const text = links();
    const here = "/?" + text;
    if (lasting && here !== location.pathname + location.search) {
      depth += 1;
      history.pushState({ depth }, "", here);
    }
    at("undo").disabled = depth === 0;
    fly();
  }

  const decimals = (step) => (step.split(".")[1] || "").length;

  function follow(field) {
    const slide = slides.find((slide) => "f-" + slide.dataset.for === field.id);
    const match = /^([-+0-9.eE]+)\s*(.*)$/.exec(field.value.trim());
    if (slide && match && match[2] === slide.dataset.unit) slide.value = match[1];
    if (slide) slide.setAttribute("aria-valuetext", field.value.trim() || "not given");
  }

  build.addEventListener("input", (event) => {
    const one = event.target;
    touched = one.dataset.for || one.id.slice(2);
    if (one.classList.contains("slide")) {
      const text = Number(one.value).toFixed(decimals(one.step)) + " " + one.dataset.unit;
      at("f-" + one.dataset.for).value = text;
      one.setAttribute("aria-valuetext", text);
      change(false);
    } else if (one.classList.contains("amount")) {
      follow(one);
    }
  });
  // A spine is said without a unit: 340 is 0.340 in, as in a file.
  function spine(field) {
    const said = /^(?:spine\s*)?([0-9]{3,}(?:\.[0-9]+)?)$/.exec(field.value.trim());
    if (said) field.value = Number((said[1] / 1000).toFixed(6)) + " in";
  }
  // A bare number is in the unit that the field had, or its slider has.
  clothyard.bare = (field, usual) => {
    const unit = /[0-9]\s*([^0-9\s].*)$/.exec(usual || "");
    if (unit && /^[-+]?[0-9][0-9 .,\/]*$/.test(field.value.trim())) field.value = field.value.trim() + " " + unit[1];
  };
  build.addEventListener("change", (event) => {
    const one = event.target;
    touched = one.dataset.for || one.id.slice(2);
    if (one.matches("input.amount[type=text]")) {
      const slide = slides.find((slide) => "f-" + slide.dataset.for === one.id);
      if (one.id === "f-spine") spine(one);
      clothyard.bare(one, slide ? "0 " + slide.dataset.unit : one.dataset.base || one.placeholder);
      follow(one);
    }
    // Other units, or another question: the page is written anew for them.
    if (event.target === units || event.target.dataset.anew !== undefined) {
      leave("/?" + state());
      return;
    }
    change(true);
  });
  build.addEventListener("submit", (event) => { event.preventDefault(); change(true); });

  function pins(list) {
    at("pins").replaceChildren(...list.map(([name, value]) => {
      const input = document.createElement("input");
      input.type = "hidden";
      input.name = name;
      input.value = value;
      return input;
    }));
    at("unpin").hidden = list.length === 0;
  }

  at("pin").addEventListener("click", () => {
    // All that the state says of builds, and which of them the controls show.
    const now = [...state()].filter(([name]) => !name.startsWith("p.") && name !== "pinned");
    const list = [["pinned", now.find(([name]) => name === "build")?.[1] || build.dataset.first]];
    for (const [name, text] of now) {
      if (fields.some((field) => field.name === name) || /^\d+\.(?!copy$|name$|gone$)/.test(name)) list.push(["p." + name, text]);
    }
    pins(list);
    change(true);
  });
  // The strip of distances: tapped, or dragged along.
  function go(button) {
    const field = at("f-at");
    if (!button || !field || button.getAttribute("aria-pressed") === "true") return;
    for (const other of button.parentNode.children) other.setAttribute("aria-pressed", String(other === button));
    field.value = button.dataset.at;
    follow(field);
    change(true);
  }
  shown.addEventListener("click", (event) => go(event.target.closest("[data-at]")));
  shown.addEventListener("pointermove", (event) => {
    if (event.buttons === 0 || !event.target.closest(".strip")) return;
    const under = document.elementFromPoint(event.clientX, event.clientY);
    go(under && under.closest("[data-at]"));
  });
  at("fit").addEventListener("click", () => { delete shown.dataset.scale; change(false); });
  // A field in a room that is closed: the room is opened.
  function reveal(field) {
    for (let room = field.closest("details"); room; room = room.parentElement.closest("details")) room.open = true;
  }
  // A part that is tapped opens its control.
  at("side").addEventListener("click", (event) => {
    const part = event.target.closest("[data-for]"), field = part && at("f-" + part.dataset.for);
    if (!field) return;
    event.preventDefault();
    reveal(field);
    field.focus();
    field.scrollIntoView({ block: "center" });
  });
  at("unpin").addEventListener("click", () => { pins([]); change(true); });
  at("undo").addEventListener("click", () => { if (depth > 0) history.back(); });

  // Back and forward: the fields follow the link.
  addEventListener("popstate", (event) => {
    depth = (event.state && event.state.depth) || 0;
    const link = new URLSearchParams(location.search);
    // Fields that other builds stand on: the page is written anew for them.
    const held = new Map([...build.querySelectorAll("#carried input")].map((input) => [input.name, input.value]));
    const own = (name) => ["from", "units", "build", "pinned"].includes(name) || name.startsWith("p.") || fields.some((field) => field.name === name);
    const rest = [...link].filter(([name]) => !own(name));
    const other = at("which") && at("which").value !== (link.get("build") || "");
    if (other || rest.length !== held.size || rest.some(([name, text]) => held.get(name) !== text)) {
      location.reload();
      return;
    }
    for (const field of fields) {
      field.value = link.has(field.name) ? link.get(field.name) : field.dataset.base;
      follow(field);
    }
    pins([...link].filter(([name]) => name === "pinned" || name.startsWith("p.")));
    change(false);
  });

  at("save").addEventListener("submit", async (event) => {
    event.preventDefault();
    const body = state();
    body.set("name", at("name").value.trim());
    const answer = await ask("/save", body);
    const page = parse(await answer.text());
    if (answer.ok) {
      at("saved").replaceChildren(...page.body.childNodes);
      return;
    }
    at("saved").textContent = [...page.querySelectorAll(".mistakes li, .mistakes p")]
      .map((item) => item.textContent).join(" ");
    const free = page.querySelector("[data-free]");
    if (free) at("name").value = free.dataset.free;
  });

  const gauge = at("gauge");
  async function judge() {
    const answer = await ask("/gauge", new URLSearchParams(new FormData(gauge)));
    const page = parse(await answer.text());
    calm(gauge);
    if (answer.ok) at("verdict").replaceChildren(...page.body.childNodes);
    else at("verdict").textContent = complain(page, gauge);
    for (const button of document.querySelectorAll("button.carry")) button.hidden = !answer.ok;
  }
  gauge.addEventListener("submit", (event) => { event.preventDefault(); judge(); });
  gauge.addEventListener("change", (event) => { clothyard.bare(event.target, event.target.defaultValue); judge(); });
  for (const button of document.querySelectorAll("button.carry")) {
    button.addEventListener("click", () => {
      const field = at("f-" + button.dataset.to);
      field.value = document.querySelector("[data-angle]").dataset.angle;
      follow(field);
      change(true);
      reveal(field);
      field.focus();
    });
  }

  // What the other parts of the script need of this one; they hear of a settled change
  // by the event "clothyard:settled" of the document.
  Object.assign(clothyard, { state, change, follow, parse, complain, reveal, leave });
  history.replaceState({ depth }, "");
  for (const list of shown.querySelectorAll(".strip")) list.hidden = false;
  for (const id of ["undo", "pin", "fit"]) at(id).hidden = false;
  at("undo").disabled = depth === 0;
  at("fly").hidden = true;
  links();
  since = performance.now();
  fly();
})();
