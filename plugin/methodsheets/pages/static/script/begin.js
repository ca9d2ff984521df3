/* What is done when a page has come, for the first time or in place of another? */

function begin() {
  root.classList.add("ms-on");
  all('[role="dialog"]:not([aria-label]):not([aria-labelledby])').forEach(function (dialog) { dialog.setAttribute("aria-label", "Search"); });
  applyWorkshop();
  applyUnits();
  all("[data-ms-address]").forEach(function (element) { element.textContent = location.href.split("#")[0]; });
  setLarge(!!sheet() && recall("large") === "yes");
  if (sheet() && recall("view") === sheet().getAttribute("data-ms-sheet")) openView();
  else if (wantsAwake()) awake(true);
  makeSortable();
  takeFilters();
  filterIndex();
  ages();
}
if (window.document$ && window.document$.subscribe) window.document$.subscribe(begin);
else if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", begin);
else begin();
