import { type ChangeSpec, preferred, put, solved } from '@ohmward/budget'
import type { ReadMosfet } from '../choice.js'

const from = {
  gate: ({ drive }: ReadMosfet) => (drive.spreads.R_g.nominal > 0 ? drive.spreads.R_g : 1),
  pull: ({ drive }: ReadMosfet) => (drive.pull === 'none' ? undefined : drive.spreads.R_p),
  base: ({ drive }: ReadMosfet) => (drive.kind === 'inverting transistor' ? drive.spreads.R_b : undefined),
  pullDown: ({ drive }: ReadMosfet) => (drive.hasBasePullDown ? drive.spreads.R_be : undefined),
  pullUp: ({ drive }: ReadMosfet) => (drive.hasBasePullUp ? drive.spreads.R_bp : undefined),
  rating: ({ drive }: ReadMosfet) => (drive.pull === 'none' ? undefined : drive.spreads.P_prated),
  high: ({ drive }: ReadMosfet) => (drive.hasHighLevel ? drive.spreads.V_high : undefined),
}
const gate = { path: 'drive.gateResistor', unit: 'ohm', series: 'E12', steps: 18, from: from.gate } as const
const pull = { path: 'drive.pull.resistance', unit: 'ohm', series: 'E12', steps: 24, from: from.pull } as const

/** A resistor where there is none yet: the largest of a few usual ones that is enough. */
function added(spec: {
  readonly id: string
  readonly name: string
  readonly path: string
  readonly put?: (resistance: string) => unknown
  readonly when: (read: ReadMosfet) => boolean
}): ChangeSpec {
  const { id, name, path, put: made = (resistance) => resistance, when } = spec
  return {
    id,
    name,
    order: 'mildest first',
    rungs: ({ read }) =>
      when(read as ReadMosfet)
        ? ['100 kohm', '47 kohm', '22 kohm', '10 kohm', '4.7 kohm', '2.2 kohm', '1 kohm'].map((ohms) => {
            const text = `${ohms} ±1 %`
            return { puts: { [path]: made(text) }, text }
          })
        : [],
  }
}

export const moreGate = /*#__PURE__*/ preferred({
  id: 'more-gate',
  name: 'a larger gate resistor',
  ...gate,
  towards: 'up',
})
export const lessGate = /*#__PURE__*/ preferred({
  id: 'less-gate',
  name: 'a smaller gate resistor',
  ...gate,
  towards: 'down',
})
export const morePull = /*#__PURE__*/ preferred({
  id: 'more-pull',
  name: 'a larger pull resistor',
  ...pull,
  towards: 'up',
})
export const lessPull = /*#__PURE__*/ preferred({
  id: 'less-pull',
  name: 'a smaller pull resistor',
  ...pull,
  towards: 'down',
})

export const pullAtDrive = /*#__PURE__*/ put({
  id: 'pull-at-drive',
  name: 'the pull resistor on the drive’s side of the gate resistor',
  puts: { 'drive.pull.at': 'drive' },
  text: 'drive',
  when: ({ drive }: ReadMosfet) => drive.pull === 'gate',
})

export const pullThere = added({
  id: 'pull-there',
  name: 'a resistor that holds the gate off, on the drive’s side of the gate resistor',
  path: 'drive.pull',
  put: (resistance) => ({ at: 'drive', resistance }),
  when: ({ drive }) => drive.pull === 'none',
})

export const ratedPull = /*#__PURE__*/ solved({
  id: 'rated-pull',
  name: 'a pull resistor of a higher power rating',
  path: 'drive.pull.ratedPower',
  unit: 'W',
  from: from.rating,
  to: 3,
})

export const lessBase = /*#__PURE__*/ preferred({
  id: 'less-base',
  name: 'a smaller base resistor',
  path: 'drive.baseResistor',
  unit: 'ohm',
  series: 'E12',
  steps: 24,
  from: from.base,
  towards: 'down',
})

export const basePullDown = added({
  id: 'base-pull-down',
  name: 'a resistor that holds the base off',
  path: 'drive.basePullDown',
  when: ({ drive: { kind, hasBasePullDown } }) =>
    (kind === 'inverting transistor' || kind === 'follower') && !hasBasePullDown,
})

export const lessPullDown = /*#__PURE__*/ preferred({
  id: 'less-base-pull-down',
  name: 'a smaller resistor that holds the base off',
  path: 'drive.basePullDown',
  unit: 'ohm',
  series: 'E12',
  steps: 24,
  from: from.pullDown,
  towards: 'down',
})

export const basePullUp = added({
  id: 'base-pull-up',
  name: 'a resistor from the rail to the base, which holds the gate low',
  path: 'drive.basePullUp',
  when: ({ transistor, drive: { kind, hasBasePullUp } }) =>
    kind === 'inverting transistor' && transistor.channel === 'N' && !hasBasePullUp,
})

export const lessPullUp = /*#__PURE__*/ preferred({
  id: 'less-base-pull-up',
  name: 'a smaller resistor from the rail to the base',
  path: 'drive.basePullUp',
  unit: 'ohm',
  series: 'E12',
  steps: 24,
  from: from.pullUp,
  towards: 'down',
})

export const higherLevel = /*#__PURE__*/ solved({
  id: 'higher-level',
  name: 'a pin that comes closer to the rail',
  path: 'drive.highLevel',
  unit: 'V',
  from: from.high,
  to: ({ openCircuit }: ReadMosfet) => openCircuit.to,
})
