import { exampleConverters } from '@ohmward/adc'
import {
  assess,
  at,
  behind,
  blockOf,
  budgetOf,
  causesFirst,
  cautionsFor,
  chain,
  changed,
  changesOf,
  choose,
  clipText,
  compare,
  condition,
  dangerFirst,
  derive,
  designAid,
  estimateLimit,
  estimateRow,
  extremes,
  faultText,
  formula,
  furtherErrors,
  furtherOf,
  furtherTexts,
  furthestStation,
  grid,
  holdRow,
  hotLoad,
  marginOf,
  noiseSpread,
  plainMargin,
  preferred,
  propagate,
  propagateAll,
  put,
  readCheckOptions,
  readings,
  readRule,
  relativeSlack,
  replaced,
  simulate,
  simulateAsync,
  simulation,
  simultaneous,
  solved,
  stoppedShort,
  sweep,
  tighter,
  tightestText,
  typedAlike,
  type Values,
  verdictOf,
  worstCaseOf,
  worstStation,
  worthText,
} from '@ohmward/budget'
import { divider, exampleAmplifiers } from '@ohmward/divider'
import { demandFinite, plusMinus, readSpread, relative } from '@ohmward/quantity'

const inputs = { V: plusMinus(12, 0.5), R: relative(4, 0.05) }
const power = ({ V, R }: Values<'V' | 'R'>) => V ** 2 / R

const heat = formula({
  symbol: 'P',
  quantity: 'power of the mat',
  unit: 'W',
  inputs: { V: ['V', 0, 60], R: ['ohm', 0.1, 1e3] },
  expression: 'V^2 / R',
  source: "Joule's law",
  compute: power,
})
const warming = formula({
  symbol: 'dT',
  quantity: 'warming of the mat',
  unit: 'K',
  inputs: { P: ['W', 0, 1e4], R_th: ['K/W', 0, 1e3] },
  expression: 'P * R_th',
  source: 'thermal resistance',
  compute: ({ P, R_th }) => P * R_th,
})

const hot = { id: 'power', name: 'power of the mat', unit: 'W', sense: 'at most', catches: [] } as const
const near = { id: 'current', name: 'current of the port', unit: 'A', sense: 'at most', catches: [] } as const

const blade = {
  load: { from: '0.5 ohm', to: '1.2 ohm', nominal: '0.7 ohm' },
  error: '5 %',
  reference: '47 ohm ±1 %',
  gainResistors: { feedback: '22 kohm ±1 %', ground: '1 kohm ±1 %' },
  amplifier: exampleAmplifiers.zeroDrift,
  converter: exampleConverters['12-bit controller converter'],
}
const conditions = { rail: { from: 2.8, to: 4.2 }, ambientCelsius: { from: 0, to: 50 } }

