/* What was measured, is it within its limits, and what must its mate be made to? */

var UNITS_MM = { "": 0, mm: 1, "µm": .001, "μm": .001, um: .001, cm: 10, in: 25.4, inch: 25.4, '"': 25.4, thou: .0254 };

/* A number as people write one: 16.005, 16,005, 1/2, 1 1/2, with or without a unit behind it. NaN where it is none. */
function parted(text) {
  var found = String(text).trim().toLowerCase().match(/^([+-]?)(?:(\d+)\s+)?(\d+)\s*\/\s*(\d+)\s*([^\d\s.,/]*)$/);
  if (found && +found[4]) return { value: (found[1] === "-" ? -1 : 1) * ((+found[2] || 0) + found[3] / found[4]), unit: found[5] };
  found = String(text).trim().toLowerCase().match(/^([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+))\s*([^\d\s.,/]*)$/);
  return found ? { value: parseFloat(found[1].replace(",", ".")), unit: found[2] } : { value: NaN, unit: "" };
}
function number(text) { var found = parted(text); return found.unit ? NaN : found.value; }
function minutesIn(text) {
  var found = parted(text), times = { "": 1, min: 1, minutes: 1, h: 60, s: 1 / 60 }[found.unit];
  return times ? found.value * times : NaN;
}
/* A length in mm; without a unit it is in the units that the page shows. NaN where it cannot be read. */
function lengthIn(text) {
  var found = parted(text), scale = UNITS_MM[found.unit];
  return scale === undefined ? NaN : found.value * (scale || (units() === "inch" ? 25.4 : 1));
}
function isLength(input) { var role = input.getAttribute("data-ms-role"); return role === "measured" || role === "base"; }
function shown(mm) { return units() === "inch" ? (mm / 25.4).toFixed(5).replace(/0$/, "") : String(+mm.toFixed(4)); }

/* Two limits as they are read: rounded inwards, never out of them. */
function between(low, high) {
  var inch = units() === "inch", fine = high - low < (inch ? .02 : .004), by = Math.pow(10, (inch ? 4 : 3) + (fine ? 1 : 0)), scale = inch ? 25.4 : 1;
  function said(given, way) { return (way(given / scale * by + (way === Math.ceil ? -1e-4 : 1e-4)) / by).toFixed(Math.round(Math.log(by) / Math.LN10)); }
  return said(low, Math.ceil) + " to " + said(high, Math.floor);
}

/* What a box holds, as it is kept: a length as a number of mm, everything else as it stands. */
function asKept(input) {
  var value = isLength(input) ? lengthIn(input.value) : NaN;
  return isNaN(value) ? input.value.trim() : value;
}
function mark(input, state) {
  var value = state[input.getAttribute("data-ms-key")], role = input.getAttribute("data-ms-role"), unread = false;
  if (isLength(input)) unread = typeof value === "string" && value !== "";
  else if (role === "minutes") unread = !!value && isNaN(minutesIn(value));
  else return;
  input.classList.toggle("ms-unread", unread);
  input.title = unread ? "This cannot be read as a " + (isLength(input) ? "size" : "time") + "; it is kept as it stands." : "";
  return unread;
}

/* The limits that hold for one part of a size: its own, or those that its measured mate gives. */
function limitsFor(group, part, state) {
  var low = parseFloat(group.getAttribute("data-ms-low")), high = parseFloat(group.getAttribute("data-ms-high"));
  var rule = one("[data-ms-make]", group);
  if (!rule) return { low: low, high: high };
  var mate = mateOf(rule, part, state), least = parseFloat(rule.getAttribute("data-ms-add-low")), most = parseFloat(rule.getAttribute("data-ms-add-high"));
  if (typeof mate === "number") return { low: mate + least, high: mate + most };
  var from = sizeGroup(rule.getAttribute("data-ms-mate"));
  if (!from) return { low: NaN, high: NaN };
  return { low: parseFloat(from.getAttribute("data-ms-low")) + least, high: parseFloat(from.getAttribute("data-ms-high")) + most };
}
function sizeGroup(key) {
  return key ? all("[data-ms-size]", sheet()).filter(function (group) { return group.getAttribute("data-ms-size") === key; })[0] : undefined;
}
/* What was measured on the mate of the same number: written beside the sum, else where the mate itself was measured. */
function mateOf(rule, part, state) {
  var own = state[rule.getAttribute("data-ms-make") + "-" + part], mate = rule.getAttribute("data-ms-mate");
  if (typeof own === "number") return own;
  var there = mate && state[mate + "-" + part];
  return typeof there === "number" ? there : undefined;
}

function workOut() {
  var state = written();
  all("[data-ms-size]", sheet()).forEach(function (group) {
    all('input[data-ms-role="measured"]', group).forEach(function (input) {
      var value = state[input.getAttribute("data-ms-key")], limits = limitsFor(group, input.getAttribute("data-ms-part"), state);
      var unread = mark(input, state), outside = typeof value === "number" && (value < limits.low - 1e-6 || value > limits.high + 1e-6);
      input.classList.toggle("ms-outside", outside);
      input.setAttribute("aria-invalid", outside || unread ? "true" : "false");
    });
  });
  all("[data-ms-make]", sheet()).forEach(function (rule) {
    var least = parseFloat(rule.getAttribute("data-ms-add-low")), most = parseFloat(rule.getAttribute("data-ms-add-high"));
    all('input[data-ms-role="base"]', rule).forEach(function (input) {
      var part = input.getAttribute("data-ms-part"), own = state[input.getAttribute("data-ms-key")], mate = mateOf(rule, part, state);
      if ((own === undefined || typeof own === "number") && input !== document.activeElement) input.value = typeof mate === "number" ? shown(mate) : "";
      input.setAttribute("aria-invalid", mark(input, state) ? "true" : "false");
      var sum = one('[data-ms-sum="' + part + '"]', rule);
      if (sum) sum.textContent = typeof mate === "number" ? between(mate + least, mate + most) : "";
    });
  });
  all('input[data-ms-role="minutes"]', sheet()).forEach(function (input) { input.setAttribute("aria-invalid", mark(input, state) ? "true" : "false"); });
}
