/**
 * Symbols of IEC 60617 as paths, centred, terminals above and below at a distance of 30, before turning. Amplifier and
 * converter have theirs left and right.
 */
export const shapes = {
  resistor: 'M0-30V-18M-8-18H8V18H-8ZM0 18V30',
  capacitor: 'M0-30V-4M-14-4H14M-14 4H14M0 4V30',
  /** Make contact, drawn open. */
  switch: 'M0-30V-14M0 30V14L-13-12',
  /** The common 0 V of the device, which is no earth. */
  ground: 'M0-10V0M-12 0H12',
  /** Primary or secondary cell: the longer line is the positive pole. */
  cell: 'M0-30V-4M-15-4H15M-7 4H7M0 4V30',
  /** Amplifier, general symbol, with its two inputs. */
  amplifier: 'M-34-40V40L40 0ZM-28-18H-18M-23-23V-13M-28 18H-18',
  /** The same with the inverting input above. */
  amplifierTurned: 'M-34-40V40L40 0ZM-28-18H-18M-28 18H-18M-23 13V23',
  /** Converter, general symbol: the diagonal parts what comes in, an analog value, from what goes out, a number. */
  converter: 'M-38-30H38V30H-38ZM-38 30L38-30M-30-8A8 8 0 0 1-14-8M14 11H30M13 18H29M20 6L17 23M27 6L24 23',
  /** P-channel insulated-gate field-effect transistor, enhancement type: source above, drain below, gate left. */
  mosfetP: 'M-14-16V16M-8-19V-11M-8-4V4M-8 11V19M-8-15H6V-30M-8 15H6V30M-8 0H6V-15M2-3L8 0L2 3M-14 12H-30',
  /** N-channel, the same with the arrow turned. */
  mosfetN: 'M-14-16V16M-8-19V-11M-8-4V4M-8 11V19M-8-15H6V-30M-8 15H6V30M-8 0H6V15M-2 0L4-3V3ZM-14 12H-30',
  /** Hall element with the conductor of its current, which goes through at the left, at a distance of 60. */
  hall: 'M-76-30H34V30H-76ZM-10-10H10V10H-10ZM-10-10L10 10M10-10L-10 10',
  /** A connection from or to elsewhere. */
  terminal: 'M4 0A4 4 0 1 1-4 0A4 4 0 1 1 4 0',
} as const

export type Shape = keyof typeof shapes
