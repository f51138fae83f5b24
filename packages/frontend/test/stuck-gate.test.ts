import { checkDesign, type Design, decouplingAt, readDesign, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { powerOf } from '../src/answer/power/power.js'
import { mended } from './shared.js'

/** The mended knife with a transistor whose plateau lies elsewhere, its pull and gate resistor those of the design. */
const rowsWith = (plateauVoltage: string) => {
  const { transistor } = mended.mosfet
  const design = {
    ...mended,
    mosfet: { ...mended.mosfet, transistor: { ...transistor, plateauVoltage } },
    requirements: { ...mended.requirements, power: '3 W', powerError: '60 %' },
  } as Design
  const { rows } = checkDesign(design, { charges: 3 })
  return (id: string) => rows.find((row) => row.id === id)!.margin
}

it('a gate that may stay below the plateau leaves no row sure that goes by when the switch is on', () => {
  // Full cells of at most 4.3 V pull the gate no further than that: 4.5 V are never reached, 1.5 V at every charge.
  const ids = ['mosfet/on-edge', 'hall/settling', 'hall/on-window', 'power/reaches', 'power/error']
  const [there, never] = [rowsWith('1.5 V'), rowsWith('4.5 V')]
  for (const id of ids) {
    expect(there(id).verdict, id).toBe('holds')
    expect(never(id).verdict, id).toBe('not sure')
    expect(never(id).reason, id).toContain('plateau')
    // No time, no power: a number there would be that of a gate that gets there.
    expect(never(id), id).toMatchObject({ isUnknown: true, worst: never(id).limit, slack: 0 })
    expect(there(id).isUnknown, id).toBeUndefined()
  }
  expect(never('mosfet/gate-plateau').verdict).toBe('fails')
  for (const id of ['mosfet/junction', 'mosfet/safe-area'])
    expect(never(id).verdict === 'holds' || (never(id).verdict === 'not sure' && !never(id).isUnknown), id).toBe(false)
})

describe('what a gate that may stay below the plateau does elsewhere, by circuit laws', () => {
  const walkWith = (plateauVoltage: string) => {
    const { transistor } = mended.mosfet
    const mosfet = { ...mended.mosfet, transistor: { ...transistor, plateauVoltage } }
    return walkOf(readDesign({ ...mended, mosfet } as Design), { charges: 2 })
  }
  const [there, never] = [walkWith('1.5 V'), walkWith('4.5 V')]

  it('has the capacitors of the rail held in pulses down to none, since its share of a pulse isn’t known', () => {
    const { solved } = never.over({ charge: { from: 1, to: 1 }, ...never.around })
    const { duty } = decouplingAt(never.design, solved, 'PWM', never.firmware.edges()).choice.load.pwm!
    const told = never.design.pwm
    const { from } = typeof duty === 'object' && duty !== null && 'from' in duty ? duty : { from: Number.NaN }
    // No shorter than its own current takes to rise is followed.
    expect(from).toBeLessThanOrEqual(Math.max(1e-3 * told.duty.from, never.design.load.rise * told.frequency))
    expect(from).toBeLessThan(0.1 * told.duty.from)
  })

  it('warms the path no more than is said: half on, all the time that the gate may be, it lets less through than wholly on', () => {
    const at = { charge: 1, celsius: never.around.celsius.to, age: 0 }
    const { rows, rest, source, load } = never.hold(at)
    const limits = rows.filter(({ id }) => id.startsWith('supply/current-limit'))
    expect(limits.length).toBeGreaterThan(0)
    // Channels from wholly on to nearly off, for the pulse and as long after it as the gate may take to be off.
    const { frequency, duty } = never.design.pwm
    const on = Math.min(1, duty.to + never.firmware.edges()!.off * frequency)
    for (const ohms of [never.hold(at).switch.lower, 0.1, 1, 10]) {
      const rms = (rest.upper / (source.resistance.lower + load.lower + ohms)) * Math.sqrt(on)
      for (const { id, margin } of limits)
        expect(margin.worst, `${id} through ${ohms} ohm`).toBeGreaterThan(rms * (1 - 1e-9))
    }
  })

  it('may give the load no power at all, and says so', () => {
    expect(powerOf(never).mean.lower).toBe(0)
    expect(powerOf(there).mean.lower).toBeGreaterThan(1)
    expect(powerOf(never).mean.upper).toBeCloseTo(powerOf(there).mean.upper, 0)
  })
})
