/** The site's pages, in the order of the navigation. A new page is one line here. */
export const pages = [
  { path: '/frontend/', name: 'Whole design' },
  { path: '/divider/', name: 'Divider' },
  { path: '/hall/', name: 'Hall sensor' },
  { path: '/mosfet/', name: 'MOSFET' },
  { path: '/decoupling/', name: 'Decoupling' },
  { path: '/method/', name: 'Method' },
  { path: '/questions/', name: 'Questions' },
  { path: '/pitfalls/', name: 'Pitfalls' },
  { path: '/values/', name: 'Values' },
  { path: '/formulas/', name: 'Formulas' },
  { path: '/checked/', name: 'Checked' },
  { path: '/api/', name: 'Reference' },
  { path: '/search/', name: 'Search' },
] as const
