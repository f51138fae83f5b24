/** A question of someone at a bench, and where the site answers it. */
export interface Question {
  readonly asks: string
  /** Path of the page and, behind `#`, the place on it. */
  readonly places: readonly (readonly [name: string, path: string])[]
}

/** What people ask while they draw a schematic, in the order of the trade. Each is also a test that asks the packages. */
export const questions: readonly Question[] = [
  {
    asks: 'Up to what resistance does my amplifier read at the lowest cell voltage, and where does it saturate?',
    places: [
      ['divider: highest amplifier output', 'divider/#margin-headroom'],
      ['over the discharge', 'divider/#over-the-discharge'],
    ],
  },
  {
    asks: 'How uncertain is a resistance, and which part dominates?',
    places: [
      ['divider: error budget', 'divider/#error-budget'],
      ['what a budget is', 'method/#a-budget'],
    ],
  },
  {
    asks: 'Which gain, reference resistor and test current give the least error without heating the load?',
    places: [
      ['divider: values that would do', 'divider/#values-that-would-do'],
      ['neighbours of a value', 'values/#the-neighbours-of-a-value'],
    ],
  },
  {
    asks: 'Can I tell the temperature from this alloy, and to how many kelvin?',
    places: [
      ['pitfalls: temperature from resistance', 'pitfalls/#c02'],
      ['divider: your parts', 'divider/#your-parts'],
    ],
  },
  {
    asks: 'Why does the resistance drift after heating, and when may I store the cold value?',
    places: [
      ['pitfall C01', 'pitfalls/#c01'],
      ['what calibration removes', 'method/#what-calibration-removes'],
    ],
  },
  {
    asks: 'How wrong may the rail be when read against my internal reference, and is a one-point calibration enough?',
    places: [
      ['whole design: cell monitor', 'frontend/#cell-monitor'],
      ['pitfall D03', 'pitfalls/#d03'],
    ],
  },
  {
    asks: 'Is the sampling time enough for this divider and capacitor?',
    places: [
      ['divider: sampling', 'divider/#margin-acquisition'],
      ['hall: sampling', 'hall/#margin-sampling'],
    ],
  },
  {
    asks: 'Can I run the Hall sensor from the cell or from 3.3 V?',
    places: [
      ['hall: lowest sensor supply', 'hall/#margin-supply-low'],
      ['pitfall E01', 'pitfalls/#e01'],
    ],
  },
  {
    asks: 'How many counts per ampere, and what zero error after temperature, rail and hysteresis?',
    places: [
      ['hall: error budget', 'hall/#error-budget'],
      ['resolution', 'hall/#margin-resolution'],
    ],
  },
  {
    asks: 'Where in the PWM period may I sample, is it peak or mean, and how do I get power?',
    places: [
      ['hall: the period', 'hall/#the-period'],
      ['whole design: power and energy', 'frontend/#power-and-energy'],
    ],
  },
  {
    asks: 'Which integers are exact to one unit and never overflow?',
    places: [['hall: the firmware', 'hall/#the-firmware']],
  },
  {
    asks: 'Is the transistor fully on at the sagged cell, and how hot does its junction get?',
    places: [
      ['mosfet: gate drive', 'mosfet/#margin-gate-drive'],
      ['junction', 'mosfet/#margin-junction'],
    ],
  },
  {
    asks: 'How close is thermal runaway, and what copper or duty is allowed?',
    places: [
      ['mosfet: junction against current', 'mosfet/#junction-against-current'],
      ['runaway', 'mosfet/#margin-runaway'],
    ],
  },
  {
    asks: 'Is the load off in reset, while programming, in brown-out, and with a broken controller?',
    places: [
      ['mosfet: state in reset', 'mosfet/#margin-reset-state'],
      ['pitfall H11', 'pitfalls/#h11'],
    ],
  },
  {
    asks: 'Does switching heat the transistor more than conduction?',
    places: [['mosfet: where the heat comes from', 'mosfet/#where-the-heat-comes-from']],
  },
  {
    asks: 'How much capacitance, and what ESR, carry my controller through the step, or is it impossible?',
    places: [
      ['decoupling: capacitors that would do', 'decoupling/#values-that-would-do'],
      ['when no capacitor helps', 'decoupling/#the-steady-sag-and-what-to-do-about-it'],
    ],
  },
  {
    asks: 'Diode, resistor or nothing before the logic rail, and what does it cost?',
    places: [
      ['decoupling: what would help', 'decoupling/#what-would-help'],
      ['pitfall J06', 'pitfalls/#j06'],
    ],
  },
  {
    asks: 'Which cell keeps the rail up at 0 °C, nearly empty and old?',
    places: [
      ['whole design: map of the margins', 'frontend/#map-of-the-margins'],
      ['decoupling: over the discharge', 'decoupling/#over-the-discharge'],
    ],
  },
  {
    asks: 'Does the protection trip, on inrush or in a burst?',
    places: [
      ['decoupling: trip of the protection', 'decoupling/#margin-protection-trip'],
      ['pitfall K03', 'pitfalls/#k03'],
    ],
  },
  {
    asks: 'Which cut-off and hysteresis avoid reset loops and over-discharge?',
    places: [
      ['whole design: cell monitor', 'frontend/#cell-monitor'],
      ['pitfall K04', 'pitfalls/#k04'],
    ],
  },
  {
    asks: 'How long may it lie in the drawer, and what must be switched off?',
    places: [['whole design: in the drawer', 'frontend/#in-the-drawer']],
  },
  {
    asks: 'What over-current threshold never trips falsely and still protects?',
    places: [
      ['hall: false trips', 'hall/#margin-trip-false'],
      ['late trips', 'hall/#margin-trip-late'],
    ],
  },
  {
    asks: 'What happens on a charging port alone?',
    places: [
      ['pitfall J13', 'pitfalls/#j13'],
      ['whole design: the design', 'frontend/#the-design'],
    ],
  },
  {
    asks: 'What fails first over all tolerances, and which one change helps most?',
    places: [
      ['whole design: what gives way', 'frontend/#what-gives-way'],
      ['what would help', 'frontend/#what-would-help'],
    ],
  },
  {
    asks: 'What should I measure on the first board, and what should I read?',
    places: [['whole design: first board', 'frontend/#first-board']],
  },
]
