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
function piece(pieces, said) { /* one entry of a place: "0@small" */
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
  var link = one("a.ms-later", details);
  if (!link) return;
  fetchBeside(link.href.split("#")[0].replace(/\.html$/, ".js"), function (told) {
    if (!link.parentNode) return;
    told.places[details.getAttribute("data-ms-later") - 1].split(" ").forEach(function (said) { details.insertBefore(piece(told.pieces, said), link); });
    link.remove();
    applyUnits(details);
    widened(details);
  });
}
