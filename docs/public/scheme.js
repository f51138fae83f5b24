// Runs before the first paint: a scheme that the reader has chosen wins over the system's.
try {
  const scheme = localStorage.getItem('ohmward-scheme')
  if (scheme === 'light' || scheme === 'dark') document.documentElement.dataset.scheme = scheme
} catch {}
