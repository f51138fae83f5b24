/** Kinds of capacitor with an inductance each, on a loop that has one too: so many quantities that ring, and one of the loop. */
export const ringingKinds = [
  ['1 mF', '20 mohm', '8 nH'],
  ['470 uF', '30 mohm', '6 nH'],
  ['220 uF', '40 mohm', '5 nH'],
  ['100 uF', '50 mohm', '4 nH'],
  ['47 uF', '10 mohm', '2 nH'],
  ['10 uF', '5 mohm', '1 nH'],
].map(([capacitance, seriesResistance, seriesInductance]) => ({
  capacitance: `${capacitance} ±20 %`,
  seriesResistance: `${seriesResistance} ±30 %`,
  seriesInductance: `${seriesInductance} ±20 %`,
  ratedVoltage: 10,
  rippleCurrent: 3,
  wornCapacitance: 0.8,
  wornResistance: 2,
}))
