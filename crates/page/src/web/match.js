// What was pasted, matched to the columns of a grid before any of it is used.
"use strict";
(() => {
  const { sheet } = clothyard;
  // Rows shown before they are used. Chosen: enough to tell a column by.
  const SHOWN = 4;

  clothyard.match = ({ data, panel, said, from, columns, rows, make, button, options, use, leave }) => {
    const read = sheet.read(data, said), filled = rows.length > 0;
    const amount = (at) => at >= 0 && data.columns[at].cells.is === "amount";
    // Without heads, cells are taken in the order of the grid from where they were pasted.
    const begin = from.at === undefined || (read.columns.length > 1 && from.at + read.columns.length > columns.length) ? 0 : from.at;
    const ordered = (at) => read.headed ? -1 : columns[begin + at] ? columns[begin + at].at : -1;
    const bare = (place) => read.rows.some((cells) => /^[+\-\u2212]?[\d.,\/ ]+$/.test(cells[place] || ""));
    const guess = (at, place) => at < 0 || !amount(at) || !bare(place) ? "" : data.columns[at].cells.unsaid ? "in" : "";
    const chosen = read.columns.map((one, place) => {
      const at = one.at >= 0 ? one.at : ordered(place), own = columns.find((other) => other.at === at);
      const unit = one.unit || guess(at, place) || (!read.headed && own ? own.unit : "");
      const turned = !read.headed && own && own.head !== data.columns[at].name ? own.head : "";
      return { at, against: one.against || turned, unit };
    });
    let place = !filled ? "below" : from.row !== undefined && !read.headed ? "over" : "below", odd = false;

    const note = make("p", { class: "hint" }), wrong = make("p", { class: "wrong", role: "status" });
    const done = button("Use these", () => {
      panel.replaceChildren();
      use({ ...found(), place, notes: read.notes });
    });
    const used = () => chosen.map((one, at) => ({ ...one, from: at })).filter((one) => one.at >= 0);

    function found() {
      const all = used(), taken = odd ? [...read.rows, ...read.odd] : read.rows;
      const own = (one) => columns.find((other) => other.at === one.at);
      // Beside numbers of another unit each cell says its own.
      const spelled = (one, cell) => {
        const other = own(one);
        const differs = place !== "instead" && filled && amount(one.at) && other && other.unit !== one.unit;
        return differs && cell !== "" && one.unit && /[\d.]$/.test(cell) ? cell + " " + one.unit : cell;
      };
      return {
        columns: all.map((one) => ({ at: one.at, head: one.against || data.columns[one.at].name, unit: one.unit })),
        // Rows that say nothing keep the others beside theirs.
        rows: taken.map((cells) => all.map((one) => spelled(one, cells[one.from] || "")))
          .filter((cells) => place === "over" || cells.some((cell) => cell !== "")),
      };
    }

    const rowed = (count) => count + (count === 1 ? " row" : " rows");

    // What still stands against their use, in words.
    function against() {
      const all = used(), name = (one) => data.columns[one.at].name;
      const twice = all.find((one, at) => all.findIndex((other) => other.at === one.at) !== at);
      if (all.length === 0) return "Say what at least one of the columns is.";
      if (twice) return "Two of the columns are said to be " + name(twice) + ".";
      const open = all.find((one) => amount(one.at) && !one.unit && bare(one.from));
      if (open) return "Say the unit of " + name(open) + ".";
      const turned = place !== "instead" && all.find((one) => columns.some((other, at) => other.at === one.at
        && other.head.toLowerCase() !== (one.against || name(one)).toLowerCase() && rows.some((row) => row.cells[at] !== "")));
      if (turned) return "The grid counts " + name(turned) + " the other way, or under another head: put these in place of what is there.";
      return "";
    }
    function lost() {
      if (place !== "over") return place === "instead" ? rows.length : 0;
      return found().rows.reduce((count, cells, at) => {
        const row = rows[from.row + at];
        return count + cells.filter((cell, of) => {
          const placed = columns.findIndex((one) => one.at === used()[of].at);
          return row && cell !== "" && placed >= 0 && row.cells[placed] !== "";
        }).length;
      }, 0);
    }
    function tell() {
      const said = against(), count = lost(), taken = found();
      wrong.textContent = said;
      done.disabled = said !== "";
      const what = place === "instead" ? rowed(count) : count + " filled cells";
      const all = "Use these " + rowed(taken.rows.length);
      done.textContent = count > 0 ? all + " and replace " + what : all;
      const idle = read.columns.map((one, at) => [one.head || "column " + (at + 1), at]).filter(([, at]) => chosen[at].at < 0).map(([head]) => head);
      const needs = data.columns.filter((one, at) => one.needed && !(data.counted && one.cells.is === "text") && !chosen.some((other) => other.at === at)).map((one) => one.name);
      const sentence = (words, all) => all.length > 0 ? words + all.join(", ") + ". " : "";
      const seen = Math.min(SHOWN, taken.rows.length);
      const more = seen < taken.rows.length ? ", of which the first " + seen + " are shown" : "";
      note.textContent = rowed(taken.rows.length) + more + ". " + sentence("Not used: ", idle) + sentence("Passed over: ", read.over)
        + sentence("Passed over, as they begin with a word: ", odd ? [] : read.odd.map((cells) => cells[0]))
        + sentence("Still needed for each row: ", needs)
        + (read.headed ? "" : "There are no heads, so the columns are taken in the order of the grid: check each.");
    }

    function head(one, at) {
      const title = one.head || "column " + (at + 1);
      const what = make("select", { "aria-label": "pasted " + title + " is" },
        ...options([["-1", "not used"], ...data.columns.flatMap((known, of) => [[String(of), known.name], ...known.against.map((name) => [of + " " + name, name])])],
          chosen[at].against ? chosen[at].at + " " + chosen[at].against.toLowerCase() : String(chosen[at].at)));
      const unit = make("select", { "aria-label": "unit of pasted " + title });
      const units = () => {
        unit.hidden = !amount(chosen[at].at);
        if (unit.hidden) return;
        const { cells } = data.columns[chosen[at].at];
        const all = [...new Set([...cells.usual, ...data.units[cells.of].symbols])].map((symbol) => [symbol, symbol]);
        unit.replaceChildren(...options([["", bare(at) ? "which unit?" : "in each cell"], ...all], chosen[at].unit));
      };
      what.addEventListener("change", () => {
        const [of, ...name] = what.value.split(" ");
        chosen[at] = { at: Number(of), against: name.join(" "), unit: "" };
        if (amount(chosen[at].at)) chosen[at].unit = sheet.unit(data, data.columns[chosen[at].at], one.said) || guess(chosen[at].at, at);
        units();
        tell();
      });
      unit.addEventListener("change", () => {
        chosen[at].unit = unit.value;
        tell();
      });
      units();
      return make("th", { scope: "col" }, what, unit, make("span", {}, title));
    }

    const id = panel.parentElement.querySelector("textarea").id + "-match";
    const choice = (value, words) => {
      // Of no form: it is not sent.
      const radio = make("input", { type: "radio", name: id, form: id + "-none", value, onchange: () => { place = value; tell(); } });
      radio.checked = place === value;
      return make("label", { class: "check" }, radio, words);
    };
    const places = !filled ? [] : [
      ...(from.row === undefined ? [] : [choice("over", "into the rows from " + data.row + " " + (from.row + 1) + " on")]),
      choice("below", "below what is there"), choice("instead", "in place of what is there")];
    const sums = make("input", { type: "checkbox", onchange: () => { odd = sums.checked; tell(); } });
    const first = read.rows.filter((cells) => cells.some((cell) => cell !== "")).slice(0, SHOWN).map((cells) => make("tr", {}, ...read.columns.map((_, at) => make("td", {}, cells[at] || ""))));
    const title = make("h2", { id, tabindex: "-1" }, "What was pasted, and what it is");
    panel.replaceChildren(make("div", { class: "match", role: "group", "aria-labelledby": id },
      title,
      make("div", { class: "wide", tabindex: "0", role: "region", "aria-label": "The first rows that were pasted" }, make("table", {},
        make("thead", {}, make("tr", {}, ...read.columns.map(head))), make("tbody", {}, ...first))),
      note, ...places, ...(read.odd.length > 0 ? [make("label", { class: "check" }, sums, "take the rows that begin with a word, too")] : []),
      wrong, make("div", { class: "bar" }, done, button("Leave", () => {
        panel.replaceChildren();
        leave();
      }))));
    tell();
    title.focus();
  };
})();
