/* What is written on the bench sheet? Ticks and blanks lie under one key; each write changes only its own entry, so two tabs do not fight.
   The key is made of what the sheet says, so that what was written never stands beside another method's numbers unasked. */

function sheet() { return one("[data-ms-sheet]"); }
function sheetKey() {
  var element = sheet();
  return element && "sheet:" + element.getAttribute("data-ms-sheet") + ":" + element.getAttribute("data-ms-content");
}
function writtenUnder(key) {
  try { return JSON.parse(recall(key) || "{}") || {}; } catch (error) { return {}; }
}
function written() { return writtenUnder(sheetKey()); }
function write(key, value) {
  var state = written();
  if (value === "" || value === false || value === null) { delete state[key]; delete state["day " + key]; }
  else {
    if (state[key] !== value) state["day " + key] = today();
    state[key] = value;
  }
  state.revision = sheet().getAttribute("data-ms-revision") || "";
  state.touched = today();
  keep(sheetKey(), JSON.stringify(state));
}
function today() {
  var now = new Date();
  return now.getFullYear() + "-" + String(now.getMonth() + 1).padStart(2, "0") + "-" + String(now.getDate()).padStart(2, "0");
}
function isWritten(state) {
  return Object.keys(state).some(function (key) { return !/^(day .*|revision|touched|parts|asked)$/.test(key); });
}

function fillSheet() {
  if (!sheet()) return;
  var state = written();
  setParts(state.parts || sheet().getAttribute("data-ms-parts"));
  all("[data-ms-key]", sheet()).forEach(function (input) {
    var value = state[input.getAttribute("data-ms-key")];
    if (input.type === "checkbox") { input.checked = value === true; return; }
    if (input === document.activeElement) return;
    if (value === undefined) { if (input.getAttribute("data-ms-role") !== "base") input.value = ""; }
    else input.value = isLength(input) && typeof value === "number" ? shown(value) : value;
  });
  workOut();
  offerOlder(state);
}

/* Something was written on this sheet while the method said something else: the reader decides. */
function offerOlder(state) {
  var place = one(".ms-older"), older = state.asked || isWritten(state) ? null : olderSheet();
  if (!place) return;
  place.hidden = !older;
  if (!older) return;
  var about = [older.state.revision && "revision " + older.state.revision, older.state.touched].filter(Boolean).join(", ");
  one(".ms-older-words", place).textContent = "The method has changed since you last wrote on its sheet" + (about ? " (" + about + ")" : "") + ".";
}
function olderSheet() {
  var start = "methodsheets:sheet:" + sheet().getAttribute("data-ms-sheet") + ":", found = null;
  try {
    for (var index = 0; index < localStorage.length; index += 1) {
      var key = localStorage.key(index);
      if (key.indexOf(start) !== 0 || key === "methodsheets:" + sheetKey()) continue;
      var state = writtenUnder(key.slice("methodsheets:".length));
      if (isWritten(state) && (!found || (state.touched || "") > (found.state.touched || ""))) found = { state: state };
    }
  } catch (error) { return null; }
  return found;
}
function takeOlder(wanted) {
  var older = olderSheet(), state = wanted && older ? older.state : {};
  state.asked = true;
  keep(sheetKey(), JSON.stringify(state));
  fillSheet();
  say(wanted ? "Taken over. Look at every size again: its limits may have changed." : "Begun afresh. What you wrote before is kept until the browser is cleared.");
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
