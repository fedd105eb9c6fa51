// Tables as text: the cells of what was typed or pasted, the columns that heads name.
"use strict";
(() => {
  const MARKS = ["\t", ";", ","];
  // Rows looked at for the heads, as the program does.
  const ABOVE = 10;
  const HOURS = "o'clock";
  const number = (text) => /^[+\-\u2212]?[.,]?\d/.test(text.trim());
  // Names without case, hyphens and spare blanks, as the program reads them.
  const plain = (name) => name.replace(/[-_]/g, " ").toLowerCase().split(/\s+/).filter(Boolean).join(" ");
  const filled = (row) => row.cells.filter((cell) => cell !== "").length;

  // Rows, each with its line; blank ones keep their place among the others. A quoted cell may hold marks and line ends.
  function rows(text, mark) {
    const found = [], notes = [];
    let at = 0, line = 1;
    while (at < text.length) {
      const rest = text.slice(at), note = /^ *#(?! *[\t;,])[^\r\n]*/.exec(rest), begun = line, cells = [];
      if (note) {
        notes.push(note[0].trim());
        at += note[0].length;
      } else {
        for (;;) {
          const cell = /^[^\S\t\r\n]*"((?:[^"]|"")*)"[^\S\t\r\n]*/.exec(text.slice(at));
          let end = at + (cell ? cell[0].length : 0);
          while (end < text.length && text[end] !== mark && text[end] !== "\n" && text[end] !== "\r") end += 1;
          cells.push(cell ? cell[1].replace(/""/g, '"').trim() : text.slice(at, end).trim());
          line += (text.slice(at, end).match(/\n/g) || []).length;
          at = end;
          if (text[at] !== mark || at >= text.length) break;
          at += 1;
        }
        found.push({ line: begun, cells });
      }
      if (text[at] === "\r") at += 1;
      if (text[at] === "\n") at += 1;
      line += 1;
    }
    return { rows: found, notes };
  }

  function find(data, name) {
    const wanted = plain(name), among = (names) => names.some((one) => plain(one) === wanted);
    for (let at = 0; wanted && at < data.columns.length; at += 1) {
      const column = data.columns[at], against = among(column.against);
      if (against || among([column.name, ...column.also])) return { at, against: against ? name.trim() : "" };
    }
    return null;
  }

  // The symbol that a text means as a unit of a column; a lone capital might mean several.
  function unit(data, column, text) {
    if (column.cells.is !== "amount" || !text) return "";
    const { symbols, spelled } = data.units[column.cells.of], said = text.trim();
    if (symbols.includes(said)) return said;
    if (/^[A-Z]$/.test(said)) return "";
    const small = said.toLowerCase().replace(/\./g, "").replace(/[\u2018\u2019\u2032]/g, "'").replace(/[\u201c\u201d\u2033]/g, '"');
    if (column.cells.of === "Angle" && /^(o'|o|o )?clock$/.test(small)) return HOURS;
    return spelled[small] || symbols.find((symbol) => symbol.toLowerCase() === small) || "";
  }

  // What a head says: the column, whether it counts the other way, its unit, and whether its
  // words are exactly ones that the program reads.
  function named(data, head) {
    const parts = /^([^[(,]*)(?:[[(,](.*?)[\])]?\s*)?$/.exec(head) || ["", head, ""];
    const name = parts[1].trim(), inside = (parts[2] || "").trim();
    const done = (found, said, sure) => ({ ...found, unit: unit(data, data.columns[found.at], said), said: said || "", sure });
    const exact = find(data, name);
    if (exact) return done(exact, inside, true);
    const words = name.split(/\s+/);
    for (let count = words.length; count > 0; count -= 1) {
      // The last words say what it is: a shaft weight is a weight.
      for (let from = words.length - count; from >= 0; from -= 1) {
        const found = find(data, words.slice(from, from + count).join(" "));
        const last = from + count < words.length ? words[words.length - 1] : "";
        if (found) return done(found, inside || last, from === 0 && count === words.length - 1 && Boolean(unit(data, data.columns[found.at], last)));
      }
    }
    return { at: -1, against: "", unit: "", said: inside, sure: false };
  }

  const known = (data, row) => row.cells.filter((cell) => named(data, cell).sure).length;

  // Where the heads are: a row of names the program knows, else one of words above numbers.
  function headed(data, all) {
    const most = Math.max(0, ...all.slice(0, ABOVE).map((row) => known(data, row)));
    if (most > 0) return all.findIndex((row) => known(data, row) === most);
    const numbers = (row) => row.cells.filter(number).length;
    const widest = Math.max(0, ...all.map(filled));
    for (let at = 0; at < Math.min(ABOVE, all.length - 1); at += 1) {
      const row = all[at];
      if (2 * filled(row) > widest && numbers(row) === 0 && all.slice(at + 1).some((below) => numbers(below) > 0)) return at;
    }
    return -1;
  }

  // What parts the cells: what shows most known heads, else what parts most rows alike.
  function parted(data, text) {
    let best = null;
    for (const mark of MARKS) {
      const { rows: every, notes } = rows(text, mark), all = every.filter(filled), at = headed(data, all);
      const heads = at < 0 ? 0 : known(data, all[at]);
      const widths = all.map((row) => row.cells.length);
      const alike = widths.filter((width) => width > 1 && width === widths[widths.length >> 1]).length;
      const score = [heads, 2 * alike >= all.length ? 1 : 0, heads > 0 ? all[at].cells.length : 0];
      const better = best && score.map((one, place) => one - best.score[place]).find((by) => by !== 0) > 0;
      if (!best || better) best = { every, all, notes, at, score };
    }
    if (best.score[0] === 0 && best.score[1] === 0) {
      const { rows: every, notes } = rows(text.replace(/[^\S\r\n]+/g, "\t").replace(/^\t|\t$/gm, ""), "\t");
      const all = every.filter(filled), pairs = all.every((row) => row.cells.length > 1 && row.cells.every(number));
      if (pairs) best = { every, all, notes, at: -1, score: [] };
    }
    return best;
  }

  // A text as a table: its columns as far as its heads say them, its rows, and what is
  // passed over, each with the reason.
  function read(data, text) {
    const { every, all, notes, at } = parted(data, text.replace(/^\ufeff/, ""));
    const over = all.slice(0, Math.max(at, 0)).map((row) => "line " + row.line + " (a title)");
    let body = every.slice(at < 0 ? 0 : every.indexOf(all[at]) + 1);
    while (body.length > 0 && !filled(body[body.length - 1])) body.pop();
    while (body.length > 0 && !filled(body[0])) body.shift();
    const width = Math.max(0, ...all.map((row) => row.cells.length));
    const heads = at < 0 ? [] : all[at].cells;
    const columns = Array.from({ length: width }, (_, place) => ({ head: heads[place] || "", ...named(data, heads[place] || "") }));
    const taken = new Set();
    for (const column of columns) {
      if (taken.has(column.at)) column.at = -1;
      else if (column.at >= 0) taken.add(column.at);
    }
    const below = body[0];
    const any = (cell, place) => {
      const own = columns[place].at >= 0 ? [data.columns[columns[place].at]] : data.columns;
      return own.map((column) => unit(data, column, cell)).find(Boolean);
    };
    if (at >= 0 && below && below.cells.every((cell, place) => cell === "" || any(cell, place))) {
      below.cells.forEach((cell, place) => {
        if (!cell) return;
        columns[place].unit = columns[place].unit || any(cell, place);
        columns[place].said = columns[place].said || cell;
      });
      over.push("line " + below.line + " (units)");
      body = body.slice(1);
    }
    const idle = (row) => {
      if (!filled(row)) return "";
      if (at >= 0 && row.cells.every((cell, place) => cell.toLowerCase() === (heads[place] || "").toLowerCase())) return "the heads again";
      const first = row.cells.find((cell) => cell !== "");
      return data.sums.includes(first.replace(/:+$/, "").toLowerCase()) ? first : "";
    };
    // Words in the first cell, where every other row has a number there: a sum in other words.
    const odd = body.filter((row) => !idle(row) && row.cells[0] !== "" && !/\d/.test(row.cells[0]));
    const sums = odd.length * 4 <= body.length ? odd : [];
    for (const row of body) {
      if (idle(row)) over.push("line " + row.line + " (" + idle(row) + ")");
    }
    const rest = body.filter((row) => !idle(row));
    return { columns, notes, over, headed: at >= 0, sure: columns.some((column) => column.sure),
      rows: rest.filter((row) => !sums.includes(row)).map((row) => row.cells), odd: sums.map((row) => row.cells) };
  }

  const cell = (text) => /[",\r\n]|^#/.test(text) ? '"' + text.replace(/"/g, '""') + '"' : text;

  function write(heads, all, notes) {
    return all.length === 0 ? "" : [...notes, heads.map(cell).join(","), ...all.map((row) => row.map(cell).join(","))].join("\n") + "\n";
  }

  clothyard.sheet = { read, write, number, unit };
})();
