// Rooms and builds: a build is copied or taken away by a page of its own.
(() => {
  const build = document.getElementById("build");
  if (!build) return;
  for (const button of build.querySelectorAll("button[formaction]")) {
    button.addEventListener("click", (event) => {
      event.preventDefault();
      const body = clothyard.state(), name = document.getElementById("copy");
      if (name) body.set("copy", name.value.trim());
      location.assign(button.getAttribute("formaction") + "?" + body);
    });
  }
})();
