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
}
/* Paper shows what no reader has scrolled to. */
window.addEventListener("beforeprint", function () { all("img[data-ms-drawing]").forEach(function (image) { image.loading = "eager"; }); });
