// Drawings glide from what they showed to what they show, unless less motion is asked for.
"use strict";
window.clothyard = {};
(() => {
  // Milliseconds. Chosen: seen as one movement, over before the next answer of a drag.
  const LONG = 140;
  const SHAPES = "circle, polyline, polygon, rect, line, path";
  const PLACES = ["cx", "cy", "r", "x", "y", "x1", "y1", "x2", "y2", "width", "height", "points", "d"];
  const still = matchMedia("(prefers-reduced-motion: reduce)");
  const number = /-?\d+(?:\.\d+)?/g;

  // What moves between two drawings: the attribute, its words, and its numbers before and
  // after. A drawing of another make has nothing in common with the one before.
  function moves(before, after) {
    const [old, now] = [before, after].map((svg) => [...svg.querySelectorAll(SHAPES)]);
    const alike = old.length === now.length && before.getAttribute("viewBox") === after.getAttribute("viewBox")
      && old.every((shape, at) => shape.tagName === now[at].tagName);
    if (!alike) return [];
    const found = [];
    now.forEach((shape, at) => {
      for (const name of PLACES) {
        const from = old[at].getAttribute(name), to = shape.getAttribute(name);
        if (from === null || to === null || from === to) continue;
        const words = to.split(number), ends = [from, to].map((text) => (text.match(number) || []).map(Number));
        if (ends[0].length === ends[1].length && from.split(number).join() === words.join()) found.push({ shape, name, words, ends, to });
      }
    });
    return found;
  }

  function draw(all, share) {
    for (const { shape, name, words, ends: [from, to] } of all) {
      const parts = to.map((end, at) => (from[at] + (end - from[at]) * share).toFixed(1));
      shape.setAttribute(name, words.map((word, at) => word + (parts[at] ?? "")).join(""));
    }
  }

  clothyard.glide = (before, after) => {
    if (still.matches || before.length !== after.length) return;
    const all = before.flatMap((svg, at) => moves(svg, after[at]));
    if (all.length === 0) return;
    const began = performance.now();
    draw(all, 0);
    const step = (now) => {
      const gone = Math.max((now - began) / LONG, 0);
      if (gone >= 1) {
        for (const { shape, name, to } of all) shape.setAttribute(name, to);
        return;
      }
      // It slows towards its end; a later drawing goes on from what this one shows.
      draw(all, gone * (2 - gone));
      if (all[0].shape.isConnected) requestAnimationFrame(step);
    };
    requestAnimationFrame(step);
  };
})();
