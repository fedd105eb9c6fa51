// The moving picture: bow, string, rest and arrow from the side, from above or from behind.
(() => {
  const page = clothyard;
  if (!page.film) return;
  const { at, mix, trail } = page.film;
  // Vanes and nock beyond the scale of lengths, as told in words.
  const FINS = 2;
  const DASHES = [[], [13, 5]];
  const FONT = "13px system-ui, sans-serif";

  function colours() {
    const style = getComputedStyle(document.documentElement);
    const of = (name) => style.getPropertyValue("--" + name).trim();
    return {
      ink: of("ink"), soft: of("soft"), line: of("line"), wood: of("wood"), sheet: of("sheet"),
      page: of("page"), series: [of("s1"), of("s2"), of("s3"), of("s5"), of("s6")],
    };
  }

  function stroke(pen, points, colour, width, dash = []) {
    pen.beginPath();
    points.forEach(([x, y], i) => (i ? pen.lineTo(x, y) : pen.moveTo(x, y)));
    pen.strokeStyle = colour;
    pen.lineWidth = width;
    pen.setLineDash(dash);
    pen.stroke();
    pen.setLineDash([]);
  }

  function fill(pen, points, colour, edge) {
    pen.beginPath();
    points.forEach(([x, y], i) => (i ? pen.lineTo(x, y) : pen.moveTo(x, y)));
    pen.closePath();
    pen.fillStyle = colour;
    pen.fill();
    if (edge) { pen.strokeStyle = edge; pen.lineWidth = 1; pen.stroke(); }
  }

  function words(pen, text, x, y, colour, align = "left", most = undefined) {
    pen.font = FONT;
    pen.fillStyle = colour;
    pen.textAlign = align;
    pen.fillText(text, x, y, most);
  }

  function disc(pen, x, y, radius, colour, edge, width = 1.5) {
    pen.beginPath();
    pen.arc(x, y, Math.max(0.1, radius), 0, 2 * Math.PI);
    if (colour) { pen.fillStyle = colour; pen.fill(); }
    if (edge) { pen.strokeStyle = edge; pen.lineWidth = width; pen.stroke(); }
  }

  // A round length whose bar is no longer than so many px.
  function round(perUnit, most) {
    const power = 10 ** Math.floor(Math.log10(most / perUnit));
    return [5, 2, 1].map((n) => n * power).find((n) => n * perUnit <= most) || power;
  }

  // Where a lane's camera looks: px a metre, and the place in its middle.
  function camera(build, now, view, wide, high) {
    const long = build.arrow.stations[build.arrow.stations.length - 1];
    const gone = build.push.travel[build.push.travel.length - 1];
    const tall = view === "side" ? Math.min(0.47, Math.max(...build.push.limb.map((l) => l[1])) * 1.06) : 0.1;
    // Room ahead for what the arrow flies before the picture has come to follow it, m.
    const ahead = 0.35, beside = Math.min(wide / (gone + long + ahead + 0.1), 0.47 * high / tall);
    const along = Math.min(0.64 * wide / long, 2.5 * high / long);
    const scale = Math.exp(mix(Math.log(beside), Math.log(along), now.follow));
    return { scale, centre: mix((gone + long + ahead - 0.1) / 2, now.nock + long / 2, now.follow), long };
  }

  function bow(pen, build, now, view, to, scale, hue) {
    const [tipX, tipZ, endX, endZ] = now.limb, bow = build.bow, [nockX, left, up] = now.string;
    pen.lineCap = "round";
    if (view === "side") {
      const z = (value) => to(0, 0)[1] - value * scale, x = (value) => to(value, 0)[0];
      const root = bow.hinge.length ? bow.hinge : [bow.grip, 0.6 * tipZ];
      stroke(pen, [[x(bow.grip), z(-root[1])], [x(bow.grip), z(root[1])]], hue.wood, 6);
      for (const sign of [1, -1]) {
        // A limb bends toward the string from its root.
        pen.beginPath();
        pen.moveTo(x(root[0]), z(sign * root[1]));
        pen.quadraticCurveTo(x(mix(root[0], tipX, 0.25)), z(sign * mix(root[1], tipZ, 0.65)), x(tipX), z(sign * tipZ));
        pen.strokeStyle = hue.wood;
        pen.lineWidth = 4;
        pen.stroke();
        if (bow.track > 0) disc(pen, x(tipX), z(sign * tipZ), bow.track * scale, null, hue.wood, 2);
      }
      stroke(pen, [[x(endX), z(endZ)], to(nockX, up), [x(endX), z(-endZ)]], hue.ink, 1.3);
    } else {
      const y = to(0, 0)[1], x = (value) => to(value, 0)[0];
      stroke(pen, [[x(tipX), y], [x(bow.grip), y]], hue.wood, 11);
      stroke(pen, [[x(bow.grip) - 4, y], [x(bow.grip) + 4, y]], hue.wood, 20);
      stroke(pen, [[x(endX), y], to(nockX, left)], hue.ink, 1.3);
    }
    pen.lineCap = "butt";
  }

  function rest(pen, build, now, time, view, to, scale, hue) {
    const bow = build.bow, plane = view === "side" ? 1 : 0;
    const works = time < bow.until[plane] || (!now.free && bow.until[plane] === 0 && bow.holds);
    const gap = Math.max(5, 0.5 * build.arrow.across * scale + 3);
    const [x, y] = to(bow.rest, 0), colour = works ? hue.wood : hue.soft;
    const sides = view === "side" ? [-1] : bow.holds ? [1, -1] : [bow.point];
    for (const side of sides) {
      const away = works ? 0 : 9, near = y - side * (gap + away), far = near - side * 13;
      fill(pen, [[x, near], [x - 6, far], [x + 6, far]], works ? colour : hue.page, colour);
    }
  }

  // The arrow along its line: view's plane 1 is up, 0 left.
  function arrow(pen, build, now, view, to, scale, hue, series) {
    const plane = view === "side" ? 1 : 0, parts = build.arrow, stations = parts.stations;
    const spots = stations.map((station, k) => to(now.nock + station, now.off[2 * k + plane]));
    const last = spots.length - 1;
    const line = (station) => {
      let k = 1;
      while (k < last && stations[k] < station) k++;
      const f = (station - stations[k - 1]) / (stations[k] - stations[k - 1]);
      return [mix(spots[k - 1][0], spots[k][0], f), mix(spots[k - 1][1], spots[k][1], f)];
    };
    const width = Math.max(3.5, parts.across * scale), half = width / 2;
    const fins = [];
    for (let v = 0; parts.vanes.length && v < parts.count; v++) {
      const angle = now.roll + v * 2 * Math.PI / parts.count;
      const high = plane === 1 ? Math.cos(angle) : -Math.sin(angle);
      const near = plane === 1 ? Math.sin(angle) : Math.cos(angle);
      fins.push({ high, near, index: v === 0 });
    }
    fins.sort((a, b) => a.near - b.near);
    const fin = ({ high, near, index }) => {
      const [rear, front, outerRear, outer, span] = parts.vanes;
      const reach = high * (half + FINS * span * scale), foot = high * half * 0.8;
      const spot = (station, lift) => { const [x, y] = line(station); return [x, y - lift]; };
      pen.globalAlpha = near < 0 ? 0.55 : 1;
      fill(pen, [spot(rear, foot), spot(outerRear, reach), spot(outer, reach), spot(front, foot)],
        index ? hue.wood : hue.sheet, hue.ink);
      pen.globalAlpha = 1;
    };
    fins.filter((one) => one.near < 0).forEach(fin);
    stroke(pen, spots.slice(0, 2), hue.ink, Math.max(2.5, 0.7 * width));
    const body = spots.slice(1, last).concat([line(parts.seat)]), dash = DASHES[series.at];
    pen.lineJoin = "round";
    if (dash.length) {
      stroke(pen, body, hue.sheet, width);
      stroke(pen, body, series.colour, Math.max(1, 0.35 * width));
    }
    stroke(pen, body, series.colour, width, dash);
    fins.filter((one) => one.near >= 0).forEach(fin);
    // Blades stand as far from each other as vanes do, on the point.
    for (let v = 0; parts.blades.length && v < parts.bladed; v++) {
      const angle = now.roll + parts.clock + v * 2 * Math.PI / parts.bladed;
      const high = plane === 1 ? Math.cos(angle) : -Math.sin(angle);
      const [rear, front, outerRear, outer, span] = parts.blades;
      const spot = (station, lift) => { const [x, y] = line(Math.min(station, stations[last])); return [x, y - lift]; };
      const reach = high * (half + span * scale), foot = high * half * 0.8;
      fill(pen, [spot(rear, foot), spot(outerRear, reach), spot(outer, reach), spot(front, foot)], hue.soft, hue.ink);
    }
    const [sx, sy] = line(parts.seat), wide = Math.max(half, 0.5 * parts.point * scale) + 1;
    fill(pen, [[sx, sy - half], [mix(sx, spots[last][0], 0.35), mix(sy, spots[last][1], 0.35) - wide], spots[last],
      [mix(sx, spots[last][0], 0.35), mix(sy, spots[last][1], 0.35) + wide], [sx, sy + half]], hue.ink);
  }

  // How large things are drawn; silent while that changes.
  function sizes(pen, film, now, scale, box, hue, along) {
    if (now.follow > 0 && now.follow < 1) return;
    const x = box.x + 12, y = box.y + box.high - 10;
    words(pen, now.free ? `lean \u00D7${film.lean}, bend \u00D7${film.bend}` : `sideways \u00D7${film.bend}`, x, y, hue.soft);
    if (!along || box.wide < 560) return;
    const { name, long } = film.unit, far = round(long * scale, 110), end = box.x + box.wide - 12;
    stroke(pen, [[end - far * long * scale, y], [end, y]], hue.soft, 2);
    words(pen, `${+far.toPrecision(2)} ${name}`, end, y - 6, hue.soft, "right");
  }

  function lane(pen, film, build, time, view, box, hue, series, told = true) {
    const now = at(film, build, time), { scale, centre, long } = camera(build, now, view, box.wide, box.high);
    const middle = box.y + box.high / 2;
    const to = (x, off) => [box.x + box.wide / 2 + (x - centre) * scale, middle - off * scale];
    pen.save();
    pen.beginPath();
    pen.rect(box.x, box.y, box.wide, box.high);
    pen.clip();
    stroke(pen, [[box.x, middle], [box.x + box.wide, middle]], hue.line, 1.5, [6, 5]);
    if (told) words(pen, now.follow < 0.5 ? "line of the push" : "its path", box.x + box.wide - 10, middle - 7, hue.soft, "right");
    const face = to(build.push.travel[build.push.travel.length - 1] + build.face + long, 0)[0];
    if (now.free && face < box.x + box.wide + 20) {
      fill(pen, [[face, box.y], [face + 12, box.y], [face + 12, box.y + box.high], [face, box.y + box.high]], hue.line, hue.soft);
    }
    bow(pen, build, now, view, to, scale, hue);
    rest(pen, build, now, time, view, to, scale, hue);
    arrow(pen, build, now, view, to, scale, hue, series);
    if (told) sizes(pen, film, now, scale, box, hue, true);
    pen.restore();
  }

  function behind(pen, film, build, time, box, hue, series) {
    const now = at(film, build, time), stations = build.arrow.stations, last = stations.length - 1;
    const scale = 0.4 * Math.min(box.high, 1.2 * box.wide) / (0.14 * stations[last]);
    const x0 = box.x + box.wide / 2, y0 = box.y + box.high / 2;
    const spot = (left, up) => [x0 - left * scale, y0 - up * scale];
    const place = (k) => spot(now.off[2 * k], now.off[2 * k + 1]);
    pen.save();
    pen.beginPath();
    pen.rect(box.x, box.y, box.wide, box.high);
    pen.clip();
    stroke(pen, [[box.x, y0], [box.x + box.wide, y0]], hue.line, 1.5, [6, 5]);
    stroke(pen, [[x0, box.y], [x0, box.y + box.high]], hue.line, 1.5, [6, 5]);
    words(pen, "left", box.x + 10, y0 - 7, hue.soft);
    words(pen, "right", box.x + box.wide - 10, y0 - 7, hue.soft, "right");
    if (now.follow < 1) {
      pen.globalAlpha = 0.3 * (1 - now.follow);
      stroke(pen, [[x0, box.y], [x0, box.y + box.high]], hue.wood, 26);
      pen.globalAlpha = 1 - now.follow;
      const [sx, sy] = spot(now.string[1], now.string[2]);
      stroke(pen, [[x0, box.y - 900], [sx, sy], [x0, box.y + box.high + 900]], hue.ink, 1.3);
      pen.globalAlpha = 1;
    }
    const reach = stations[last] - build.arrow.balance;
    if (now.free) {
      pen.globalAlpha = 0.5;
      const path = trail(build, time).map(([left, up]) => spot(reach * film.lean * left, reach * film.lean * up));
      stroke(pen, path, series.colour, 1.5, DASHES[series.at].map((n) => n / 2));
      pen.globalAlpha = 1;
    }
    const all = stations.map((_, k) => place(k));
    stroke(pen, all, series.colour, 3.5, DASHES[series.at]);
    disc(pen, ...all[last], 5, hue.ink);
    for (let v = 0; build.arrow.blades.length && v < build.arrow.bladed; v++) {
      const angle = now.roll + build.arrow.clock + v * 2 * Math.PI / build.arrow.bladed, [px, py] = all[last];
      const far = Math.max(5, 0.5 * build.arrow.across * scale) + build.arrow.blades[4] * scale;
      stroke(pen, [[px, py], [px + Math.sin(angle) * far, py - Math.cos(angle) * far]], hue.soft, 3);
    }
    // The shaft's end is nearest: vanes, then the nock on top.
    const radius = Math.max(6, FINS * 0.5 * build.arrow.across * scale), [vx, vy] = all[1];
    for (let v = 0; build.arrow.vanes.length && v < build.arrow.count; v++) {
      const angle = now.roll + v * 2 * Math.PI / build.arrow.count;
      const tall = Math.min(radius + FINS * build.arrow.vanes[4] * scale, 0.3 * box.high);
      const far = [vx + Math.sin(angle) * tall, vy - Math.cos(angle) * tall];
      stroke(pen, [[vx, vy], far], v === 0 ? hue.wood : hue.ink, v === 0 ? 6 : 3);
    }
    disc(pen, ...all[0], radius, hue.sheet, hue.ink, 2);
    disc(pen, ...all[0], radius * 0.35, series.colour);
    sizes(pen, film, now, scale, box, hue, false);
    pen.restore();
  }

  // The whole way, with every arrow's place on it.
  function way(pen, film, time, view, box, hue, series, told = true) {
    const plane = view === "above" ? 1 : 2, distance = Math.max(...film.builds.map((b) => b.distance));
    const all = film.builds.flatMap((b) => b.flight.place.map((p) => p[plane]));
    const high = Math.max(...all, 0), low = Math.min(...all, 0), room = Math.max(high - low, 1e-6);
    const edge = told ? 24 : 9, top = box.y + edge, tall = box.high - 2 * edge;
    const left = box.x + 14, long = box.wide - 36;
    const stretch = Math.min(tall / room, 60 * long / distance);
    const x = (out) => left + out / distance * long, y = (off) => top + (tall - room * stretch) / 2 + (high - off) * stretch;
    stroke(pen, [[left, y(0)], [left + long, y(0)]], hue.line, 1.5, [6, 5]);
    const { name, long: unit } = film.range, step = [5, 10, 20, 50, 100].find((n) => n * unit / distance * long > 48) || 200;
    for (let out = step; told && out * unit < distance * 0.97; out += step) {
      stroke(pen, [[x(out * unit), box.y + box.high - 20], [x(out * unit), box.y + box.high - 15]], hue.soft, 1);
      words(pen, `${out}${out === step ? " " + name : ""}`, x(out * unit), box.y + box.high - 3, hue.soft, "center");
    }
    stroke(pen, [[left + long, y(0) - 0.6 * edge], [left + long, y(0) + 0.6 * edge]], hue.wood, 5);
    film.builds.forEach((build, i) => {
      const spots = build.flight.place.map((p) => [x(p[0]), y(p[plane])]);
      stroke(pen, spots, series[i].colour, 2, DASHES[i]);
    });
    film.builds.forEach((build, i) => {
      const now = at(film, build, time);
      disc(pen, x(now.place[0]), y(now.place[plane]), 6, series[i].colour, hue.page, 2);
    });
    const times = Math.max(1, Math.round(stretch * distance / long));
    const what = plane === 1 ? "Whole path from above, drift" : "Whole path from the side, height";
    if (told) words(pen, `${what} drawn ${times} times`, left, box.y + 12, hue.soft);
  }

  function pens(canvas) {
    const wide = canvas.clientWidth, high = canvas.clientHeight, dense = window.devicePixelRatio || 1;
    if (canvas.width !== Math.round(wide * dense) || canvas.height !== Math.round(high * dense)) {
      canvas.width = Math.round(wide * dense);
      canvas.height = Math.round(high * dense);
    }
    const pen = canvas.getContext("2d");
    pen.setTransform(dense, 0, 0, dense, 0, 0);
    pen.clearRect(0, 0, wide, high);
    return { pen, wide, high };
  }
  const coloured = (film, hue) => film.builds.map((build, at) => ({ at, colour: hue.series[build.at % hue.series.length] }));

  page.paint = (canvas, film, time, view, hue) => {
    const { pen, wide, high } = pens(canvas), series = coloured(film, hue);
    const strip = 96, count = film.builds.length, tall = high - strip;
    film.builds.forEach((build, i) => {
      const box = view === "behind"
        ? { x: i * wide / count, y: 0, wide: wide / count, high: tall }
        : { x: 0, y: i * tall / count, wide, high: tall / count };
      if (view === "behind") behind(pen, film, build, time, box, hue, series[i]);
      else lane(pen, film, build, time, view, box, hue, series[i]);
      if (count > 1) {
        const end = box.x + box.wide - 12;
        pen.font = FONT;
        const name = Math.min(box.wide - 70, pen.measureText(build.name).width);
        pen.globalAlpha = 0.85;
        pen.fillStyle = hue.sheet;
        pen.fillRect(end - 44 - name, box.y + 7, name + 44, 19);
        pen.globalAlpha = 1;
        stroke(pen, [[end - 32, box.y + 16], [end, box.y + 16]], series[i].colour, 4, DASHES[i]);
        words(pen, build.name, end - 40, box.y + 21, hue.ink, "right", box.wide - 70);
        if (i > 0) stroke(pen, view === "behind" ? [[box.x, 0], [box.x, tall]] : [[0, box.y], [wide, box.y]], hue.line, 1);
      }
    });
    stroke(pen, [[0, tall], [wide, tall]], hue.line, 1);
    way(pen, film, time, view, { x: 0, y: tall, wide, high: strip }, hue, series);
  };
  // All of it in a line: the build that is changed, and the way.
  page.paintStrip = (canvas, film, time, view, hue) => {
    const { pen, wide, high } = pens(canvas), series = coloured(film, hue), half = 0.42 * wide;
    if (!wide) return;
    const own = film.shown, seen = view === "behind" ? "side" : view;
    lane(pen, film, film.builds[own], time, seen, { x: 0, y: 0, wide: half, high }, hue, series[own], false);
    way(pen, film, time, seen, { x: half, y: 0, wide: wide - half, high }, hue, series, false);
  };
  page.colours = colours;
})();
