/* What is written on the bench sheet? Ticks and blanks lie under one key; each write changes only its own entry, so two tabs do not fight. */

function sheet() { return one("[data-ms-sheet]"); }
function sheetKey() {
  var element = sheet();
  return element && "sheet:" + element.getAttribute("data-ms-sheet") + ":" + element.getAttribute("data-ms-digest");
}
function written() {
  try { return JSON.parse(recall(sheetKey()) || "{}") || {}; } catch (error) { return {}; }
}
function write(key, value) {
  var state = written();
  if (value === "" || value === false || value === null) delete state[key]; else state[key] = value;
  keep(sheetKey(), JSON.stringify(state));
}

function fillSheet() {
  if (!sheet()) return;
  var state = written();
  setParts(state.parts || sheet().getAttribute("data-ms-parts"));
  all("[data-ms-key]", sheet()).forEach(function (input) {
    var value = state[input.getAttribute("data-ms-key")];
    if (input.type === "checkbox") { input.checked = value === true; return; }
    if (input === document.activeElement) return;
    if (value === undefined) input.value = "";
    else input.value = isLength(input) && typeof value === "number" ? shown(value) : value;
  });
  workOut();
}

function setParts(wanted) {
  var count = Math.max(1, Math.min(40, parseInt(wanted, 10) || 1));
  var field = one('[data-ms-do="parts"]');
  if (field && field !== document.activeElement) field.value = count;
  all(".ms-parts-count", sheet()).forEach(function (element) { element.textContent = count; });
  all(".ms-blanks, .ms-make-lines", sheet()).forEach(function (line) {
    var items = Array.prototype.slice.call(line.children);
    while (items.length > count) line.removeChild(items.pop());
    while (items.length < count) {
      var part = items.length + 1, copy = items[0].cloneNode(true);
      all("input", copy).forEach(function (input) {
        input.value = "";
        input.setAttribute("data-ms-key", input.getAttribute("data-ms-key").replace(/-1$/, "-" + part));
        input.setAttribute("data-ms-part", part);
        input.setAttribute("aria-label", (input.getAttribute("aria-label") || "").replace("part 1,", "part " + part + ","));
      });
      all("[data-ms-sum]", copy).forEach(function (sum) { sum.setAttribute("data-ms-sum", part); sum.textContent = ""; });
      all(".ms-part-number", copy).forEach(function (label) { label.textContent = part; });
      if (copy.classList.contains("ms-blank")) one(".ms-blank-label", copy).textContent = part;
      line.appendChild(copy);
      items.push(copy);
    }
  });
}

function say(words) { all(".ms-said").forEach(function (element) { element.textContent = words; }); }
