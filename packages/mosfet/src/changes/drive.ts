import { type ChangeSpec, preferred, put, solved } from '@ohmward/budget'
import type { ReadMosfet } from '../choice.js'

const fromGate = ({ drive }: ReadMosfet) => (drive.spreads.R_g.nominal > 0 ? drive.spreads.R_g : 1)
const fromPull = ({ drive }: ReadMosfet) => (drive.pull === 'none' ? undefined : drive.spreads.R_p)
const fromBase = ({ drive }: ReadMosfet) => (drive.kind === 'inverting transistor' ? drive.spreads.R_b : undefined)
const fromPullDown = ({ drive }: ReadMosfet) => (drive.hasBasePullDown ? drive.spreads.R_be : undefined)
const fromPullUp = ({ drive }: ReadMosfet) => (drive.hasBasePullUp ? drive.spreads.R_bp : undefined)
const fromRating = ({ drive }: ReadMosfet) => (drive.pull === 'none' ? undefined : drive.spreads.P_prated)
const fromHigh = ({ drive }: ReadMosfet) => (drive.hasHighLevel ? drive.spreads.V_high : undefined)

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
  path: 'drive.gateResistor',
  unit: 'ohm',
  series: 'E12',
  steps: 18,
  from: fromGate,
  towards: 'up',
})
export const lessGate = /*#__PURE__*/ preferred({
  id: 'less-gate',
  name: 'a smaller gate resistor',
  path: 'drive.gateResistor',
  unit: 'ohm',
  series: 'E12',
  steps: 18,
  from: fromGate,
  towards: 'down',
})
export const morePull = /*#__PURE__*/ preferred({
  id: 'more-pull',
  name: 'a larger pull resistor',
  path: 'drive.pull.resistance',
  unit: 'ohm',
  series: 'E12',
  steps: 24,
  from: fromPull,
  towards: 'up',
})
export const lessPull = /*#__PURE__*/ preferred({
  id: 'less-pull',
  name: 'a smaller pull resistor',
  path: 'drive.pull.resistance',
  unit: 'ohm',
  series: 'E12',
  steps: 24,
  from: fromPull,
  towards: 'down',
})

export const pullAtDrive = /*#__PURE__*/ put({
  id: 'pull-at-drive',
  name: 'the pull resistor ahead of the gate resistor',
  puts: { 'drive.pull.at': 'drive' },
  text: 'drive',
  when: ({ drive }: ReadMosfet) => drive.pull === 'gate',
})

export const pullThere = /*#__PURE__*/ added({
  id: 'pull-there',
  name: 'a resistor that holds the gate off, ahead of the gate resistor',
  path: 'drive.pull',
  put: (resistance) => ({ at: 'drive', resistance }),
  when: ({ drive }) => drive.pull === 'none',
})

export const ratedPull = /*#__PURE__*/ solved({
  id: 'rated-pull',
  name: 'a pull resistor of a higher power rating',
  path: 'drive.pull.ratedPower',
  unit: 'W',
  from: fromRating,
  to: 3,
})

export const lessBase = /*#__PURE__*/ preferred({
  id: 'less-base',
  name: 'a smaller base resistor',
  path: 'drive.baseResistor',
  unit: 'ohm',
  series: 'E12',
  steps: 24,
  from: fromBase,
  towards: 'down',
})

export const basePullDown = /*#__PURE__*/ added({
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
  from: fromPullDown,
  towards: 'down',
})

export const basePullUp = /*#__PURE__*/ added({
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
  from: fromPullUp,
  towards: 'down',
})

export const higherLevel = /*#__PURE__*/ solved({
  id: 'higher-level',
  name: 'a pin that swings closer to the rail',
  path: 'drive.highLevel',
  unit: 'V',
  from: fromHigh,
  to: ({ openCircuit }: ReadMosfet) => openCircuit.to,
})