export const examples = [
  () => {
    const { estimate, u, interval } = propagate(inputs, power)
    return { estimate, u, interval }
  },
  () => {
    const { lower, upper, verdict } = extremes(inputs, power)
    return { lower, upper, verdict }
  },
  () => {
    const { mean, u, interval } = simulate(inputs, power)
    return { mean, u, interval }
  },
  () => compare(propagate(inputs, power), simulate(inputs, power), { unit: 'W' }).text,
  async () => (await simulateAsync(inputs, power, { onProgress: ({ trials }) => trials })).interval,
  () => {
    const steps = simulation(inputs, power)
    let step = steps.next()
    while (!step.done) step = steps.next()
    return step.value.mean
  },
  () => {
    const budget = budgetOf({ symbol: 'P', quantity: 'power of the mat', unit: 'W', inputs, model: power })
    return [worthText(budget, 36), stoppedShort([budget])]
  },
  () => {
    const { budgets, correlation } = propagateAll(inputs, { P: power, I: ({ V, R }) => V / R })
    return [budgets.P.u, budgets.I.u, correlation[0]?.[1]]
  },
  () => readings([4.98, 5.01, 5.0, 4.99, 5.02]),
  () => simultaneous({ V: [5.01, 4.99, 5.0], I: [0.0196, 0.0197, 0.0197] }).correlations,
  () => [heat({ V: 12, R: 4 }), heat.symbol, heat.expression],
  () => {
    const mat = chain([heat, warming])
    return { inputs: mat.inputs, behind: [...behind(mat.formulas, ['dT'])] }
  },
  () =>
    derive([heat, warming], { V: 12, R: 4, R_th: 1.5 }, { P: 36, dT: 54 }).map(
      ({ symbol, value }) => `${symbol} = ${value}`,
    ),
  () => {
    const lead = at(heat, 'P_lead', ({ V_lead, R_lead }: Values<'V_lead' | 'R_lead'>) => ({ V: V_lead, R: R_lead }))
    return [lead.expression, lead({ V_lead: 0.2, R_lead: 0.05 })]
  },
  () => marginOf({ ...hot, value: power, limit: 42 }, { inputs, conditions: ['V'] }),
  () => {
    const worst = worstCaseOf({ sense: 'at most', value: power, limit: 42 }, { inputs, conditions: ['V'] })
    return [42, 45].map((limit) => worst.against(hot, limit).slack)
  },
  () => {
    const margins = [plainMargin(near, 3.3, 4), plainMargin(hot, 43, 42)]
    return [
      causesFirst(
        ['hot', 'near'],
        () => 'fails',
        (cause, of) => cause === 'near' && of === 'hot',
      ),
      margins.map(relativeSlack),
      verdictOf(margins),
      tightestText(margins[1]!),
    ]
  },
  () => worstStation({ inputs, conditions: ['V'] }, power, (_, upper) => upper).at,
  () => {
    const station = furthestStation({ inputs, conditions: ['V'] }, power, 36)
    return budgetOf({ symbol: 'P', quantity: 'power', unit: 'W', inputs: station.inputs, model: power }).linear.interval
  },
  () => [readRule(0.999), readRule(undefined), readCheckOptions({ simulation: false })],
  () => assess(divider, blade, conditions, { simulation: false }).summary,
  () => cautionsFor(divider, blade, conditions).map(({ id }) => id),
  () => {
    const mat = blockOf({
      name: 'seedling mat',
      read: (watts: number, ceiling: number) => ({ watts: demandFinite('watts', watts), ceiling }),
      at: (read) => read,
      setup: ({ watts, ceiling }) => ({
        rows: [{ ...hot, kind: 'plain', worst: watts, limit: ceiling }],
        cautions: () => [],
        report: () => ({ summary: '', values: {}, derivation: [], budgets: {}, assumptions: [] }),
      }),
    })
    return assess(mat, 36, 42).margins[0]?.slack
  },
  () => estimateRow(divider.setup(divider.read(blade, conditions)).rows.find(({ id }) => id === 'headroom')!),
  () =>
    estimateLimit({ inputs, conditions: ['V'] }, 'at most', ({ V, R }, seen) => {
      seen.value = V! ** 2 / R!
      seen.limit = 45
    }),
  () => holdRow(divider.setup(divider.read(blade, conditions)).rows.find(({ id }) => id === 'headroom')!).margin.slack,
  () =>
    sweep(divider, blade, conditions, grid({ rail: [3, 4], ambientCelsius: [25] }), ['headroom']).map(
      ({ at, margins }) => [at, margins[0]?.slack] as const,
    ),
  () => {
    const candidates = ['33 ohm ±1 %', '47 ohm ±1 %'].map((reference) => ({ ...blade, reference }))
    return choose(divider, candidates, conditions).choices.map(({ choice, assessment }) => [
      choice.reference,
      assessment.verdict,
    ])
  },
  () => {
    const offered = [
      tighter({ id: 'closer', name: 'a closer reference', paths: ['reference'], unit: 'ohm' }),
      preferred({
        id: 'gain',
        name: 'more gain',
        path: 'gainResistors.feedback',
        unit: 'ohm',
        towards: 'up',
        steps: 4,
      }),
      replaced({ id: 'amplifier', name: 'another amplifier', path: 'amplifier', parts: exampleAmplifiers }),
      solved({ id: 'pedestal', name: 'a pedestal', path: 'pedestal', unit: '1', to: 0.1 }),
      put({ id: 'zero', name: 'a zero', puts: { calibration: 'zero' }, text: 'zero' }),
    ]
    const remedies = { 'error-smallest': offered, 'error-nominal': offered, 'error-largest': offered }
    return changesOf(divider, remedies, { ...blade, error: '3 %' }, conditions, { checks: 40 }).changes.map(
      ({ name, text }) => `${name}: ${text}`,
    )
  },
  () => typedAlike(readSpread('100 kohm +5/-2 %', { field: 'upper', unit: 'ohm' }), 20e3, 'ohm'),
  () => changed({ choice: blade, conditions }, { reference: '33 ohm ±1 %' }).choice.reference,
  () => furtherErrors({ voltage: 'at the input', current: 'through the load', share: 'of the reading' }).most,
  () => {
    const named = [{ name: 'common mode', kind: 'voltage', size: 20e-6, perKelvin: 1e-7 }] as const
    const referred = { shift: 'at the input', share: 'of the reading', ofCurrent: (amperes: number) => 47 * amperes }
    return [Object.keys(furtherOf(named, referred).inputs), furtherTexts(named, 'nothing takes it away')]
  },
  () => {
    const margin = plainMargin(hot, 43.21, 42)
    return faultText(margin)
  },
  () => {
    const { rows } = divider.setup(
      divider.read({ ...blade, amplifier: exampleAmplifiers.bipolarSingleSupply }, conditions),
    )
    return clipText(rows.flatMap((row) => (row.kind === 'limit' && row.id === 'headroom' ? [row] : [])))
  },
  () => [condition({ from: 3, to: 4.2 }, 5).nominal, noiseSpread(1e-6).upper],
  () => dangerFirst([designAid, hotLoad]).map(({ id }) => id),
]
