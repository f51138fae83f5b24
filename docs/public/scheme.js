// Runs before the first paint: a scheme that the reader has chosen wins over the system's.
try {
  const scheme = localStorage.getItem('ohmward-scheme')
  if (scheme === 'light' || scheme === 'dark') document.documentElement.dataset.scheme = scheme
} catch {}

// A page with a form is built with its demo: until its program has read the link, the demo is marked as not asked for.
if (location.search !== '') document.documentElement.dataset.linked = ''
