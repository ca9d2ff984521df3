/* Search from a memory stick. Browsers allow no worker on a page opened from a disk; this runs the worker's script in a
   hidden frame instead, so that a handbook copied to a stick can be searched without a network. Our own, nothing fetched. */
(function () {
  "use strict";
  if (location.protocol !== "file:") return;

  class FrameWorker extends EventTarget {
    constructor(url) {
      super();
      this.onmessage = null;
      this.onerror = null;
      this.waiting = [];
      const frame = document.createElement("iframe");
      frame.hidden = true;
      frame.title = "Search";
      frame.setAttribute("aria-hidden", "true");
      frame.tabIndex = -1;
      document.body.appendChild(frame);
      this.frame = frame;
      const inner = frame.contentWindow;
      const answer = (data) => {
        const event = new MessageEvent("message", { data: copied(data, window) });
        this.dispatchEvent(event);
        if (this.onmessage) this.onmessage(event);
      };
      inner.document.open();
      inner.document.write("<!doctype html><html lang='en'><head><title>Search</title></head><body></body></html>");
      inner.document.close();
      inner.postMessage = answer;
      inner.importScripts = (...urls) => urls.reduce((before, next) => before.then(() => load(inner, next)), Promise.resolve());
      load(inner, String(url)).then(() => {
        this.ready = true;
        this.waiting.splice(0).forEach((data) => this.postMessage(data));
      }, (error) => { if (this.onerror) this.onerror(error); });
    }
    postMessage(data) {
      if (!this.ready) { this.waiting.push(data); return; }
      const inner = this.frame.contentWindow;
      inner.dispatchEvent(new inner.MessageEvent("message", { data: copied(data, inner) }));
    }
    terminate() { this.frame.remove(); }
  }

  function copied(data, realm) { return realm.structuredClone ? realm.structuredClone(data) : JSON.parse(JSON.stringify(data)); }
  function load(inner, url) {
    return new Promise((done, failed) => {
      const script = inner.document.createElement("script");
      script.src = new URL(url, location.href).href;
      script.onload = done;
      script.onerror = failed;
      inner.document.head.appendChild(script);
    });
  }

  window.IFrameWorker = window.Worker = FrameWorker;
})();
