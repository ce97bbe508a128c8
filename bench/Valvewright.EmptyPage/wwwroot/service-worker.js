// While the page is being developed nothing is kept: what was built last is what is shown.
self.addEventListener('fetch', () => { });
