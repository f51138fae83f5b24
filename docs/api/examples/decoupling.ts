import {
  checkDecoupling,
  decouplingChanges,
  exampleChoice,
  exampleConditions,
  exampleStock,
  isPlain,
  railLimitMargins,
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
  () => sizeHoldUp({ rest: 3.5, forwardVoltage: 0.3, limit: 2.5, current: 8e-3, time: 0.02 }),
  () => exampleStock().length,
  () => [isPlain({ resistance: '90 mohm' }), isPlain(exampleChoice.source)],
  () => Object.keys(sourcePart({ resistance: '90 mohm' }).fields),
]
