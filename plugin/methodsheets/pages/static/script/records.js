/* How does what was measured leave the browser? As a CSV file; everything that is written leaves, also for parts no longer shown. */

var MOST_PARTS = 40;

/* A spreadsheet takes words that begin so for a formula; an apostrophe keeps them words. */
function plain(value) { return typeof value === "string" && /^[=+\-@\t\r]/.test(value) ? "'" + value : value; }
function csvCell(value) { var text = String(plain(value)); return /[",\r\n]/.test(text) ? '"' + text.replace(/"/g, '""') + '"' : text; }

function shopShown() {
  var chosen = root.getAttribute("data-ms-workshop"), switches = one("[data-ms-own]");
  return chosen || (sheet() && sheet().getAttribute("data-ms-workshop-key")) || (switches && switches.getAttribute("data-ms-own")) || "";
}
function records() {
  var state = written(), slug = sheet().getAttribute("data-ms-sheet"), revision = sheet().getAttribute("data-ms-revision") || "";
  var who = state["made-by"] || "", shop = shopShown(), seen = {};
  var days = Object.keys(state).filter(function (key) { return key.indexOf("day ") === 0; }).map(function (key) { return state[key]; }).sort();
  var batch = state.batch || days[0] || today();
  var lines = [["date", "batch", "method", "revision", "workshop", "by", "operation", "limit", "part", "measured_mm", "minutes", "note"]];
  function add(key, operation, limit, part, measured, minutes, note) {
    if (seen[key]) return;
    seen[key] = true;
    var day = state["day " + key] || today();
    lines.push([day, batch, slug, revision, shop, who, operation, limit, part, measured, minutes, note]);
  }
  all("[data-ms-op]", sheet()).forEach(function (card) {
    var operation = card.getAttribute("data-ms-op"), time = "minutes-" + operation, remark = "note-" + operation;
    all("[data-ms-size]", card).forEach(function (group) {
      for (var part = 1; part <= MOST_PARTS; part += 1) {
        var key = group.getAttribute("data-ms-size") + "-" + part, value = state[key], limit = group.getAttribute("data-ms-limit");
        if (typeof value === "number") add(key, operation, limit, part, +value.toFixed(5), "", "");
        else if (value) add(key, operation, limit, part, "", "", "written, not read as a size: " + value);
      }
    });
    var taken = state[time] ? minutesIn(state[time]) : NaN, said = state[remark] || "";
    if (state[time] && isNaN(taken)) said = "written, not read as a time: " + state[time] + (said ? "; " + said : "");
    if (state[time] || state[remark]) add(state[time] ? time : remark, operation, "", "", "", isNaN(taken) ? "" : +taken.toFixed(3), said);
  });
  if (state.remarks) add("remarks", "0", "", "", "", "", state.remarks);
  return lines;
}
function save() {
  var lines = records();
  if (lines.length === 1) { say("Nothing is written in yet."); return; }
  var text = lines.map(function (line) { return line.map(csvCell).join(","); }).join("\r\n") + "\r\n";
  var link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: "text/csv" }));
  link.download = sheet().getAttribute("data-ms-sheet") + "-" + today() + ".csv";
  document.body.appendChild(link);
  link.click();
  document.body.removeChild(link);
  setTimeout(function () { URL.revokeObjectURL(link.href); }, 10000);
  say((lines.length - 1) + " lines saved as " + link.download + ". Put the file into the records folder of the methods.");
}
