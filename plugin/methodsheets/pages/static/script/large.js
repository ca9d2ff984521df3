/* Large type beside the machine, and a screen that stays awake. */

var lock = null;
function awake(wanted) {
  if (!wanted) { if (lock) lock.release(); lock = null; return; }
  if (!navigator.wakeLock) { say("Large type. This browser cannot keep the screen awake from here; set the tablet itself to stay on."); return; }
  navigator.wakeLock.request("screen").then(function (held) { lock = held; say("Large type. The screen stays awake."); },
    function () { say("Large type. The screen could not be kept awake."); });
}
function setLarge(wanted) {
  root.classList.toggle("ms-large", wanted);
  all('[data-ms-do="large"]').forEach(function (button) { button.setAttribute("aria-pressed", wanted ? "true" : "false"); });
}
document.addEventListener("visibilitychange", function () {
  if (document.visibilityState === "visible" && root.classList.contains("ms-large") && sheet() && navigator.wakeLock) awake(true);
});
