import { type ChangeSpec, preferred, solved } from '@ohmward/budget'
import type { Spread } from '@ohmward/quantity'
import type { ReadDecoupling } from '../choice/choice.js'
import type { logicFields } from '../parts/index.js'

const field =
  (behind: 'diode' | 'resistor' | 'either', word: keyof typeof logicFields) =>
  ({ logicRail }: ReadDecoupling): Spread | undefined =>
    logicRail && (behind === 'either' || logicRail.behind === behind) ? logicRail.fields[word] : undefined

const capacitor = {
  path: 'logicRail.capacitance',
  unit: 'F',
  series: 'E6',
  steps: 24,
  from: (read: ReadDecoupling) => read.logicRail?.fields.capacitance,
} as const

/** What the logic rail has, better. */
export const betterLogic: readonly ChangeSpec[] = /*#__PURE__*/ (() => [
  preferred({ id: 'more-hold-up', name: 'a larger capacitor of the logic rail', towards: 'up', ...capacitor }),
  solved({
    id: 'less-diode',
    name: 'a diode of lower forward voltage at 25 °C, or an ideal diode',
    path: 'logicRail.forwardVoltage',
    unit: 'V',
    from: field('diode', 'forwardVoltage'),
    to: 0.01,
  }),
  preferred({
    id: 'less-isolation',
    name: 'a smaller resistor into the logic rail',
    path: 'logicRail.resistance',
    unit: 'ohm',
    series: 'E12',
    steps: 36,
    towards: 'down',
    from: field('resistor', 'resistance'),
  }),
  solved({
    id: 'less-logic',
    name: 'less logic current while the load is on',
    path: 'logicRail.current',
    unit: 'A',
    from: field('either', 'current'),
    to: (read: ReadDecoupling) => 0.01 * (read.logicRail?.fields.current.nominal ?? 0),
  }),
])()

/** A smaller capacitor of the logic rail. */
export const lessHoldUp = /*#__PURE__*/ (() =>
  preferred({
    id: 'less-hold-up',
    name: 'a smaller capacitor of the logic rail',
    towards: 'down',
    ...capacitor,
  }))()
