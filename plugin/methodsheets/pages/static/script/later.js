/* What waits beside the page? It comes when it is opened, as a script file: from a disk a page may load no other. */

var arrived = null, beside = {};
window.methodSheetsTake = function (pieces) { arrived = pieces; };
function fetchBeside(address, then, failed) {
  var known = Object.prototype.hasOwnProperty.call(beside, address) ? beside[address] : (beside[address] = { pieces: null, waiting: [] });
  if (known.pieces) { then(known.pieces); return; }
  known.waiting.push([then, failed]);
  if (known.waiting.length > 1) return;
  var script = document.createElement("script");
  function done() {
    var waiting = known.waiting;
    known.pieces = arrived; known.waiting = []; arrived = null;
    script.remove();
    waiting.forEach(function (pair) { if (known.pieces) pair[0](known.pieces); else if (pair[1]) pair[1](); });
  }
  script.onload = script.onerror = done;
  script.src = address;
  document.head.appendChild(script);
}
function piece(pieces, said) {
  var words = said.split("@"), part = document.createElement("div");
  part.innerHTML = pieces[Number(words[0])] || "";
  if (words.length > 1) part.setAttribute("data-ms-for", words.slice(1).join(" "));
  if (words.length > 1 && words.indexOf(ownWorkshop()) < 0) part.className = "ms-other";
  return part;
}
function ownWorkshop() { var switches = one("[data-ms-own]"); return switches ? switches.getAttribute("data-ms-own") : ""; }
/* Paper shows no workings: a theme that opens everything for paper opens them in vain. */
var onPaper = false;
window.addEventListener("beforeprint", function () { onPaper = true; });
window.addEventListener("afterprint", function () { onPaper = false; });
function openLater(details) {
  if (onPaper) return;
  var place = one(".ms-later", details), link = place && one("a", place), said = details.getAttribute("data-ms-later");
  if (!link || !said) return;
  fetchBeside(link.href.split("#")[0].replace(/\.html$/, ".js"), function (pieces) {
    if (!place.parentNode) return;
    said.split(" ").forEach(function (one) { place.parentNode.insertBefore(piece(pieces, one), place); });
    place.remove();
    applyUnits(details);
    widened(details);
  });
}
