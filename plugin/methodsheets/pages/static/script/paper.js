/* Which paper, and which set-up of the sheet? */

function setPaper(name) {
  var rules = one("#ms-paper");
  if (!rules) { rules = document.createElement("style"); rules.id = "ms-paper"; document.head.appendChild(rules); }
  root.setAttribute("data-ms-paper", name);
  rules.textContent = { a4: "@page{size:A4}", letter: "@page{size:Letter}", a5: "@page{size:A5}" }[name] || "";
}
function onlySetup(number) {
  all("[data-ms-setup]", sheet()).forEach(function (part) { part.hidden = number !== "all" && part.getAttribute("data-ms-setup") !== number; });
}
