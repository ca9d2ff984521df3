/* Large type beside the machine, and a screen that stays awake; what of it holds is said. */

var lock = null;
function awake(wanted) {
  if (!wanted) { if (lock) lock.release(); lock = null; return; }
  if (!navigator.wakeLock) { saidOfScreen("This browser cannot keep the screen awake from here; set the tablet itself to stay on."); return; }
  navigator.wakeLock.request("screen").then(function (held) {
    lock = held;
    saidOfScreen("The screen stays awake.");
    held.addEventListener("release", function () { saidOfScreen("The screen may sleep."); });
  }, function () { saidOfScreen("The screen could not be kept awake."); });
}
function saidOfScreen(words) {
  say(words);
  all(".ms-view-state").forEach(function (element) { element.textContent = words; });
}
function wantsAwake() { return !!sheet() && (root.classList.contains("ms-large") || root.classList.contains("ms-view-on")); }
function setLarge(wanted) {
  root.classList.toggle("ms-large", wanted);
  all('[data-ms-do="large"]').forEach(function (button) { button.setAttribute("aria-pressed", wanted ? "true" : "false"); });
}
document.addEventListener("visibilitychange", function () { if (document.visibilityState === "visible" && wantsAwake()) awake(true); });
