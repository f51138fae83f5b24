import {
  checkDecoupling,
  decouplingChanges,
  exampleChoice,
  exampleConditions,
  exampleStock,
  isPlain,
  railLimitMargins,
  sampledRail,
  sizeDecoupling,
  sizeHoldUp,
  sourcePart,
  sweepDecoupling,
} from '@ohmward/decoupling'

export const examples = [
  () => checkDecoupling(exampleChoice, exampleConditions, { simulation: false }).summary,
  () => decouplingChanges(exampleChoice, exampleConditions, { checks: 8 }).text,
  () =>
    sweepDecoupling(exampleChoice, exampleConditions, [{ charge: 0.2 }], ['rail-brown-out']).map(
      ({ margins }) => margins[0]?.slack,
    ),
  () => railLimitMargins(exampleChoice, exampleConditions, 3.7).map(({ id, slack }) => [id, slack]),
  () => {
    const { source, tap, load } = exampleChoice
    const { choices } = sizeDecoupling({
      source,
      tap,
      load,
      limits: { brownOut: '2.1 V ±3 %' },
      conditions: exampleConditions,
      stock: exampleStock().slice(4, 6),
    })
    return choices[0]?.assessment.summary
  },
  () => {
    const source = { openCircuit: '4.2 V', resistance: '50 mohm ±20 %', inductance: '1.2 uH' }
    const load = { resistance: '0.7 ohm', rise: '2 us', pwm: { frequency: '1 kHz', duty: 0.5 } }
    const capacitors = [{ capacitance: '22 uF ±20 %', ratedVoltage: 6.3, seriesResistance: '3 mohm' }]
    return sampledRail(
      { source, load, capacitors, limits: { brownOut: '2.7 V' } },
      { ambientCelsius: { from: 25, to: 25 } },
      { after: 30e-6, lag: 0 },
    )
  },
  () => sizeHoldUp({ rest: 3.5, forwardVoltage: 0.3, limit: 2.5, current: 8e-3, time: 0.02 }),
  () => exampleStock().length,
  () => [isPlain({ resistance: '90 mohm' }), isPlain(exampleChoice.source)],
  () => Object.keys(sourcePart({ resistance: '90 mohm' }).fields),
]
