/* Has the lettering come? Until then nothing is seen, so that no line is broken anew before the reader's eyes; nor
   until what the reader chose on another page is shown on this one. It stands in the head, in front of all else. */
(function () {
  var root = document.documentElement, wanted = document.fonts ? [] : null;
  if (!wanted) return;
  function show() { root.removeAttribute("data-ms-waits"); }
  root.setAttribute("data-ms-waits", "");
  ["500", "700"].forEach(function (weight) { wanted.push(document.fonts.load(weight + ' 1em "Method Sheets"')); });
  var kept = false;
  try { for (var at = 0; at < localStorage.length; at += 1) kept = kept || localStorage.key(at).indexOf("methodsheets:") === 0; }
  catch (error) { /* a browser that keeps nothing has nothing to show again */ }
  if (kept) wanted.push(new Promise(function (done) {
    document.addEventListener("ms-arrived", done);
    window.addEventListener("load", done); /* should our script be missing */
  }));
  Promise.all(wanted).then(show, show);
  setTimeout(show, 3000);
})();
