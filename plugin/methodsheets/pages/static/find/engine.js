/* Which methods, chapters and words answer to what somebody typed, and which line of them tells why? */

function methodSheetsFinder(given) {
  "use strict";
  var single = {}, phrases = [], from = ["t", "p", "what", "material", "held", "done", "tool", "fit", "stock", "machine", "more", "also"];
  given.alike.forEach(function (group) {
    group.forEach(function (word) {
      if (word.indexOf(" ") >= 0) phrases.push([new RegExp("(^|[^a-z0-9])" + word.split(" ").join("[\\s-]+") + "(?![a-z0-9])", "g"), "$1" + group[0]]);
      else single[singular(word)] = stem(group[0]);
    });
  });
  phrases.sort(function (a, b) { return b[0].source.length - a[0].source.length; });
  function singular(word) { return word.length > 3 && !/[0-9]/.test(word) ? word.replace(/([^s])s$/, "$1") : word; }
  function stem(word) {
    if (/[0-9]/.test(word)) return word.replace(/^0+(?=\d)/, "");
    var cut = singular(word);
    if (cut.length > 4) cut = cut.replace(/(ing|ed)$/, "").replace(/([^lsz])\1$/, "$1");
    return cut.length > 3 ? cut.replace(/e$/, "") : cut;
  }
  function bare(plain) { return plain.split(/[^a-z0-9./]+/).map(function (word) { return word.replace(/^[./]+|[./]+$/g, ""); }).filter(Boolean); }
  function known(word) { var key = singular(word); return Object.prototype.hasOwnProperty.call(single, key) ? single[key] : stem(word); }
  function plainly(text) {
    return text.toLowerCase().replace(/[Øø⌀]/g, " ").replace(/(\d)\s*[×x]\s*(?=\d)/g, "$1x").replace(/["″]/g, " in ").replace(/(\d)\s*(mm|in)\b/g, "$1 ");
  }
  function alike(plain) {
    phrases.forEach(function (pair) { plain = plain.replace(pair[0], pair[1]); });
    return bare(plain).map(known);
  }
  /* What was typed stands for its whole group of words; what is written is found as it stands, too. */
  function typed(text) { return alike(plainly(text)); }
  function words(text) { var plain = plainly(text), own = bare(plain).map(stem); return own.concat(alike(plain).filter(function (word) { return own.indexOf(word) < 0; })); }
  var COMMON = { a: 1, an: 1, the: 1, of: 1, to: 1, in: 1, on: 1, at: 1, and: 1, or: 1, for: 1, with: 1, by: 1, is: 1, how: 1, what: 1 };
  var index = new MiniSearch({
    idField: "id", fields: from, tokenize: words,
    processTerm: function (term) { return COMMON[term] ? null : term; },
    searchOptions: { tokenize: typed },
    extractField: function (doc, name) {
      if (name === "id") return doc.id;
      if (name === "t" || name === "p") return doc[name];
      return doc.l.filter(function (line) { return line[0] === name; }).map(function (line) { return line[1]; }).join(" \n ");
    }
  });
  given.docs.forEach(function (doc, number) { doc.id = number; });
  index.addAll(given.docs);
  var weight = { t: 9, p: 4, what: 2.5, material: 4, held: 3, done: 2, tool: 2, fit: 3, stock: 1.5, machine: 1, more: 0.5, also: 1 };
  var kinds = { Method: 1.35, Comparison: 0.9, Chapter: 1.15, Word: 0.3, Workshop: 0.5 };
  function asked(text, exact, together) {
    return index.search(text, {
      combineWith: together ? "AND" : "OR", boost: weight, weights: { fuzzy: 0.35, prefix: 0.3 },
      prefix: function (term, at, all) { return at === all.length - 1 && term.length > 2 && !/[0-9]$/.test(term); },
      fuzzy: function (term) { return exact || /[0-9]/.test(term) || term.length < 4 ? 0 : term.length < 7 ? 1 : 2; },
      boostDocument: function (id) { return kinds[given.docs[id].k] || 1; }
    });
  }
  /* A slip of the pen seldom changes the first letter; what answers much worse than the best is chance. */
  function slips(text) {
    var all = asked(text, false, true), best = all.length ? all[0].score : 0;
    return all.filter(function (one) {
      return one.score > best / 4 && one.queryTerms.every(function (wanted) { return one.terms.some(function (term) { return term[0] === wanted[0]; }); });
    });
  }
  function why(doc, terms) {
    var best = "", most = 0;
    doc.l.forEach(function (line) {
      var own = words(line[1]), count = terms.filter(function (term) { return own.indexOf(term) >= 0; }).length;
      if (count > most) { most = count; best = line[0] === "also" ? "Also: " + shortened(line[1], terms) : line[1]; }
    });
    return best.length > 120 ? shortened(best, terms) : best;
  }
  function shortened(line, terms) {
    var piece = line.split(/, |\. /).filter(function (part) { return words(part).some(function (word) { return terms.indexOf(word) >= 0; }); })[0];
    return piece || line.slice(0, 117) + "…";
  }
  /* All that answers, the best first: as it was typed, else with a slip of the pen. */
  return function (text) {
    var found = asked(text, true, true), near = false;
    if (!found.length) { near = true; found = slips(text); }
    if (!found.length) found = asked(text, true, false);
    return found.map(function (one) {
      var doc = given.docs[one.id];
      return { url: doc.u, title: doc.t, kind: doc.k, part: doc.p, picture: doc.i, slug: doc.s, why: why(doc, one.terms), near: near };
    });
  };
}
