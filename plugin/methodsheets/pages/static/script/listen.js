/* What happens when something is pressed, typed or changed? One set of listeners for all pages. */

document.addEventListener("change", function (event) {
  var target = event.target, action = target.getAttribute && target.getAttribute("data-ms-do");
  if (target.name === "ms-units") { keep("units", target.value); applyUnits(); }
  else if (target.name === "ms-workshop") { keep("workshop", target.value); applyWorkshop(function () { applyUnits(); filterIndex(); widened(document); }); }
  else if (action === "paper") setPaper(target.value);
  else if (action === "only-setup") onlySetup(target.value);
  else if (action === "parts") { write("parts", parseInt(target.value, 10) || null); fillSheet(); }
  else if (action) filterIndex();
  else if (target.type === "checkbox" && target.hasAttribute("data-ms-key")) { write(target.getAttribute("data-ms-key"), target.checked); fillSheet(); fillView(); }
  else if (target.hasAttribute && target.hasAttribute("data-ms-key")) { fillSheet(); fillView(); }
});
document.addEventListener("input", function (event) {
  var target = event.target;
  if (!target.getAttribute) return;
  if (target.hasAttribute("data-ms-key") && target.type !== "checkbox") {
    write(target.getAttribute("data-ms-key"), asKept(target));
    if (target.closest(".ms-view")) fillSheet(); else workOut();
    fillView();
  } else if (target.closest(".ms-filters")) filterIndex();
});
document.addEventListener("click", function (event) {
  if (event.target.name === "ms-units") keep("units", event.target.value); /* also the units that are shown already: no change, but a choice */
  var button = event.target.closest ? event.target.closest("button[data-ms-do]") : null;
  if (!button) return;
  var action = button.getAttribute("data-ms-do");
  if (action === "bench") openView();
  else if (action === "print") window.print();
  else if (action === "save") save();
  else if (action === "sort") sortIndex(button);
  else if (action === "take-older") takeOlder(true);
  else if (action === "leave-older") takeOlder(false);
  else if (action === "large") { var wanted = !root.classList.contains("ms-large"); keep("large", wanted ? "yes" : null); setLarge(wanted); say(""); awake(wanted); }
  else if (action === "clear" && window.confirm("Clear all ticks and blanks of this sheet on this device?")) { keep(sheetKey(), null); fillSheet(); say("Cleared."); }
  else if (action === "clear-filters") { all(".ms-filters input, .ms-filters select").forEach(function (control) { control.value = ""; }); filterIndex(); }
});
window.addEventListener("storage", function (event) {
  if (event.key === "methodsheets:units") applyUnits();
  else if (event.key === "methodsheets:workshop") applyWorkshop(function () { applyUnits(); widened(document); });
  else if (sheet() && event.key === "methodsheets:" + sheetKey()) { delete memory[sheetKey()]; fillSheet(); }
});

/* What is wider than its place is scrolled by keyboard too, and nothing else is stopped at; the theme's search gets the name that it lacks. */
document.addEventListener("toggle", function (event) {
  if (!event.target.open) return;
  openLater(event.target);
  widened(event.target);
}, true);
function widened(part) {
  all("p.ms-formula, .ms-drawing, .ms-scroll", part).forEach(function (line) {
    var unseen = line.checkVisibility && !line.checkVisibility({ contentVisibilityAuto: true }); /* not laid out yet: by what it will be */
    var wide = unseen ? line.matches(".ms-scroll") || line.matches(".ms-drawing") && innerWidth < 640 : line.scrollWidth > line.clientWidth;
    if (unseen && line.matches("p")) return;
    if (!wide) { if (unseen || line.clientWidth) line.removeAttribute("tabindex"); return; }
    line.tabIndex = 0;
    if (line.matches(".ms-scroll")) return;
    line.setAttribute("role", "group");
    line.setAttribute("aria-label", line.matches("p") ? "Formula" : "Drawing, wider than the screen");
  });
}
document.addEventListener("contentvisibilityautostatechange", function (event) { if (!event.skipped) widened(event.target); }, true);
/* What was laid out only now has moved the place that was asked for: go there again until it stands. */
function goThere(times) {
  var place = location.hash.length > 1 && document.getElementById(decodeURIComponent(location.hash.slice(1)));
  if (!place) return;
  place.scrollIntoView();
  if (times) requestAnimationFrame(function () { goThere(times - 1); });
}
["load", "hashchange"].forEach(function (name) { window.addEventListener(name, function () { requestAnimationFrame(function () { goThere(4); }); }); });
["load", "resize"].forEach(function (name) { window.addEventListener(name, function () { widened(document); }); });
