// Holds the start of the page's engine until the test calls window.startThePage().
{
  let blazor;
  Object.defineProperty(window, 'Blazor', {
    configurable: true,
    get: () => blazor,
    set: given => {
      blazor = given;
      let start = given.start;
      Object.defineProperty(given, 'start', { configurable: true, set: real => { start = real; }, get: () => () => new Promise(done => { window.startThePage = () => done(start()); }) });
    },
  });
}
