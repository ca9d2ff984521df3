/* Millimetres or inches? As the reader chose, else as the chosen workshop thinks. */

function units() { return recall("units") || workshopUnits[recall("workshop")] || defaultUnits; }
function show(element, text) {
  if (!element.classList.contains("ms-split")) { element.textContent = text; return; }
  var cut = text.indexOf(GAP);
  element.textContent = "";
  [["ms-num", cut < 0 ? text : text.slice(0, cut)], ["ms-unit", cut < 0 ? "" : text.slice(cut + 1)]].forEach(function (pair, index) {
    var part = document.createElement("span");
    part.className = pair[0];
    part.textContent = pair[1];
    if (index) element.appendChild(document.createTextNode(GAP));
    element.appendChild(part);
  });
}
function applyUnits(part) {
  var inch = units() === "inch";
  all(".ms-q[data-inch]", part).forEach(function (element) {
    if (!element.hasAttribute("data-metric")) {
      if (!inch) return; /* it stands there in metric, and nothing is laid out anew */
      element.setAttribute("data-metric", element.textContent);
    }
    show(element, element.getAttribute(inch ? "data-inch" : "data-metric"));
  });
  if (part) return;
  all('input[name="ms-units"]').forEach(function (radio) { radio.checked = radio.value === units(); });
  root.setAttribute("data-ms-units", units());
  fillSheet();
}
