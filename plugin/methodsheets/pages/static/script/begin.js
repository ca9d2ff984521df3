/* What is done when a page has come, for the first time or in place of another? */

function begin() {
  var lone = one("[data-ms-home]");
  if (lone) { /* the page of one workshop, for readers without scripts */
    keep("workshop", lone.getAttribute("data-ms-shop"));
    location.replace(new URL(lone.getAttribute("data-ms-home"), location.href).href + location.hash);
    return;
  }
  root.setAttribute("data-ms-on", "");
  all('[role="dialog"]:not([aria-label]):not([aria-labelledby])').forEach(function (dialog) { dialog.setAttribute("aria-label", "Search"); });
  applyWorkshop(arrive);
}
function arrive() {
  applyUnits();
  all("[data-ms-address]").forEach(function (element) { element.textContent = location.href.split("#")[0]; });
  setLarge(!!sheet() && recall("large") === "yes");
  if (sheet() && recall("view") === sheet().getAttribute("data-ms-sheet")) openView();
  else if (wantsAwake()) awake(true);
  makeSortable();
  takeFilters();
  filterIndex();
  ages();
  document.dispatchEvent(new Event("ms-arrived"));
}
if (window.document$ && window.document$.subscribe) window.document$.subscribe(begin);
else if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", begin);
else begin();
