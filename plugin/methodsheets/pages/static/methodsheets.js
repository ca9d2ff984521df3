/* Method Sheets: one script for all pages. It only adds comfort: every page is complete without it.
   Works from the file system, needs no network, and may be loaded by a theme that exchanges pages in place. */
(function () {
  "use strict";
  if (window.methodSheets) return;
  window.methodSheets = true;

  var root = document.documentElement;
  var defaultUnits = "{{units}}";
  var workshopUnits = "{{workshops}}";
  var GAP = "\u202f";

  /* What the reader chose, kept in the browser; a browser that keeps nothing still works. */
  var memory = {};
  function recall(key) {
    try { var kept = localStorage.getItem("methodsheets:" + key); return kept === null ? (memory[key] === undefined ? null : memory[key]) : kept; }
    catch (error) { return memory[key] === undefined ? null : memory[key]; }
  }
  function keep(key, value) {
    memory[key] = value;
    try { if (value === null) localStorage.removeItem("methodsheets:" + key); else localStorage.setItem("methodsheets:" + key, value); }
    catch (error) { /* private window: the choice lasts as long as the page */ }
  }
  function all(selector, from) { return Array.prototype.slice.call((from || document).querySelectorAll(selector)); }
  function one(selector, from) { return (from || document).querySelector(selector); }

  /* Units: as the reader chose, else as the workshop thinks that the reader chose */
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
  function applyUnits() {
    var inch = units() === "inch";
    all(".ms-q[data-inch]").forEach(function (element) {
      if (!element.hasAttribute("data-metric")) element.setAttribute("data-metric", element.textContent);
      show(element, element.getAttribute(inch ? "data-inch" : "data-metric"));
    });
    all('input[name="ms-units"]').forEach(function (radio) { radio.checked = radio.value === units(); });
    root.setAttribute("data-ms-units", units());
    fillSheet();
  }

  /* Workshop */
  function applyWorkshop() {
    var radios = all('input[name="ms-workshop"]');
    root.removeAttribute("data-ms-workshop");
    if (!radios.length) return;
    var wanted = recall("workshop");
    var known = radios.some(function (radio) { return radio.value === wanted; });
    radios.forEach(function (radio) {
      radio.checked = known ? radio.value === wanted : radio.defaultChecked;
      if (radio.checked) root.setAttribute("data-ms-workshop", radio.value);
    });
    all("img[data-ms-drawing]").forEach(function (image) { if (image.getClientRects().length) image.loading = "eager"; });
  }

  /* The bench sheet: ticks and blanks live under one key; each write changes only its own entry, so two tabs do not fight. */
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
  function number(text) {
    var clean = String(text).trim().replace(",", ".");
    return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(clean) ? parseFloat(clean) : NaN;
  }
  function isLength(input) { var role = input.getAttribute("data-ms-role"); return role === "measured" || role === "base"; }
  function shown(mm) { return units() === "inch" ? (mm / 25.4).toFixed(4) : String(+mm.toFixed(4)); }
  function inMm(value) { return units() === "inch" ? value * 25.4 : value; }

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

  /* Sizes outside their limits are marked; sums "measured + so much = make" are filled in. */
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
        if (sum) sum.textContent = typeof value === "number" ? shown(value + low) + " to " + shown(value + high) : "";
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

  function csvCell(value) { var text = String(value); return /[",\r\n]/.test(text) ? '"' + text.replace(/"/g, '""') + '"' : text; }
  function today() {
    var now = new Date();
    return now.getFullYear() + "-" + String(now.getMonth() + 1).padStart(2, "0") + "-" + String(now.getDate()).padStart(2, "0");
  }
  function records() {
    var state = written(), date = today(), slug = sheet().getAttribute("data-ms-sheet"), batch = state.batch || date;
    var lines = [["date", "batch", "method", "operation", "limit", "part", "measured_mm", "minutes", "note"]], seen = {};
    function add(key, line) { if (!seen[key]) { seen[key] = true; lines.push(line); } }
    all("[data-ms-op]", sheet()).forEach(function (card) {
      var operation = card.getAttribute("data-ms-op");
      all("[data-ms-limit]", card).forEach(function (group) {
        all('input[data-ms-role="measured"]', group).forEach(function (input) {
          var key = input.getAttribute("data-ms-key");
          if (typeof state[key] !== "number") return;
          add(key, [date, batch, slug, operation, group.getAttribute("data-ms-limit"), input.getAttribute("data-ms-part"), +state[key].toFixed(5), "", ""]);
        });
      });
      var taken = number(state["minutes-" + operation] || ""), note = state["note-" + operation] || "";
      if (!isNaN(taken) || note) add("op-" + operation, [date, batch, slug, operation, "", "", "", isNaN(taken) ? "" : taken, note]);
    });
    if (state.remarks) add("remarks", [date, batch, slug, "0", "", "", "", "", state.remarks]);
    return lines;
  }
  function save() {
    var lines = records();
    if (lines.length === 1) { say("Nothing is written in yet."); return; }
    var text = lines.map(function (line) { return line.map(csvCell).join(","); }).join("\r\n") + "\r\n";
    var link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([text], { type: "text/csv" }));
    link.download = sheet().getAttribute("data-ms-sheet") + "-" + today() + ".csv";
    document.body.appendChild(link);
    link.click();
    document.body.removeChild(link);
    setTimeout(function () { URL.revokeObjectURL(link.href); }, 10000);
    say((lines.length - 1) + " lines saved as " + link.download + ". Put the file into the records folder of the methods.");
  }

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

  function setPaper(name) {
    var rules = one("#ms-paper");
    if (!rules) { rules = document.createElement("style"); rules.id = "ms-paper"; document.head.appendChild(rules); }
    root.setAttribute("data-ms-paper", name);
    rules.textContent = { a4: "@page{size:A4}", letter: "@page{size:Letter}", a5: "@page{size:A5}" }[name] || "";
  }
  function onlySetup(number) {
    all("[data-ms-setup]", sheet()).forEach(function (part) { part.hidden = number !== "all" && part.getAttribute("data-ms-setup") !== number; });
  }

  /* The list of methods */
  function filterIndex() {
    var table = one("table.ms-index");
    if (!table) return;
    var words = "", facets = {}, size = NaN, minutes = NaN;
    all(".ms-filters [data-ms-do]").forEach(function (control) {
      var name = control.getAttribute("data-ms-do"), value = control.value || "";
      if (name === "find") words = value.toLowerCase().trim();
      else if (name === "facet-size") size = number(value);
      else if (name === "facet-time") minutes = number(value);
      else if (name.indexOf("facet-") === 0 && value) facets[name.slice(6)] = value;
    });
    var count = 0;
    all("tbody tr", table).forEach(function (row) {
      var text = row.getAttribute("data-ms-words") + " " + row.textContent.toLowerCase();
      var fits = words.split(/\s+/).every(function (word) { return text.indexOf(word) >= 0; });
      Object.keys(facets).forEach(function (key) {
        fits = fits && ("|" + (row.getAttribute("data-ms-" + key) || "") + "|").indexOf("|" + facets[key] + "|") >= 0;
      });
      if (!isNaN(size)) fits = fits && parseFloat(row.getAttribute("data-ms-size")) <= size;
      if (!isNaN(minutes)) fits = fits && minutesOf(row) <= minutes;
      row.hidden = !fits;
      count += fits ? 1 : 0;
    });
    all(".ms-count").forEach(function (element) { element.textContent = count + (count === 1 ? " method" : " methods"); });
  }
  function minutesOf(row) {
    var shop = root.getAttribute("data-ms-workshop"), given = shop && row.getAttribute("data-ms-minutes-" + shop);
    return given === null || given === undefined || given === "" ? NaN : parseFloat(given);
  }
  function makeSortable() {
    all("table.ms-index thead th").forEach(function (head, column) {
      if (one("button", head)) return;
      var button = document.createElement("button");
      button.type = "button";
      button.textContent = head.textContent;
      button.setAttribute("data-ms-do", "sort");
      button.setAttribute("data-ms-column", column);
      head.textContent = "";
      head.appendChild(button);
    });
  }
  function sortIndex(button) {
    var head = button.parentNode, table = head.closest("table"), column = +button.getAttribute("data-ms-column");
    var up = head.getAttribute("aria-sort") !== "ascending";
    all("th[aria-sort]", table).forEach(function (other) { other.removeAttribute("aria-sort"); });
    head.setAttribute("aria-sort", up ? "ascending" : "descending");
    var isTime = /time/i.test(button.textContent);
    function key(row) { return isTime ? minutesOf(row) || 0 : row.children[column].textContent.trim().toLowerCase(); }
    var body = table.tBodies[0];
    all("tr", body).sort(function (a, b) {
      var x = key(a), y = key(b);
      if (!isTime && !isNaN(parseFloat(x)) && !isNaN(parseFloat(y))) { x = parseFloat(x); y = parseFloat(y); }
      return (x < y ? -1 : x > y ? 1 : 0) * (up ? 1 : -1);
    }).forEach(function (row) { body.appendChild(row); });
  }

  /* How long ago a day was, as the reader's own calendar has it */
  function ages() {
    all("[data-ms-date]").forEach(function (element) {
      var then = Date.parse(element.getAttribute("data-ms-date") + "T00:00:00"), days = Math.floor((Date.now() - then) / 86400000);
      if (isNaN(days) || days < 0) { element.textContent = ""; return; }
      var many = days < 60 ? [days, "day"] : days < 730 ? [Math.floor(days / 30.44), "month"] : [Math.floor(days / 365.25), "year"];
      element.textContent = days === 0 ? "(today)" : "(" + many[0] + " " + many[1] + (many[0] === 1 ? "" : "s") + " ago)";
    });
  }

  /* One set of listeners for all pages */
  document.addEventListener("change", function (event) {
    var target = event.target, action = target.getAttribute && target.getAttribute("data-ms-do");
    if (target.name === "ms-units") { keep("units", target.value); applyUnits(); }
    else if (target.name === "ms-workshop") { keep("workshop", target.value); applyWorkshop(); applyUnits(); filterIndex(); }
    else if (action === "paper") setPaper(target.value);
    else if (action === "only-setup") onlySetup(target.value);
    else if (action === "parts") { write("parts", parseInt(target.value, 10) || null); fillSheet(); }
    else if (action) filterIndex();
    else if (target.type === "checkbox" && target.hasAttribute("data-ms-key")) { write(target.getAttribute("data-ms-key"), target.checked); fillSheet(); }
    else if (target.hasAttribute && target.hasAttribute("data-ms-key")) fillSheet();
  });
  document.addEventListener("input", function (event) {
    var target = event.target;
    if (!target.getAttribute) return;
    if (target.hasAttribute("data-ms-key") && target.type !== "checkbox") {
      var value = number(target.value);
      if (isLength(target)) write(target.getAttribute("data-ms-key"), isNaN(value) ? target.value : inMm(value));
      else write(target.getAttribute("data-ms-key"), target.value);
      workOut();
    } else if (target.closest(".ms-filters")) filterIndex();
  });
  document.addEventListener("click", function (event) {
    if (event.target.name === "ms-units") keep("units", event.target.value); /* also the units that are shown already: no change, but a choice */
    var button = event.target.closest ? event.target.closest("button[data-ms-do]") : null;
    if (!button) return;
    var action = button.getAttribute("data-ms-do");
    if (action === "print") window.print();
    else if (action === "save") save();
    else if (action === "sort") sortIndex(button);
    else if (action === "large") { var wanted = !root.classList.contains("ms-large"); keep("large", wanted ? "yes" : null); setLarge(wanted); say(""); awake(wanted); }
    else if (action === "clear" && window.confirm("Clear all ticks and blanks of this sheet on this device?")) { keep(sheetKey(), null); fillSheet(); say("Cleared."); }
    else if (action === "clear-filters") { all(".ms-filters input, .ms-filters select").forEach(function (control) { control.value = ""; }); filterIndex(); }
  });
  window.addEventListener("storage", function (event) {
    if (event.key === "methodsheets:units") applyUnits();
    else if (event.key === "methodsheets:workshop") { applyWorkshop(); applyUnits(); }
    else if (sheet() && event.key === "methodsheets:" + sheetKey()) { delete memory[sheetKey()]; fillSheet(); }
  });

  /* What is wider than its place is scrolled by keyboard too; the theme's search gets the name that it lacks. */
  document.addEventListener("toggle", function (event) {
    if (event.target.open) all("p.ms-formula", event.target).forEach(function (line) {
      if (line.scrollWidth <= line.clientWidth) return;
      line.tabIndex = 0;
      line.setAttribute("role", "group");
      line.setAttribute("aria-label", "Formula");
    });
  }, true);

  function begin() {
    root.classList.add("ms-on");
    all('[role="dialog"]:not([aria-label]):not([aria-labelledby])').forEach(function (dialog) { dialog.setAttribute("aria-label", "Search"); });
    applyWorkshop();
    applyUnits();
    all("[data-ms-address]").forEach(function (element) { element.textContent = location.href.split("#")[0]; });
    setLarge(!!sheet() && recall("large") === "yes");
    makeSortable();
    filterIndex();
    ages();
  }
  if (window.document$ && window.document$.subscribe) window.document$.subscribe(begin);
  else if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", begin);
  else begin();
})();
