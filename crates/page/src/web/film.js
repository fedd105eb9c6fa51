// Where one arrow is at any time since release, from the numbers of the program: between
// instants straight lines, after the string the swings as they were sent.
(() => {
  const page = clothyard;
  if (!page.state || !document.getElementById("film")) return;
  // How long the picture takes to leave the bow and follow the arrow, s. Chosen: the
  // arrow stays in sight meanwhile.
  const FOLLOWS = 0.012;
  const smooth = (share) => {
    const s = Math.min(1, Math.max(0, share));
    return s * s * (3 - 2 * s);
  };
  const mix = (a, b, f) => a + (b - a) * f;

  // Which two instants a time is between, and how far.
  function between(times, time) {
    let low = 0, high = times.length - 1;
    if (time <= times[0]) return [0, 0, 0];
    if (time >= times[high]) return [high, high, 0];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (times[middle] <= time) low = middle; else high = middle;
    }
    return [low, high, (time - times[low]) / (times[high] - times[low])];
  }
  const list = (a, b, f) => a.map((value, i) => mix(value, b[i], f));

  // When a build's arrow leaves the string, and when it meets the target.
  const leaves = (build) => build.push.time[build.push.time.length - 1];
  const lands = (build) => leaves(build) + build.flight.time[build.flight.time.length - 1];

  // Displacements come as they are drawn: the push and the bend so many times as large, the
  // lean in flight so many; between the two as the picture comes to follow the arrow.
  function inPush(film, build, time) {
    const push = build.push, [i, j, f] = between(push.time, time);
    const travel = mix(push.travel[i], push.travel[j], f);
    const off = list(push.off[i], push.off[j], f).map((value) => value * film.bend);
    return {
      free: false, nock: travel, off, roll: build.roll, follow: 0,
      limb: list(push.limb[i], push.limb[j], f), string: [travel, off[0], off[1]],
      out: 0, place: build.flight.place[0], says: push.says[f < 0.5 ? i : j],
    };
  }

  function inFlight(film, build, time) {
    const flight = build.flight, push = build.push, after = time - leaves(build);
    const [i, j, f] = between(flight.time, after);
    const lean = list(flight.lean[i], flight.lean[j], f), place = list(flight.place[i], flight.place[j], f);
    const roll = mix(flight.roll[i], flight.roll[j], f), follow = smooth(after / FOLLOWS);
    const times = Math.exp(mix(Math.log(film.bend), Math.log(film.lean), follow));
    // What a rest does that touches after the string, let go of evenly until it is passed.
    const held = build.passes.time > 0 ? 1 - smooth(after / build.passes.time) : 0;
    const stations = build.arrow.stations, off = new Array(2 * stations.length);
    const turned = roll - build.roll, sin = Math.sin(turned), cos = Math.cos(turned);
    const waves = build.swings.map((swing) => {
      const fade = Math.exp(-swing.decay * after);
      const c = fade * Math.cos(swing.turn * after), s = fade * Math.sin(swing.turn * after);
      return [c * swing.cos[0] + s * swing.sin[0], c * swing.cos[1] + s * swing.sin[1]];
    });
    for (let k = 0; k < stations.length; k++) {
      const ahead = stations[k] - build.arrow.balance;
      const left = build.crooked[2 * k], up = build.crooked[2 * k + 1];
      const own = [left * cos - up * sin, left * sin + up * cos];
      for (let p = 0; p < 2; p++) {
        // From the line of the push to the arrow's own path, as the picture follows it.
        const seen = (1 - follow) * (build.leaves.place[p] + ahead * build.leaves.path[p]);
        let bent = own[p] + held * build.passes.gap[2 * k + p];
        waves.forEach((wave, w) => { bent += wave[p] * build.swings[w].shape[k]; });
        off[2 * k + p] = times * (seen + ahead * lean[p]) + film.bend * bent;
      }
    }
    const last = push.limb[push.limb.length - 1], gone = push.travel[push.travel.length - 1];
    return {
      free: true, nock: gone + place[0], off, roll, follow, limb: last,
      string: [mix(gone, last[2], smooth(after / 0.004)), 0, 0],
      out: place[0], place, says: flight.says[f < 0.5 ? i : j],
    };
  }

  // Place of a nose's swing about its path, for the trail: rad, up to a time.
  function trail(build, time) {
    const after = time - leaves(build);
    const upto = between(build.flight.time, Math.max(0, after))[0];
    return build.flight.lean.slice(0, upto + 1);
  }

  page.film = {
    leaves, lands, trail, smooth, mix,
    at: (film, build, time) => (time <= leaves(build) ? inPush(film, build, time) : inFlight(film, build, time)),
    // The instants that one steps by, s: some of the push's, some of the flight's.
    stops(film) {
      const all = new Set();
      for (const build of film.builds) {
        const flight = build.flight.time, gone = leaves(build);
        for (let i = 0; i <= 24; i++) all.add(gone * i / 24);
        for (const ms of [1, 2, 4, 7, 11]) all.add(gone + ms / 1000);
        for (let i = 4; i < flight.length; i += 4) all.add(gone + flight[i]);
        all.add(gone + flight[flight.length - 1]);
      }
      return [...all].sort((a, b) => a - b);
    },
  };
})();
