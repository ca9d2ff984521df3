/* How long ago was a day, as the reader's own calendar has it? */

function ages() {
  all("[data-ms-date]").forEach(function (element) {
    var then = Date.parse(element.getAttribute("data-ms-date") + "T00:00:00"), days = Math.floor((Date.now() - then) / 86400000);
    if (isNaN(days) || days < 0) { element.textContent = ""; return; }
    var many = days < 60 ? [days, "day"] : days < 730 ? [Math.floor(days / 30.44), "month"] : [Math.floor(days / 365.25), "year"];
    element.textContent = days === 0 ? "(today)" : "(" + many[0] + " " + many[1] + (many[0] === 1 ? "" : "s") + " ago)";
  });
}
