/* What was measured, is it within its limits, and what must its mate be made to? */

function number(text) {
  var clean = String(text).trim().replace(",", ".");
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(clean) ? parseFloat(clean) : NaN;
}
function isLength(input) { var role = input.getAttribute("data-ms-role"); return role === "measured" || role === "base"; }
function shown(mm) { return units() === "inch" ? (mm / 25.4).toFixed(4) : String(+mm.toFixed(4)); }
/* A limit is rounded into the tolerance: the lower one up, the upper one down. */
function inwards(mm, up) {
  var inch = units() === "inch", steps = inch ? mm / 25.4 * 1e5 : mm * 1e4;
  var whole = Math.abs(steps - Math.round(steps)) < 1e-6 ? Math.round(steps) : up ? Math.ceil(steps) : Math.floor(steps);
  return inch ? (whole / 1e5).toFixed(5) : String(+(whole / 1e4).toFixed(4));
}
function inMm(value) { return units() === "inch" ? value * 25.4 : value; }

function workOut() {
  var state = written();
  all("[data-ms-limit]", sheet()).forEach(function (group) {
    var low = parseFloat(group.getAttribute("data-ms-low")), high = parseFloat(group.getAttribute("data-ms-high"));
    all('input[data-ms-role="measured"]', group).forEach(function (input) {
      var value = state[input.getAttribute("data-ms-key")];
      var outside = typeof value === "number" && (value < low - 1e-9 || value > high + 1e-9);
      input.classList.toggle("ms-outside", outside);
      input.setAttribute("aria-invalid", outside ? "true" : "false");
    });
  });
  all("[data-ms-make]", sheet()).forEach(function (group) {
    var low = parseFloat(group.getAttribute("data-ms-add-low")), high = parseFloat(group.getAttribute("data-ms-add-high"));
    all('input[data-ms-role="base"]', group).forEach(function (input) {
      var part = input.getAttribute("data-ms-part");
      var value = state[input.getAttribute("data-ms-key")];
      if (typeof value !== "number") {
        value = measuredOf(group.getAttribute("data-ms-make"), part, state);
        if (input !== document.activeElement) input.value = typeof value === "number" ? shown(value) : "";
      }
      var sum = one('[data-ms-sum="' + part + '"]', group);
      if (sum) sum.textContent = typeof value === "number" ? inwards(value + low, true) + " to " + inwards(value + high, false) : "";
    });
  });
}
function measuredOf(name, part, state) {
  var found;
  all("[data-ms-limit]", sheet()).forEach(function (group) {
    if (group.getAttribute("data-ms-limit") !== name) return;
    var input = one('input[data-ms-role="measured"][data-ms-part="' + part + '"]', group);
    if (input && typeof state[input.getAttribute("data-ms-key")] === "number") found = state[input.getAttribute("data-ms-key")];
  });
  return found;
}
