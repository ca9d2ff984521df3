/* Which methods are listed, and in which order? */

function filterIndex() {
  var table = one("table.ms-index");
  if (!table) return;
  var words = "", facets = {}, size = NaN, minutes = NaN, able = false;
  all(".ms-filters [data-ms-do]").forEach(function (control) {
    var name = control.getAttribute("data-ms-do"), value = control.value || "";
    if (name === "find") words = value.toLowerCase().trim();
    else if (name === "can-make") able = value === "works";
    else if (name === "facet-size") size = number(value);
    else if (name === "facet-time") minutes = number(value);
    else if (name.indexOf("facet-") === 0 && value) facets[name.slice(6)] = value;
  });
  var count = 0;
  all("[data-ms-words]").forEach(function (row) {
    var text = row.getAttribute("data-ms-words") + " " + row.textContent.toLowerCase();
    var fits = words.split(/\s+/).every(function (word) { return text.indexOf(word) >= 0; });
    Object.keys(facets).forEach(function (key) { fits = fits && has(row, key, facets[key]); });
    if (able) fits = fits && has(row, "works", root.getAttribute("data-ms-workshop") || "");
    if (!isNaN(size)) fits = fits && parseFloat(row.getAttribute("data-ms-size")) <= size;
    if (!isNaN(minutes)) fits = fits && minutesOf(row) <= minutes;
    row.hidden = !fits;
    count += fits && row.tagName === "TR" ? 1 : 0;
  });
  all(".ms-count").forEach(function (element) { element.textContent = count + (count === 1 ? " method" : " methods"); });
}
function has(row, key, value) {
  return ("|" + (row.getAttribute("data-ms-" + key) || "") + "|").indexOf("|" + value + "|") >= 0;
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
