// Resolves when nothing in the page has changed for a while and no request is under way.
{
  let asked = 0;
  const ask = window.fetch;
  window.fetch = (...given) => { asked++; return ask(...given).finally(() => { asked--; }); };

  window.untilQuiet = (quietMs = 350, longestMs = 60000) => new Promise((resolve, reject) => {
    const begun = performance.now();
    let last = begun;
    const watch = new MutationObserver(() => { last = performance.now(); });
    watch.observe(document, { subtree: true, childList: true, attributes: true, characterData: true });
    const look = () => {
      const now = performance.now();
      if (asked > 0) last = now;
      if (now - last >= quietMs) { watch.disconnect(); resolve(); }
      else if (now - begun > longestMs) { watch.disconnect(); reject(new Error('The page does not come to rest.')); }
      else setTimeout(look, 50);
    };
    look();
  });
}
