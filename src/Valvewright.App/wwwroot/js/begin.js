// Runs before anything is drawn: the look and language the person chose, and the worker that keeps the page for use without a signal.
(() => {
  const kept = name => { try { return localStorage.getItem(name); } catch { return null; } };
  const look = kept('valvewright.look');
  if (look === 'light' || look === 'dark') document.documentElement.dataset.look = look;
  const language = kept('valvewright.language') || (navigator.language || 'en').slice(0, 2);
  document.documentElement.lang = language === 'es' ? 'es' : 'en';
  if ('serviceWorker' in navigator) navigator.serviceWorker.register('service-worker.js', { updateViaCache: 'none' });
})();
