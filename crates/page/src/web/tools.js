// Commands: an answer may take a while, and says so.
"use strict";
(() => {
  const form = document.querySelector("form.tool:not([method=get]), form.pair");
  if (!form) return;
  const told = document.createElement("p");
  told.setAttribute("role", "status");
  const ticket = document.createElement("input");
  ticket.type = "hidden";
  if (form.matches(".tool")) ticket.name = "t.ticket";
  const stop = document.createElement("button");
  stop.type = "button";
  stop.textContent = "Stop";
  stop.hidden = true;
  form.append(ticket, told, stop);
  let telling = 0;
  const rest = (said) => {
    clearInterval(telling);
    form.querySelector("button[type=submit]").disabled = false;
    stop.hidden = true;
    told.textContent = said;
  };
  // Who hangs up ends the work, as who leaves the page does.
  stop.addEventListener("click", () => {
    window.stop();
    rest("Stopped. What you wrote still stands here.");
    form.querySelector("button[type=submit]").focus();
  });
  // A bare number is in the unit of what counts otherwise, inches where that says none.
  form.addEventListener("change", (event) => {
    const one = event.target;
    if (!one.matches("input.amount") || !["LENGTH", "MASS"].includes(one.dataset.form)) return;
    const usual = one.dataset.usual || (one.dataset.form === "MASS" ? "0 gr" : "0 in");
    const unit = /[0-9]\s*([^0-9\s].*)$/.exec(usual);
    if (unit && /^[0-9][0-9 .,\/]*$/.test(one.value.trim())) one.value = one.value.trim() + " " + unit[1];
  });
  form.addEventListener("submit", (event) => {
    // What was pasted and not taken yet would be lost.
    const open = form.querySelector(".match");
    if (open) {
      event.preventDefault();
      open.querySelector("h2").focus();
      told.textContent = "Say first what the pasted columns are, or leave them.";
      return;
    }
    const began = Date.now();
    ticket.value = Math.random().toString(36).slice(2);
    form.querySelector("button[type=submit]").disabled = true;
    let first = "";
    const tell = () => {
      const gone = Math.round((Date.now() - began) / 1000) + " s";
      told.textContent = first ? "Sent " + gone + " ago. " + first : "Working\u2026 " + gone;
      fetch("/tools/queue?t.ticket=" + ticket.value).then((said) => said.ok ? said.text() : "")
        .then((said) => { first = said; }, () => {});
    };
    tell();
    stop.hidden = false;
    clearInterval(telling);
    telling = setInterval(tell, 2000);
  });
  // Back again: the form may be sent anew.
  addEventListener("pageshow", () => rest(""));
})();
// Readings: enter goes on to the next field, as on a sheet of paper.
(() => {
  const form = document.querySelector("form.readings");
  if (!form) return;
  const fields = [...form.querySelectorAll(".rows input[type=text]")];
  form.addEventListener("keydown", (event) => {
    const at = fields.indexOf(event.target);
    if (event.key !== "Enter" || at < 0) return;
    event.preventDefault();
    (fields[at + 1] || form.querySelector("button")).focus();
  });
  // What was written and not put into the job would be lost.
  let sent = false;
  form.addEventListener("submit", () => { sent = true; });
  addEventListener("pageshow", () => { sent = false; });
  addEventListener("beforeunload", (event) => {
    const stood = (one) => form.elements[one.name.replace(/^t\./, "t.was.")]?.value ?? "";
    if (!sent && fields.some((one) => one.value.trim() !== stood(one))) event.preventDefault();
  });
})();
