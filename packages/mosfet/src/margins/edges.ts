import { deratedPulsePower, edgePeakPower, inductiveEdgePeakPower } from '../formulas/index.js'
import type { MosfetInputs } from '../inputs.js'
import { openDuty } from '../inputs.js'
import { safePulsePower } from '../pulse.js'
import type { MarginContext, MosfetMargin } from './spec.js'

const faster = [
  'a lower frequency: a heater needs no more than some 100 Hz',
  'a drive that pulls both ways',
  'a smaller pull-up or gate resistor',
]

/** Whether the edges fit into the pulses, and what a slow edge does to the silicon. */
export function edgeMargins({ read, circuit }: MarginContext, startCelsius: number): MosfetMargin[] {
  const { gate, times } = circuit
  const { frequency, transistor } = read
  const margins: MosfetMargin[] = []
  const duty = openDuty(read)
  const on = duty.from / frequency
  const off = (1 - read.duty.to) / frequency
  const text = {
    unit: 's',
    sense: 'at most',
    catches: ['H04', 'H07'],
    remedies: [...faster, 'a narrower range of duty'],
  } as const
  if (frequency > 0 && duty.from > 0 && duty.from < 1) {
    margins.push({
      ...text,
      id: 'on-edge',
      name: 'edge when switching on, inside the shortest on-time',
      value: (x) => times(x).t_r,
      reads: ['t_r'],
      limit: on,
    })
  }
  if (frequency > 0 && read.duty.to < 1 && read.duty.to > 0) {
    margins.push({
      ...text,
      id: 'off-edge',
      name: 'edge when switching off, inside the shortest off-time',
      value: (x) => times(x).t_f,
      reads: ['t_f'],
      limit: off,
    })
  }
  if (read.edgeLimit !== undefined) {
    margins.push({
      ...text,
      id: 'longest-edge',
      name: 'longer edge, below the longest allowed',
      value: (x) => {
        const { t_r, t_f } = times(x)
        return Math.max(t_r, t_f)
      },
      reads: ['t_r', 't_f'],
      limit: read.edgeLimit,
    })
  }
  const pulses = transistor.safePulses
  const peak = read.edges === 'resistive' ? edgePeakPower : inductiveEdgePeakPower
  if (pulses !== undefined) {
    const allowed = (x: MosfetInputs) => {
      const { t_r, t_f } = times(x)
      const P_25 = safePulsePower(pulses, Math.max(t_r, t_f))
      return deratedPulsePower({ P_25, T_lim: x.T_lim, T_j: Math.min(startCelsius, x.T_lim), T_ref: x.T_ref })
    }
    margins.push({
      id: 'safe-area',
      name: 'peak power in an edge, inside the safe operating area',
      unit: 'W',
      sense: 'at most',
      // Of several in parallel the one with the lowest threshold may bear the edge alone.
      value: (x) => peak({ V_oc: x.V_oc, I_max: gate(x).I_max, n: 1 }),
      limit: allowed,
      reads: ['P_pk', 't_r', 't_f', 'T_lim', 'T_ref'],
      remedies: [
        'a faster edge',
        'soft start by PWM, never by a slow ramp of the gate',
        'a transistor with a line for direct current in its safe area',
      ],
      catches: ['H10'],
    })
  }
  return margins
}
