(() => {
  const shown = document.currentScript.dataset.version;
  let line = null;
  const leave = () => { if (line) line.close(); line = null; };
  // Only a page that is looked at listens: a browser keeps six connections to one host, and
  // the seventh page would never load.
  const listen = () => {
    if (document.hidden) return leave();
    if (line) return;
    line = new EventSource('/showroom/events');
    line.onmessage = (e) => { if (e.data !== shown) { leave(); location.reload(); } };
  };
  document.addEventListener('visibilitychange', listen);
  addEventListener('pagehide', leave);
  addEventListener('pageshow', listen);
  listen();
})();
