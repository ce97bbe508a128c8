// Every piece of text that a person can see or hear in the page, once, and the window's title. What is marked as of another language is left out.
window.words = () => {
  const found = new Set();
  const foreign = e => { const marked = e.closest('[lang]'); return marked && marked !== document.documentElement && marked.lang !== document.documentElement.lang; };
  const keep = (e, text) => { const plain = (text ?? '').replace(/\s+/g, ' ').trim(); if (plain && !foreign(e)) found.add(plain); };
  keep(document.documentElement, document.title);
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node; (node = walker.nextNode());) {
    const e = node.parentElement;
    if (e.closest('script, style, noscript, template, #blazor-error-ui')) continue;
    keep(e, node.data);
  }
  for (const e of document.querySelectorAll('[aria-label], [title], [alt], [placeholder], [aria-roledescription], [aria-valuetext]')) {
    for (const name of ['aria-label', 'title', 'alt', 'placeholder', 'aria-roledescription', 'aria-valuetext']) keep(e, e.getAttribute(name));
  }
  return [...found];
};
