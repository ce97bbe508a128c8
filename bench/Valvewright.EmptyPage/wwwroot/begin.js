navigator.serviceWorker.register('service-worker.js', { updateViaCache: 'none' });
