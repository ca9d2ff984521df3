/* Which workshop is shown? */

function applyWorkshop(then) {
  var radios = all('input[name="ms-workshop"]'), wanted = recall("workshop"), chosen = "";
  if (!radios.length) { root.removeAttribute("data-ms-workshop"); then(); return; }
  var known = radios.some(function (radio) { return radio.value === wanted; });
  radios.forEach(function (radio) {
    radio.checked = known ? radio.value === wanted : radio.defaultChecked;
    if (radio.checked) chosen = radio.value;
  });
  bring(chosen, function () {
    if (radios.some(function (radio) { return radio.checked && radio.value !== chosen; })) return; /* chosen anew meanwhile */
    if (chosen) root.setAttribute("data-ms-workshop", chosen); else root.removeAttribute("data-ms-workshop");
    then();
  });
}
/* What a workshop sees lies beside the page until it is chosen; where it does not come, the author's stays. */
function bring(shop, then) {
  var from = one("[data-ms-beside]"), there = from && from.getAttribute("data-ms-there").split(" ");
  if (!from || !shop || there.indexOf(shop) >= 0) { then(); return; }
  var address = new URL(from.getAttribute("data-ms-beside") + encodeURIComponent(shop), location.href).href;
  fetchBeside(address + ".js", function (pieces) {
    if (from.getAttribute("data-ms-there").split(" ").indexOf(shop) < 0) {
      from.setAttribute("data-ms-there", from.getAttribute("data-ms-there") + " " + shop);
      var places = commented();
      if (!places.length) { location.replace(address + ".html"); return; } /* a host that strips comments: the page for that workshop */
      places.forEach(function (place) { putIn(place, pieces[place.data.slice(3)]); });
    }
    then();
  }, function () {
    all('input[name="ms-workshop"]').forEach(function (radio) { radio.checked = radio.defaultChecked; });
    root.setAttribute("data-ms-workshop", there[0]);
    window.alert("The file of that workshop is missing beside this page: " + address + ".js");
  });
}
function commented() {
  var walker = document.createTreeWalker(document.body, NodeFilter.SHOW_COMMENT), found = [];
  while (walker.nextNode()) if (walker.currentNode.data.indexOf("ms ") === 0) found.push(walker.currentNode);
  return found;
}
function putIn(place, told) {
  var there = place.there || (place.there = []);
  if (!told || there.indexOf(told[0]) >= 0) return; /* two workshops may share it */
  var spot = place.parentNode.insertBefore(document.createElement("span"), place);
  spot.insertAdjacentHTML("beforebegin", told[1]);
  spot.remove();
  there.push(told[0]);
}

/* Paper shows what no reader has scrolled to. */
window.addEventListener("beforeprint", function () { all("img[data-ms-drawing]").forEach(function (image) { image.loading = "eager"; }); });
