/* What did the reader choose? Kept in the browser; a browser that keeps nothing still works. */

var root = document.documentElement;
var defaultUnits = "{{units}}";
var workshopUnits = "{{workshops}}";
var GAP = "\u202f";

var memory = {};
function recall(key) {
  try { var kept = localStorage.getItem("methodsheets:" + key); return kept === null ? (memory[key] === undefined ? null : memory[key]) : kept; }
  catch (error) { return memory[key] === undefined ? null : memory[key]; }
}
function keep(key, value) {
  memory[key] = value;
  try { if (value === null) localStorage.removeItem("methodsheets:" + key); else localStorage.setItem("methodsheets:" + key, value); }
  catch (error) { /* private window: the choice lasts as long as the page */ }
}
function all(selector, from) { return Array.prototype.slice.call((from || document).querySelectorAll(selector)); }
function one(selector, from) { return (from || document).querySelector(selector); }
