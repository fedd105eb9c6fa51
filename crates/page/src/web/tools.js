// Commands: an answer may take a while, and says so.
"use strict";
(() => {
  const form = document.querySelector("form.tool");
  if (!form) return;
  const told = document.createElement("p");
  told.setAttribute("role", "status");
  form.append(told);
  form.addEventListener("submit", () => {
    const began = Date.now();
    form.querySelector("button[type=submit]").disabled = true;
    const tell = () => { told.textContent = "Working\u2026 " + Math.round((Date.now() - began) / 1000) + " s"; };
    tell();
    setInterval(tell, 1000);
  });
  // Back again: the form may be sent anew.
  addEventListener("pageshow", () => { form.querySelector("button[type=submit]").disabled = false; told.textContent = ""; });
})();
// Readings: enter goes on to the next field, as on a sheet of paper.
(() => {
  const form = document.querySelector("form.readings");
  if (!form) return;
  const fields = [...form.querySelectorAll(".rows input")];
  form.addEventListener("keydown", (event) => {
    const at = fields.indexOf(event.target);
    if (event.key !== "Enter" || at < 0) return;
    event.preventDefault();
    (fields[at + 1] || form.querySelector("button")).focus();
  });
})();
