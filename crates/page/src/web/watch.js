// Watching: one clock for every build, played, held, stepped or dragged along.
(() => {
  const page = clothyard;
  if (!page.paint) return;
  const at = (id) => document.getElementById(id);
  const stage = at("stage"), play = at("w-play"), scrub = at("w-time"), slow = at("w-slow"), told = at("w-told");
  const strip = at("w-strip"), sights = new Map();
  const calm = matchMedia("(prefers-reduced-motion: reduce)");
  // After the string the clock comes to the flight's pace within so long, s.
  const EASES = 0.02;
  let film = null, asking = null, stale = true, time = 0, playing = false, last = 0, hue = null, stops = [];

  // Shown seconds for seconds since release, and back: slow in the push, faster in flight,
  // between them evenly in proportion.
  function pace() {
    const [push, flight] = slow.value.split(" ").map(Number), ratio = Math.log(flight / push);
    const gone = Math.max(...film.builds.map(page.film.leaves)), end = Math.max(...film.builds.map(page.film.lands));
    const eased = push * EASES * (Math.exp(ratio) - 1) / ratio;
    const shown = (t) => {
      if (t <= gone) return t * push;
      if (t <= gone + EASES) return gone * push + push * EASES / ratio * (Math.exp(ratio * (t - gone) / EASES) - 1);
      return gone * push + eased + (t - gone - EASES) * flight;
    };
    const back = (s) => {
      if (s <= gone * push) return s / push;
      const more = s - gone * push;
      if (more <= eased) return gone + EASES / ratio * Math.log(1 + more * ratio / (push * EASES));
      return gone + EASES + (more - eased) / flight;
    };
    const now = (t) => (t <= gone ? push : t >= gone + EASES ? flight : push * Math.exp(ratio * (t - gone) / EASES));
    return { shown, back, now, end, whole: shown(end) };
  }

  function draw() {
    if (!film) return;
    const clock = pace();
    const view = document.querySelector("#film input[name=view]:checked").value;
    if (sights.get(stage)) page.paint(stage, film, time, view, hue);
    if (sights.get(strip)) page.paintStrip(strip, film, time, view, hue);
    scrub.value = String(1000 * clock.shown(time) / clock.whole);
    scrub.dataset.time = String(time);
    const factor = Math.round(clock.now(time));
    const says = film.builds.map((build) => (film.builds.length > 1 ? build.name + ": " : "") + page.film.at(film, build, time).says);
    scrub.setAttribute("aria-valuetext", says.join("; "));
    at("w-now").replaceChildren(...says.map((text) => {
      const line = document.createElement("span");
      line.textContent = text;
      return line;
    }));
    at("w-pace").textContent = factor > 1 ? `slowed ${factor} times` : "as fast as it is";
  }

  function hold() {
    playing = false;
    play.textContent = "Play";
    at("w-go").textContent = "Watch";
    play.setAttribute("aria-pressed", "false");
  }

  function turn(now) {
    if (!playing) return;
    const clock = pace();
    // A picture that was away goes on where it was.
    time = clock.back(clock.shown(time) + Math.min(0.1, (now - last) / 1000));
    last = now;
    if (time >= clock.end) { time = clock.end; hold(); }
    draw();
    if (playing) requestAnimationFrame(turn);
  }

  function go() {
    if (calm.matches || !film) return;
    if (time >= pace().end) time = 0;
    playing = true;
    play.textContent = "Pause";
    at("w-go").textContent = "Pause";
    play.setAttribute("aria-pressed", "true");
    requestAnimationFrame((now) => { last = now; turn(now); });
  }

  function step(way) {
    hold();
    const near = 1e-9, on = stops.find((stop) => stop > time + near);
    const back = stops.filter((stop) => stop < time - near).pop();
    time = way > 0 ? on ?? time : back ?? 0;
    draw();
  }

  // Fetches the build as it stands now.
  async function load() {
    if (asking) asking.abort();
    const own = asking = new AbortController();
    stage.classList.add("stale");
    try {
      const answer = await fetch("/motion", { method: "POST", body: page.state(), signal: own.signal });
      if (!answer.ok) {
        at("w-wrong").textContent = page.complain(page.parse(await answer.text()), at("watch"));
        return;
      }
      film = await answer.json();
      at("w-wrong").textContent = "";
      stale = false;
      stops = page.film.stops(film);
      time = Math.min(time, pace().end);
      stage.classList.remove("stale");
      stage.classList.toggle("two", film.builds.length > 1);
      stage.setAttribute("aria-label", "One arrow from full draw to the target, drawn. " + film.seen.slice(1).join(" "));
      told.replaceChildren(...film.seen.map((text) => {
        const line = document.createElement("p");
        line.textContent = text;
        return line;
      }));
      draw();
      document.documentElement.dataset.film = String(film.builds.length);
    } catch (error) {
      if (error.name !== "AbortError") at("w-wrong").textContent = "The program does not answer. Is it still running?";
    } finally {
      if (asking === own) asking = null;
    }
  }

  function still() {
    play.hidden = calm.matches;
    at("w-go").hidden = calm.matches;
    at("w-calm").hidden = !calm.matches;
    if (calm.matches) hold();
  }

  async function turned() {
    if (playing) { hold(); return; }
    if (stale) await load();
    if (!stale) go();
  }
  play.addEventListener("click", turned);
  at("w-go").addEventListener("click", turned);
  at("w-back").addEventListener("click", () => step(-1));
  at("w-on").addEventListener("click", () => step(1));
  scrub.addEventListener("input", () => {
    if (!film) return;
    hold();
    const clock = pace();
    time = clock.back(clock.whole * Number(scrub.value) / 1000);
    draw();
  });
  slow.addEventListener("change", draw);
  for (const view of document.querySelectorAll("#film input[name=view]")) view.addEventListener("change", draw);
  const tint = () => { hue = page.colours(); draw(); };
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", tint);
  calm.addEventListener("change", still);
  addEventListener("resize", draw);

  // What is not looked at is neither asked for nor drawn; the strip waits until it is played.
  const observer = new IntersectionObserver((all) => {
    for (const one of all) sights.set(one.target, one.isIntersecting);
    if (sights.get(stage) && stale && document.documentElement.dataset.settled) load();
    else if (![...sights.values()].some(Boolean)) hold();
    else draw();
  });
  for (const canvas of [stage, strip]) observer.observe(canvas);
  document.addEventListener("clothyard:settled", () => {
    stale = true;
    if (sights.get(stage) || (film && sights.get(strip))) load();
  });

  at("film").hidden = false;
  still();
  tint();
})();
