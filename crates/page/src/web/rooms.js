// Rooms and builds: what the control in hand does here, and a build copied or taken away
// by a page of its own.
(() => {
  const build = document.getElementById("build");
  if (!build) return;
  for (const button of build.querySelectorAll("button[formaction]")) {
    button.addEventListener("click", (event) => {
      event.preventDefault();
      const body = clothyard.state(), name = document.getElementById("copy");
      if (name) body.set("copy", name.value.trim());
      clothyard.leave(button.getAttribute("formaction") + "?" + body);
    });
  }

  // The sentence stands below the control that has the focus.
  const effect = document.getElementById("effect");
  const who = (crypto.randomUUID ? crypto.randomUUID().slice(0, 30) : String(Math.random()).slice(2)) + "-e";
  let name = "", timer = 0, stop = null;
  const field = () => document.getElementById("f-" + name);

  function leave() {
    clearTimeout(timer);
    if (stop) stop.abort();
    effect.hidden = true;
    effect.textContent = "";
    const old = name && field();
    if (old) old.setAttribute("aria-describedby", old.getAttribute("aria-describedby").replace(" effect", ""));
    name = "";
  }

  async function ask() {
    if (stop) stop.abort();
    const own = stop = new AbortController(), of = name;
    const body = clothyard.state();
    body.set("control", of);
    body.set("visit", who);
    try {
      const answer = await fetch("/effect", { method: "POST", body, signal: own.signal });
      const text = answer.ok ? clothyard.parse(await answer.text()).body.textContent.trim() : "";
      if (stop !== own || of !== name) return;
      effect.textContent = text;
      effect.hidden = text === "";
      effect.classList.remove("stale");
      document.documentElement.dataset.effect = of;
    } catch { /* Without an answer nothing is said. */ }
  }

  build.addEventListener("focusin", (event) => {
    const one = event.target;
    const next = one.dataset.for || (one.classList.contains("amount") ? one.id.slice(2) : "");
    if (next === name || !next) return;
    leave();
    name = next;
    const own = field();
    own.closest(".control").append(effect);
    own.setAttribute("aria-describedby", own.getAttribute("aria-describedby") + " effect");
    // Who only passes by is not told.
    timer = setTimeout(ask, 300);
  });
  build.addEventListener("input", () => effect.classList.add("stale"));
  document.addEventListener("clothyard:settled", () => { if (name) ask(); });
})();
