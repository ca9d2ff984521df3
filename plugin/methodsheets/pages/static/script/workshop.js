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
      all("[data-ms-place]").forEach(function (place) { putIn(place, pieces[place.getAttribute("data-ms-place")]); });
    }
    then();
  }, function () {
    all('input[name="ms-workshop"]').forEach(function (radio) { radio.checked = radio.defaultChecked; });
    root.setAttribute("data-ms-workshop", there[0]);
    window.alert("The file of that workshop is missing beside this page: " + address + ".js");
  });
}
function putIn(place, told) {
  var there = place.getAttribute("data-ms-there") || "";
  if (!told || there.split(" ").indexOf(told[0]) >= 0) return; /* two workshops may share it */
  place.insertAdjacentHTML("beforebegin", told[1]);
  place.setAttribute("data-ms-there", there + " " + told[0]);
}

/* Paper shows what no reader has scrolled to. */
window.addEventListener("beforeprint", function () { all("img[data-ms-drawing]").forEach(function (image) { image.loading = "eager"; }); });
