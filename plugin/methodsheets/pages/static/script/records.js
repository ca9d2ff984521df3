/* How does what was measured leave the browser? As a CSV file. */

function csvCell(value) { var text = String(value); return /[",\r\n]/.test(text) ? '"' + text.replace(/"/g, '""') + '"' : text; }
function today() {
  var now = new Date();
  return now.getFullYear() + "-" + String(now.getMonth() + 1).padStart(2, "0") + "-" + String(now.getDate()).padStart(2, "0");
}
function records() {
  var state = written(), date = today(), slug = sheet().getAttribute("data-ms-sheet"), batch = state.batch || date;
  var lines = [["date", "batch", "method", "operation", "limit", "part", "measured_mm", "minutes", "note"]], seen = {};
  function add(key, line) { if (!seen[key]) { seen[key] = true; lines.push(line); } }
  all("[data-ms-op]", sheet()).forEach(function (card) {
    var operation = card.getAttribute("data-ms-op");
    all("[data-ms-limit]", card).forEach(function (group) {
      all('input[data-ms-role="measured"]', group).forEach(function (input) {
        var key = input.getAttribute("data-ms-key");
        if (typeof state[key] !== "number") return;
        add(key, [date, batch, slug, operation, group.getAttribute("data-ms-limit"), input.getAttribute("data-ms-part"), +state[key].toFixed(5), "", ""]);
      });
    });
    var taken = number(state["minutes-" + operation] || ""), note = state["note-" + operation] || "";
    if (!isNaN(taken) || note) add("op-" + operation, [date, batch, slug, operation, "", "", "", isNaN(taken) ? "" : taken, note]);
  });
  if (state.remarks) add("remarks", [date, batch, slug, "0", "", "", "", "", state.remarks]);
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
