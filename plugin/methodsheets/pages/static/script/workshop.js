/* Which workshop is shown? */

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
