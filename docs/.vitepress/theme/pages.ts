/** The site's pages, in the order of the navigation. A new page is one line here. */
export const pages = [
  { path: '/divider/', name: 'Divider' },
  { path: '/mosfet/', name: 'MOSFET' },
  { path: '/method/', name: 'Method' },
  { path: '/values/', name: 'Values' },
  { path: '/formulas/', name: 'Formulas' },
  { path: '/checked/', name: 'Checked' },
  { path: '/api/', name: 'Reference' },
] as const
