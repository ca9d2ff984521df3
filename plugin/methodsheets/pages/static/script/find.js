/* What answers to what was typed? The same finder for the search window and for the list of methods. */

var home = document.currentScript && document.currentScript.src ? document.currentScript.src.replace(/assets\/methodsheets\/[^/]*$/, "") : "";
var finder = null;
function findReady(then, failed) {
  if (finder) { then(finder); return; }
  fetchBeside(home + "assets/methodsheets/find.js", function (found) { finder = found; then(found); }, failed || function () {});
}
var KEPT_RESULTS = 12;
function showFound(box) {
  var place = one(".md-search__scrollwrap");
  if (!place) return;
  var list = one(".ms-found", place);
  if (!list) { list = document.createElement("div"); list.className = "ms-found"; place.insertBefore(list, place.firstChild); }
  var typed = box.value.trim();
  list.textContent = "";
  list.hidden = !typed;
  if (!typed) return;
  findReady(function (find) {
    if (box.value.trim() !== typed) return;
    list.textContent = "";
    var found = find(typed);
    var head = list.appendChild(document.createElement("p"));
    head.className = "ms-found-head";
    head.setAttribute("role", "status");
    head.textContent = found.length ? (found.length === 1 ? "1 answer" : found.length + " answers") + (found[0].near ? " to what may have been meant" : "") : "Nothing in the handbook's own index";
    found.slice(0, KEPT_RESULTS).forEach(function (answer) { list.appendChild(answerLink(answer)); });
  });
}
function answerLink(answer) {
  var link = document.createElement("a"), words = document.createElement("span");
  link.className = "ms-hit";
  link.href = home + answer.url;
  if (answer.picture) {
    var image = document.createElement("img");
    image.src = home + answer.picture; image.alt = ""; image.width = 72; image.height = 54; image.loading = "lazy";
    link.appendChild(image);
  }
  words.className = "ms-hit-words";
  [["b", answer.title], ["i", answer.kind + (answer.part && answer.part !== answer.title ? ", " + answer.part : "")], ["span", answer.why]].forEach(function (pair) {
    if (!pair[1]) return;
    var part = words.appendChild(document.createElement(pair[0]));
    part.textContent = pair[1];
  });
  link.appendChild(words);
  return link;
}
document.addEventListener("input", function (event) {
  if (event.target.getAttribute && event.target.getAttribute("data-md-component") === "search-query") showFound(event.target);
});
document.addEventListener("keydown", function (event) {
  var first = event.key === "Enter" && event.target.getAttribute && event.target.getAttribute("data-md-component") === "search-query" && one(".ms-found .ms-hit");
  if (!first) return;
  event.preventDefault();
  event.stopPropagation();
  first.click();
}, true);
