/** What each limit on the rail is called, as the library does; kept apart, so that the page's script stays small. */
export const limitNames: Readonly<Record<string, string>> = {
  brownOut: 'brown-out threshold',
  clock: 'minimum supply for the clock',
  sensor: 'sensor minimum',
  amplifier: 'amplifier minimum',
  converter: 'converter minimum',
}
