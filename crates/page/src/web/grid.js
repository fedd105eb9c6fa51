// Tables as grids: one field a cell, on a hand's width one row at a time. The text stays
// what is sent, and is kept in step.
"use strict";
(() => {
  const { sheet } = clothyard;
  const narrow = matchMedia("(max-width: 40rem)");
  // How many times the middle of the others, or less than its inverse, is marked. Chosen: a
  // slipped point is ten, less what the others scatter.
  const FAR = 7;
  // Fewest others that say what is usual. Chosen.
  const OTHERS = 3;
  // Most rows that a grid shows; a longer table stays text. Chosen: a gross and more.
  const MOST = 300;

  const make = (tag, set = {}, ...inside) => {
    const made = document.createElement(tag);
    for (const [name, value] of Object.entries(set)) {
      if (name === "class") made.className = value;
      else if (name.startsWith("on")) made.addEventListener(name.slice(2), value);
      else if (value !== false) made.setAttribute(name, value === true ? "" : value);
    }
    made.append(...inside);
    return made;
  };
  const button = (words, act, set = {}) => make("button", { type: "button", onclick: act, ...set }, words);
  const options = (all, chosen) => all.map(([value, words]) => {
    const made = make("option", { value }, words);
    made.selected = value === chosen;
    return made;
  });

  function grid(area) {
    const data = JSON.parse(area.dataset.columns), name = data.row;
    const key = "table " + location.pathname + " " + area.name;
    const usual = (at) => data.columns[at].cells.is === "amount" ? data.columns[at].cells.usual[0] : "";
    const column = (at) => ({ at, head: data.columns[at].name, unit: usual(at) });
    let columns, rows, notes = [], now = 0, removed = null;

    const told = make("p", { class: "hint", role: "status" });
    const invented = make("p", { class: "invented" });
    const holder = make("div", { class: "cells" });
    const panel = make("div");
    const more = make("select", { "aria-label": "A column more", onchange: () => { add(Number(more.value)); } });
    const place = make("strong");
    const step = make("p", { class: "step" }, button("Back", () => go(now - 1)), place, button("Next " + name, () => go(now + 1)));
    const back = button("Put it back", () => {
      rows.splice(removed.at, 0, removed.row);
      removed = null;
      changed("Back again.");
    });
    const swap = button("As text", () => { area.hidden ? show(false) : taken(area.value, "text"); });
    const fill = area.dataset.example ? button("Fill with an invented example", () => taken(area.dataset.example, "example")) : "";
    const top = make("div", { class: "bar" }, fill, swap, back);
    const whole = make("div", { class: "grid", role: "group", "aria-label": area.labels[0].textContent },
      invented, step, holder, make("div", { class: "bar" }, more), told);

    const blank = (row) => row.cells.every((cell, at) => cell === "" || (row.auto && at === row.auto.at && cell === row.auto.name));
    const full = () => rows.filter((row) => !blank(row));
    const first = () => columns.findIndex((one) => one.at >= 0 && data.columns[one.at].cells.is === "text" && data.columns[one.at].needed);
    const called = (at) => (rows[at].cells[first()] || String(at + 1));

    // A row more below the last, named by the next number where rows are counted.
    function grow() {
      if (rows.length > 0 && blank(rows[rows.length - 1])) return false;
      fresh();
      return true;
    }
    function fresh() {
      const cells = columns.map(() => ""), at = first();
      const row = { cells };
      if (data.counted && at >= 0) {
        const last = Math.max(0, ...rows.map((one) => Number(one.cells[at])).filter(Number.isInteger));
        row.auto = { at, name: String(last + 1) };
        cells[at] = row.auto.name;
      }
      rows.push(row);
    }

    function start(read) {
      notes = read ? read.notes : [];
      columns = read ? read.columns.map(spelled) : [];
      rows = read ? read.rows.filter((cells) => cells.some((cell) => cell !== "")).map((cells) => ({ cells: columns.map((_, at) => cells[at] || "") })) : [];
      data.columns.forEach((one, at) => { if (one.begin && (!read || one.needed)) need(at); });
      grow();
      now = 0;
      draw();
    }
    // A column of the user's own keeps its head as it is.
    function spelled(one) {
      return one.at < 0 ? { at: -1, head: one.head, unit: "" } : { at: one.at, head: one.against || data.columns[one.at].name, unit: one.unit || one.said };
    }
    // The place of a column, which is added where there is none.
    function need(at) {
      const found = columns.findIndex((one) => one.at === at);
      if (found >= 0) return found;
      columns.push(column(at));
      rows.forEach((row) => row.cells.push(""));
      return columns.length - 1;
    }
    function add(at) {
      const placed = need(at);
      changed(data.columns[at].name + " has a column.");
      focus(now, placed);
    }

    // What is sent: rows that say something, columns that hold something or must be there.
    function text() {
      const all = full();
      const used = columns.map((one, at) => (one.at >= 0 && data.columns[one.at].needed) || all.some((row) => row.cells[at] !== ""));
      const kept = (list) => list.filter((_, at) => used[at]);
      const heads = columns.map((one) => one.unit ? one.head + " [" + one.unit + "]" : one.head);
      return sheet.write(kept(heads), all.map((row) => kept(row.cells)), notes);
    }
    function keep() {
      area.value = text();
      if (!area.value) notes = [];
      store();
    }
    const store = () => { try { sessionStorage.setItem(key, area.value); } catch { /* A full store keeps nothing. */ } };
    function changed(words) {
      grow();
      keep();
      draw();
      told.textContent = words;
    }

    const size = (one, cell) => {
      const said = cell.trim().replace(",", ".").replace("\u2212", "-");
      if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(said)) return NaN;
      const { unsaid } = data.columns[one.at].cells;
      return Math.abs(unsaid && one.unit === "in" && /^\d{3,}$/.test(said) ? said / 1000 : said);
    };
    // What is far off its column, in words beside the cell.
    function mark() {
      columns.forEach((one, at) => {
        const cells = one.at >= 0 ? data.columns[one.at].cells : {};
        if (cells.is !== "amount" || cells.round) return;
        const all = rows.map((row) => size(one, row.cells[at]));
        all.forEach((value, place) => {
          const others = all.filter((other, of) => of !== place && other > 0).sort((a, b) => a - b);
          const ratio = others.length < OTHERS || !(value > 0) ? 1 : value / others[others.length >> 1];
          const low = ratio < 1 / FAR && cells.positive;
          const said = ratio > FAR ? Math.round(ratio) + " times the others: check it" : low ? "1/" + Math.round(1 / ratio) + " of the others: check it" : "";
          const shown = holder.querySelector('[data-row="' + place + '"][data-column="' + at + '"]');
          if (shown) shown.closest("td").querySelector(".far").textContent = said;
        });
      });
    }

    function label(row, at) {
      const { head, unit } = columns[at];
      return [name + " " + called(row), head, unit].filter(Boolean).join(", ");
    }
    function typed(event) {
      const field = event.target, row = Number(field.dataset.row), at = Number(field.dataset.column);
      rows[row].cells[at] = field.value.trim();
      if (at === first()) {
        rows[row].auto = undefined;
        holder.querySelectorAll('[data-row="' + row + '"]').forEach((one) => one.setAttribute("aria-label", label(row, Number(one.dataset.column))));
      }
      keep();
      if (grow()) body().append(line(rows.length - 1));
      progress();
      mark();
    }
    function cell(row, at) {
      const known = data.columns[columns[at].at], cells = known ? known.cells : { is: "text" };
      const set = { "data-row": row, "data-column": at, "aria-label": label(row, at), "aria-describedby": area.id + "-" + row + "-" + at, oninput: typed };
      const value = rows[row].cells[at];
      let field;
      if (cells.is === "word" && (value === "" || cells.words.includes(value))) {
        field = make("select", set, ...options([["", "\u2013"], ...cells.words.map((word) => [word, word])], value));
      } else {
        const mode = { amount: "decimal", whole: "numeric" }[cells.is] || "text";
        field = make("input", { ...set, type: "text", inputmode: mode, enterkeyhint: "next", autocomplete: "off", spellcheck: "false", maxlength: 200 });
        field.value = value;
      }
      // A pad of digits has no minus.
      const turn = cells.signed ? button("\u00b1", () => {
        field.value = field.value.startsWith("-") ? field.value.slice(1) : "-" + field.value;
        field.dispatchEvent(new Event("input", { bubbles: true }));
        field.focus();
      }, { class: "turn", tabindex: "-1", "aria-label": label(row, at) + ": turn its sign" }) : "";
      return make("td", { role: "cell" }, make("span", { class: "entry" }, field, turn), make("small", { class: "far", id: area.id + "-" + row + "-" + at }));
    }
    function line(row) {
      const out = button("\u00d7", () => {
        removed = { at: row, row: rows[row] };
        const words = name + " " + called(row) + " is taken out.";
        rows.splice(row, 1);
        now = Math.min(now, rows.length - 1);
        changed(words);
      }, { class: "out", "aria-label": "Take out " + name + " " + called(row) });
      out.append(make("span", {}, " Take out"));
      return make("tr", { role: "row", class: row === now ? "now" : "" }, ...columns.map((_, at) => cell(row, at)), make("td", { role: "cell" }, out));
    }
    function head(one) {
      const known = data.columns[one.at];
      const needed = known && known.needed ? make("small", {}, " needed") : "";
      if (!known || known.cells.is !== "amount") return make("th", { role: "columnheader", scope: "col" }, make("span", {}, one.head, needed));
      const all = [...new Set([...known.cells.usual, ...(one.unit ? [one.unit] : []), ...data.units[known.cells.of].symbols])].map((symbol) => [symbol, symbol]);
      if (!one.unit) all.unshift(["", "in each cell"]);
      const unit = make("select", { "aria-label": "unit of " + one.head, onchange: () => {
        one.unit = unit.value;
        changed(one.head + " is in " + one.unit + " now; no number was changed.");
      } }, ...options(all, one.unit));
      return make("th", { role: "columnheader", scope: "col" }, make("span", {}, one.head, needed), unit);
    }
    const body = () => holder.querySelector("tbody");

    function draw() {
      const own = holder.contains(document.activeElement) ? document.activeElement.getAttribute("aria-label") : "";
      const heads = make("tr", { role: "row" }, ...columns.map(head), make("th", { role: "columnheader" }, make("span", { class: "unseen" }, "Take out")));
      holder.replaceChildren(make("table", { role: "table" },
        make("thead", { role: "rowgroup" }, heads), make("tbody", { role: "rowgroup" }, ...rows.map((_, row) => line(row)))));
      const left = data.columns.map((one, at) => [String(at), one.name]).filter(([at]) => !columns.some((one) => one.at === Number(at)));
      more.replaceChildren(...options([["", "A column more\u2026"], ...left], ""));
      more.hidden = left.length === 0;
      back.hidden = !removed;
      const marked = notes.find((note) => /invented/i.test(note));
      invented.textContent = marked ? marked.replace(/^#\s*/, "") : "";
      progress();
      mark();
      const same = own && [...holder.querySelectorAll("[aria-label]")].find((one) => one.getAttribute("aria-label") === own);
      if (own) (same || back).focus();
    }
    function progress() {
      const count = full().length, all = Math.max(count, now + 1);
      place.textContent = name + " " + (now + 1) + " of " + all;
      step.firstChild.disabled = now === 0;
      step.lastChild.disabled = now >= rows.length - 1;
    }
    function go(row) {
      now = Math.min(Math.max(row, 0), rows.length - 1);
      focus(now, Math.max(rows[now].cells.findIndex((cell) => cell === ""), 0));
    }
    function focus(row, at) {
      if (now !== row || !body().children[row].classList.contains("now")) turned(row);
      const field = holder.querySelector('[data-row="' + row + '"][data-column="' + at + '"]');
      field.focus();
      if (field.select) field.select();
    }
    function turned(row) {
      now = row;
      [...body().children].forEach((one, at) => { one.className = at === row ? "now" : ""; });
      progress();
    }

    holder.addEventListener("focusin", (event) => {
      const row = event.target.closest("tbody tr");
      if (row) turned([...body().children].indexOf(row));
    });
    holder.addEventListener("keydown", (event) => {
      const { row, column: at } = event.target.dataset, by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
      if (row === undefined) return;
      if (by && event.target.tagName === "INPUT" && !narrow.matches) {
        event.preventDefault();
        if (rows[Number(row) + by]) focus(Number(row) + by, Number(at));
      } else if (event.key === "Enter") {
        event.preventDefault();
        next(Number(row), Number(at));
      }
    });
    // Down a column, then to the top of the next; on a hand's width through a row, then to
    // the next row.
    function next(row, at) {
      if (narrow.matches) {
        if (at + 1 < columns.length) focus(row, at + 1);
        else if (rows[row + 1]) go(row + 1);
      } else if (rows[row + 1]) focus(row + 1, at);
      else if (at + 1 < columns.length) focus(0, at + 1);
    }
    const several = (said) => /[\t\r\n]/.test(said.trim()) || (said.match(/[;,]/g) || []).length > 1 || /;/.test(said);
    holder.addEventListener("paste", (event) => {
      const said = event.clipboardData.getData("text/plain");
      if (!several(said)) return;
      event.preventDefault();
      const { row, column: at } = event.target.dataset;
      match(said, row === undefined ? {} : { row: Number(row), at: Number(at) });
    });
    // What is open is not lost to what belongs elsewhere.
    panel.addEventListener("paste", (event) => {
      event.preventDefault();
      panel.querySelector(".wrong").textContent = "Use these or leave them first; then paste the next into the table it belongs to.";
    });
    area.addEventListener("paste", (event) => {
      const said = event.clipboardData.getData("text/plain");
      if (!/[\r\n]/.test(said.trim()) || !taken(area.value, "typed")) return;
      event.preventDefault();
      match(said, {});
    });
    area.addEventListener("input", store);

    // Whether a text is a table whose every head is known or the user's own: it needs no step.
    const plain = (read) => read.headed && read.sure && read.odd.length === 0 && read.over.length === 0
      && read.columns.every((one) => one.sure || (one.at < 0 && one.head))
      && read.rows.every((row) => row.length <= read.columns.length);

    // A text becomes the grid.
    function taken(said, from) {
      const read = sheet.read(data, said);
      if (from === "example" && full().length > 0) {
        match(said, {});
        return true;
      }
      if (!said.trim()) start(null);
      else if (plain(read) && read.rows.length <= MOST) start(read);
      else if (from === "text") {
        start(null);
        match(said, {});
        return true;
      } else return false;
      show(true);
      if (from === "example") keep();
      return true;
    }
    // The grid waits meanwhile: nothing is typed into what may be replaced.
    function match(said, from) {
      whole.hidden = top.hidden = area.hidden = true;
      clothyard.match({ data, panel, said, from, columns, rows: full(), make, button, options,
        leave: () => show(full().length > 0 || !area.value.trim()),
        use: (found) => {
          notes = [...new Set([...(found.place === "instead" ? [] : notes), ...found.notes])];
          if (found.place === "instead") [columns, rows] = [[], []];
          rows = full();
          const put = found.columns.map((one) => {
            const at = need(one.at);
            // A column that holds nothing yet takes name and unit of what is pasted.
            if (!rows.some((row) => row.cells[at] !== "")) Object.assign(columns[at], { head: one.head, unit: one.unit });
            return at;
          });
          data.columns.forEach((one, at) => { if (one.needed) need(at); });
          const begin = found.place === "over" ? from.row : rows.length;
          found.rows.forEach((cells, row) => {
            while (rows.length <= begin + row) fresh();
            put.forEach((at, of) => { if (cells[of] !== "") rows[begin + row].cells[at] = cells[of]; });
          });
          now = 0;
          show(true);
          changed(found.rows.length + " rows are in the grid.");
        } });
    }
    function show(asGrid) {
      top.hidden = false;
      whole.hidden = !asGrid;
      area.hidden = asGrid;
      swap.textContent = asGrid ? "As text" : "As a grid";
      if (!asGrid) area.focus();
    }

    area.after(top, panel, whole);
    area.closest(".tabled").classList.add("live");
    start(null);
    back.hidden = true;
    // Again, as it was left: by going back, or loaded anew.
    const way = performance.getEntriesByType("navigation")[0];
    const left = way && /back_forward|reload/.test(way.type) ? sessionStorage.getItem(key) : null;
    if (left !== null && !area.value.trim()) area.value = left;
    if (!taken(area.value, "sent")) show(false);
  }

  addEventListener("DOMContentLoaded", () => document.querySelectorAll("textarea[data-columns]").forEach(grid));
})();
