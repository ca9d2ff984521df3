/* Which methods are listed, and in which order? */

var FILTERS = ".ms-filters input[data-ms-do], .ms-filters select[data-ms-do]";
function filterIndex() {
  if (!one("table.ms-index")) return;
  var typed = one('.ms-filters [data-ms-do="find"]'), words = typed ? typed.value.trim() : "";
  keepFilters();
  if (!words) { showRows(null); return; }
  findReady(function (find) {
    if (typed.value.trim() !== words) return;
    var found = {};
    find(words).forEach(function (answer, place) { if (answer.slug && !answer.near) found[answer.slug] = [place + 1, answer.why]; });
    if (!Object.keys(found).length) find(words).forEach(function (answer, place) { if (answer.slug) found[answer.slug] = [place + 1, answer.why]; });
    showRows(function (row) { return found[row.getAttribute("data-ms-slug")]; });
  }, function () {
    showRows(function (row) {
      var text = row.getAttribute("data-ms-words") + " " + row.textContent.toLowerCase();
      return words.toLowerCase().split(/\s+/).every(function (word) { return text.indexOf(word) >= 0; }) ? [0, ""] : null;
    });
  });
}
/* `answers` gives [place among the answers, why] of a row, or nothing; without it all are shown. */
function showRows(answers) {
  var facets = {}, size = NaN, minutes = NaN, able = "", count = 0;
  all(FILTERS).forEach(function (control) {
    var name = control.getAttribute("data-ms-do"), value = control.value || "";
    if (name === "can-make") able = value;
    else if (name === "facet-size") size = number(value);
    else if (name === "facet-time") minutes = number(value);
    else if (name.indexOf("facet-") === 0 && value) facets[name.slice(6)] = value;
  });
  all("[data-ms-words]").forEach(function (row) {
    var answer = answers ? answers(row) : null, fits = !answers || !!answer, why = one(".ms-why", row);
    Object.keys(facets).forEach(function (key) { fits = fits && has(row, key, facets[key]); });
    if (able) fits = fits && has(row, able, root.getAttribute("data-ms-workshop") || "");
    if (!isNaN(size)) fits = fits && parseFloat(row.getAttribute("data-ms-size")) <= size;
    if (!isNaN(minutes)) fits = fits && minutesOf(row) <= minutes;
    row.hidden = !fits;
    row.style.order = answer ? answer[0] : "";
    if (row.tagName !== "TR") {
      if (!why) { why = row.appendChild(document.createElement("p")); why.className = "ms-why"; }
      why.textContent = answer ? answer[1] : "";
      why.hidden = !why.textContent;
    }
    count += fits && row.tagName === "TR" ? 1 : 0;
  });
  all(".ms-count").forEach(function (element) { element.textContent = count + (count === 1 ? " method" : " methods"); });
}
/* The filters stand behind the address, so that Back, a bookmark and a friend find the list as it was. */
function keepFilters() {
  var said = all(FILTERS).filter(function (control) { return control.value; }).map(function (control) {
    return encodeURIComponent(control.getAttribute("data-ms-do")) + "=" + encodeURIComponent(control.value);
  }).join("&");
  if (said === location.hash.slice(1) || (!said && location.hash.indexOf("=") < 0)) return;
  try { history.replaceState(history.state, "", location.href.split("#")[0] + (said ? "#" + said : "")); } catch (error) { /* a browser that keeps no addresses of files */ }
}
function takeFilters() {
  if (location.hash.indexOf("=") < 0) return;
  location.hash.slice(1).split("&").forEach(function (pair) {
    var parts = pair.split("=").map(decodeURIComponent);
    all(FILTERS).forEach(function (control) { if (control.getAttribute("data-ms-do") === parts[0]) control.value = parts[1]; });
  });
}
window.addEventListener("pageshow", function (event) { if (event.persisted) filterIndex(); });
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
