/* What does one operation look like at arm's length? The bench view: one step fills the screen, made of what the sheet says.
   Next and back by button, by swipe, and by the keys that a foot pedal sends. */

var view = { steps: [], at: 0, since: 0, clock: 0, touch: null };

function shownOnSheet(element) { return element.getClientRects().length > 0; }
function viewSteps() {
  var steps = [];
  all(".ms-sheet-part", sheet()).filter(shownOnSheet).forEach(function (part) {
    steps.push({ kind: "setup", part: part });
    all("[data-ms-op]", part).filter(shownOnSheet).forEach(function (card) {
      var passes = all("table.ms-sheet-passes tbody tr", card).filter(shownOnSheet), sizes = all(".ms-sheet-limit", card).filter(shownOnSheet);
      passes.forEach(function (row) { steps.push({ kind: "pass", part: part, card: card, row: row }); });
      if (!passes.length) steps.push({ kind: "whole", part: part, card: card });
      if (sizes.length) steps.push({ kind: "sizes", part: part, card: card, sizes: sizes });
    });
  });
  return steps;
}
function copied(element) {
  var copy = element.cloneNode(true);
  all("[id]", copy).forEach(function (inner) { if (!inner.closest("svg")) inner.removeAttribute("id"); });
  copy.removeAttribute("id");
  all("a.headerlink", copy).forEach(function (mark) { mark.remove(); });
  all("svg", copy).forEach(namedAnew);
  return copy;
}
/* A drawing on the view and the same on the sheet may not share the names of their parts. */
function namedAnew(drawing) {
  var names = {}, parts = all("*", drawing).concat(drawing);
  parts.forEach(function (part) { if (part.id) names[part.id] = true; });
  parts.forEach(function (part) {
    Array.prototype.forEach.call(part.attributes, function (said) {
      if (/^(class|d|points|transform)$/.test(said.name)) return;
      var anew = said.value.replace(/[^\s#()"']+/g, function (word) { return names.hasOwnProperty(word) ? "view-" + word : word; });
      if (anew !== said.value) said.value = anew;
    });
  });
}
function made(tag, kind, words) {
  var element = document.createElement(tag);
  element.className = kind;
  if (words) element.textContent = words;
  return element;
}
function pressed(words, action, label) {
  var button = made("button", "ms-view-key", words);
  button.type = "button";
  button.setAttribute("data-ms-view", action);
  if (label) button.setAttribute("aria-label", label);
  return button;
}
function copyOf(selector, from, into) { all(selector, from).filter(shownOnSheet).forEach(function (found) { into.appendChild(copied(found)); }); }

function viewFrame() {
  var frame = made("section", "ms-view"), head = made("header", "ms-view-head"), foot = made("footer", "ms-view-foot"), body = made("div", "ms-view-body");
  frame.id = "ms-view";
  frame.setAttribute("role", "dialog");
  frame.setAttribute("aria-modal", "true");
  frame.setAttribute("aria-label", "At the machine");
  head.appendChild(made("p", "ms-view-where"));
  head.appendChild(made("p", "ms-view-state"));
  head.appendChild(pressed("Sheet", "close", "Back to the sheet"));
  foot.appendChild(pressed("‹ Back", "back"));
  foot.appendChild(pressed("Clock", "clock", "Let the time run, or stop it"));
  foot.appendChild(pressed("Next ›", "next"));
  body.tabIndex = 0; /* what is longer than the screen is moved by keys too */
  body.setAttribute("role", "group");
  body.setAttribute("aria-label", "The operation");
  [head, body, foot].forEach(function (element) { frame.appendChild(element); });
  document.body.appendChild(frame);
  return frame;
}
function showStep() {
  var frame = one("#ms-view") || viewFrame(), step = view.steps[view.at], body = one(".ms-view-body", frame);
  if (!step) return;
  body.textContent = "";
  one(".ms-view-where", frame).textContent = [shopName(), units() === "inch" ? "inch" : "mm", view.at + 1 + " of " + view.steps.length].filter(Boolean).join(" · ");
  if (step.kind === "setup") {
    copyOf(".ms-sheet-setup, .ms-sheet-words, .ms-sheet-hold-words > .ms-sheet-facts, .ms-sheet-hold-words > .ms-sheet-caution, .ms-sheet-intro figure", step.part, body);
  } else {
    copyOf(".ms-sheet-op-head, .ms-sheet-tool", step.card, body);
    if (step.kind === "pass") body.appendChild(passInHand(step));
    if (step.kind === "sizes") step.sizes.forEach(function (size) { body.appendChild(copied(size)); });
    else copyOf(".ms-sheet-settings", step.card, body);
    if (step.kind === "sizes") body.appendChild(keypad());
    if (step.kind === "whole") copyOf(":scope > .ms-sheet-facts, :scope > .ms-scroll, :scope > .ms-notes", step.card, body);
    copyOf(":scope > .ms-sheet-caution", step.card, body);
    if (step.kind !== "sizes") copyOf(".ms-sheet-intro figure", step.part, body);
  }
  fillView();
  body.scrollTop = 0;
  one('[data-ms-view="back"]', frame).disabled = view.at === 0;
  one('[data-ms-view="next"]', frame).disabled = view.at === view.steps.length - 1;
  keep("view:" + sheetKey(), String(view.at));
}
/* The pass in hand: its number, what the dial reads, what it reaches, what is set anew, and its tick. */
function passInHand(step) {
  var place = made("div", "ms-view-pass"), cells = step.row.children, label = cells[2].getAttribute("data-label");
  var dial = made("p", "ms-view-dial");
  place.appendChild(made("p", "ms-view-small", "Pass " + cells[0].textContent + " · " + label));
  dial.appendChild(made("strong", "", cells[2].textContent.trim()));
  dial.appendChild(copied(one(".ms-tick", cells[3])));
  place.appendChild(dial);
  place.appendChild(made("p", "ms-view-small", "reaches " + cells[1].textContent.trim()));
  return place;
}
function keypad() {
  var pad = made("div", "ms-view-pad");
  "7 8 9 4 5 6 1 2 3 . 0 ⌫".split(" ").forEach(function (sign) { pad.appendChild(pressed(sign, "sign", sign === "⌫" ? "Take the last sign away" : sign)); });
  return pad;
}
function shopName() {
  var chosen = all('input[name="ms-workshop"]').filter(function (radio) { return radio.checked; })[0];
  return chosen ? chosen.parentNode.textContent.replace(/\(.*\)/, "").trim() : "";
}
/* Ticks and blanks of the view are those of the sheet: same keys, same memory, same marks. */
function fillView() {
  var frame = one("#ms-view"), state = written();
  if (!frame) return;
  all("[data-ms-key]", frame).forEach(function (input) {
    var twin = all("[data-ms-key]", sheet()).filter(function (other) { return other.getAttribute("data-ms-key") === input.getAttribute("data-ms-key"); })[0];
    if (input.type === "checkbox") { input.checked = state[input.getAttribute("data-ms-key")] === true; return; }
    if (!twin) return;
    if (input !== document.activeElement) input.value = twin.value;
    input.className = twin.className;
    input.setAttribute("aria-invalid", twin.getAttribute("aria-invalid") || "false");
  });
  all("[data-ms-sum]", frame).forEach(function (sum) {
    var key = sum.closest("[data-ms-make]").getAttribute("data-ms-make");
    var twin = all('[data-ms-sum="' + sum.getAttribute("data-ms-sum") + '"]', sheet()).filter(function (other) { return other.closest("[data-ms-make]").getAttribute("data-ms-make") === key; })[0];
    if (twin) sum.textContent = twin.textContent;
  });
}
function openView() {
  view.steps = viewSteps();
  if (!view.steps.length) return;
  view.at = Math.min(parseInt(recall("view:" + sheetKey()), 10) || 0, view.steps.length - 1);
  root.classList.add("ms-view-on");
  keep("view", sheet().getAttribute("data-ms-sheet"));
  showStep();
  one('[data-ms-view="next"]').focus();
  awake(true);
}
function closeView() {
  root.classList.remove("ms-view-on");
  keep("view", null);
  var frame = one("#ms-view"), opener = one('[data-ms-do="bench"]');
  if (frame) document.body.removeChild(frame);
  stopClock();
  if (opener) opener.focus();
  if (!root.classList.contains("ms-large")) awake(false);
}
function turnTo(way) {
  var at = view.at + way;
  if (at < 0 || at >= view.steps.length) return;
  view.at = at;
  showStep();
}
function stopClock() { clearInterval(view.clock); view.clock = 0; }
/* The time of the operation in hand; stopped, its minutes stand in the sheet. */
function turnClock() {
  var step = view.steps[view.at], button = one('[data-ms-view="clock"]');
  if (!view.clock && step.card) {
    view.since = Date.now();
    view.card = step.card;
    view.clock = setInterval(function () { var s = Math.floor((Date.now() - view.since) / 1000); button.textContent = Math.floor(s / 60) + ":" + String(s % 60).padStart(2, "0"); }, 500);
  } else if (view.clock) {
    stopClock();
    write("minutes-" + view.card.getAttribute("data-ms-op"), ((Date.now() - view.since) / 60000).toFixed(2));
    button.textContent = "Clock";
    fillSheet();
  }
}
function typeSign(sign) {
  var inputs = all('.ms-view-body input[data-ms-role="measured"]'), input = view.input && document.contains(view.input) ? view.input : inputs.filter(function (one) { return !one.value; })[0] || inputs[0];
  if (!input) return;
  view.input = input;
  input.value = sign === "⌫" ? input.value.slice(0, -1) : input.value + sign;
  input.dispatchEvent(new Event("input", { bubbles: true }));
}
document.addEventListener("click", function (event) {
  var button = event.target.closest ? event.target.closest("[data-ms-view]") : null, action = button && button.getAttribute("data-ms-view");
  if (action === "next") turnTo(1);
  else if (action === "back") turnTo(-1);
  else if (action === "close") closeView();
  else if (action === "clock") turnClock();
  else if (action === "sign") typeSign(button.textContent);
});
document.addEventListener("focusin", function (event) { if (event.target.closest(".ms-view-body") && event.target.getAttribute("data-ms-role") === "measured") view.input = event.target; });
document.addEventListener("keydown", function (event) {
  if (!root.classList.contains("ms-view-on")) return;
  if (event.key === "Escape") { closeView(); return; }
  if (event.target.type === "text") return;
  var way = { ArrowRight: 1, PageDown: 1, ArrowLeft: -1, PageUp: -1 }[event.key];
  if (way) { event.preventDefault(); turnTo(way); }
});
document.addEventListener("touchstart", function (event) { var t = event.changedTouches[0]; view.touch = event.target.closest(".ms-view") ? [t.clientX, t.clientY] : null; }, { passive: true });
document.addEventListener("touchend", function (event) {
  if (!view.touch) return;
  var t = event.changedTouches[0], across = t.clientX - view.touch[0], down = t.clientY - view.touch[1];
  if (Math.abs(across) > 60 && Math.abs(across) > 2 * Math.abs(down)) turnTo(across < 0 ? 1 : -1);
}, { passive: true });
