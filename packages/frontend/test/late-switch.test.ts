import { type Design, decouplingAt, exampleDesign, readDesign, walkOf } from '@ohmward/frontend'
import { exact } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { monitorOf } from '../src/answer/monitor.js'
import { powerOf } from '../src/answer/power/power.js'
import { boardsAt } from '../src/boards/board.js'
import { endedSupply } from '../src/monitor/end.js'
import { conductingIn } from '../src/pulse/conducting.js'

/** The knife at 1 kHz, where the 25 us that its gate takes to be pulled off are a quarter of the shortest pulse. */
const design = (more: Partial<Design> = {}): Design => ({
  ...exampleDesign,
  pwm: { frequency: '1 kHz', duty: { from: 0.1, to: 0.8 } },
  ...more,
})

const walkOver = (given: Design) => walkOf(readDesign(given), { charges: 2 })

/**
 * Mean square of the current of a load over a period whose switch is off late, A^2: a source behind its resistance with a capacitor at the
 * rail, in small steps of time until they repeat.
 */
const meanSquareOf = (volts: number, source: number, load: number, farads: number, to: number) =>
  meanOf(volts, source, load, 1, farads, 0, to)

/**
 * Mean power of a load over a period whose switch is on and off late, W: a source behind its resistance with a capacitor at the rail, in
 * small steps of time until they repeat.
 */
function meanOf(volts: number, source: number, load: number, own: number, farads: number, from: number, to: number) {
  const step = 5e-8
  let [rail, energy] = [volts, 0]
  for (let period = 0; period < 12; period++) {
    energy = 0
    for (let n = 0; n < 20_000; n++) {
      const time = (n + 0.5) * step
      const current = time >= from && time < to ? rail / load : 0
      rail += (((volts - rail) / source - current) / farads) * step
      energy += current ** 2 * own * step
    }
  }
  return energy / 1e-3
}

describe('a switch that is off late', () => {
  const walk = walkOver(design({ requirements: { ...exampleDesign.requirements, powerLimit: '15 W' } }))
  const edges = walk.firmware.edges()!
  const answer = powerOf(walk)
  const { source, rest, load, own, switch: on } = walk.over({ charge: { from: 1, to: 1 }, ...walk.around }).solved
  const farads = walk.design.parts.capacitance
  /** Power of full cells at a duty that is told, by a board whose switch takes its time to be off and none to be on. */
  const powerAt = (told: number) =>
    meanOf(rest.upper, source.resistance.lower, load.lower + on.lower, own.lower, farads, 0, told * 1e-3 + edges.off)

  it('gives the load more at every duty, in steps of time: no more than is said, and at the least duty a quarter more than that', () => {
    for (const [told, said] of [
      [0.8, answer.mean.upper],
      [0.1, answer.least.upper],
    ] as const) {
      expect(powerAt(told)).toBeLessThan(said * (1 + 1e-4))
      expect(powerAt(told)).toBeGreaterThan(0.9 * said)
    }
    expect(edges.off).toBeGreaterThan(20e-6)
    expect(answer.least.upper / 0.1).toBeGreaterThan(1.2 * (answer.mean.upper / 0.8))
  })

  it('keeps the limit by the duty that is told without a reading, and by what is shown with one', () => {
    const { dutyWithoutReading, setPoint } = answer.limit!
    // The steps are as much too high as they are long.
    expect(powerAt(dutyWithoutReading)).toBeLessThan(15 * (1 + 1e-4))
    expect(powerAt(dutyWithoutReading)).toBeGreaterThan(0.9 * 15)
    // What is shown knows only the duty that was told: at the limit it is less by as much as the pulse is longer.
    const [short, long] = [dutyWithoutReading * 1e-3, dutyWithoutReading * 1e-3 + edges.off]
    expect(setPoint!).toBeLessThan((15 * short) / long)
  })

  it('shows less than there is by its share of the shortest pulse, and more where it is on late', () => {
    const least = (duty: { from: number; to: number }) =>
      powerOf(walkOver(design({ pwm: { frequency: '1 kHz', duty } }))).error
    const [short, long] = [least({ from: 0.1, to: 0.8 }), least({ from: 0.8, to: 0.8 })].map(
      ({ voltageTimesCurrent }) => voltageTimesCurrent!,
    ) as [(typeof answer)['mean'], (typeof answer)['mean']]
    const at = (duty: number) => duty / (duty + edges.off * 1e3)
    expect((1 + short.lower) / (1 + long.lower)).toBeLessThan((at(0.1) / at(0.8)) * 1.02)
    expect(short.upper).toBeGreaterThan(long.upper)
  })

  it('has a mean reading know how long it was', () => {
    const hall = {
      ...exampleDesign.hall,
      reading: 'averaged',
      filter: { resistance: '3.3 kohm ±1 %', capacitance: '4.7 uF ±10 %' },
    } as const
    const slow = powerOf(walkOver(design({ hall }))).error.voltageTimesCurrent!
    const { gateResistor: _, ...drive } = exampleDesign.mosfet.drive as { readonly gateResistor?: unknown }
    const quick = { ...exampleDesign.mosfet, drive: { ...drive, pull: { at: 'gate', resistance: '300 ohm ±1 %' } } }
    const fast = powerOf(walkOver(design({ hall, mosfet: quick as unknown as Design['mosfet'] }))).error
    expect(slow.lower).toBeCloseTo(fast.voltageTimesCurrent!.lower, 2)
  })

  it('takes more from the cells in a burst, and leaves fewer of them', () => {
    const bursts = answer.bursts!
    const { energy, count } = bursts
    expect(energy[0]!.energy.upper).toBeCloseTo(answer.mean.upper * 20, 6)
    expect(count!.lower).toBeLessThan(count!.upper)
    const told = monitorOf(walk)!.lacking!.most
    const early = { ...walk, firmware: { ...walk.firmware, edges: () => ({ on: 0, off: 0 }) } }
    const without = monitorOf(early as never)!.lacking!.most
    expect(told / without).toBeGreaterThan(1.02)
    expect(told / without).toBeLessThan(1 + (edges.off * 1e3) / 0.8 + 1e-3)
    expect(powerOf(early as never).bursts!.count!.lower).toBeGreaterThan(1.02 * count!.lower)
  })
})

describe('what the current of a switch that is off late warms', () => {
  const read = readDesign(design())
  const walk = walkOf(read, { charges: 2 })
  const { off } = walk.firmware.edges()!

  it('is a connector behind the board with the mean square of the longer pulse, in steps of time', () => {
    const held = walk.hold({ charge: 1, celsius: walk.around.celsius.to, age: 0 })
    const { rest, source, load, switch: on } = held
    const square = meanSquareOf(
      rest.upper,
      source.resistance.lower,
      load.lower + on.lower,
      read.parts.capacitance,
      0.8e-3 + off,
    )
    const row = (id: string) => held.rows.find((one) => one.id === `supply/${id}`)!.margin
    const rms = row('current-limit-of-connector-of-the-blade').worst
    expect(rms ** 2).toBeGreaterThan(square * (1 - 1e-4))
    expect(rms ** 2).toBeLessThan(square * 1.02)
    // Joule's law with what 7.5 mohm of copper come to at the limit of 105 degC, where the row takes the loss, at 40 K/W.
    const celsius = walk.around.celsius.to + 40 * square * 7.5e-3 * (1 + 3.93e-3 * 85)
    const { worst } = row('temperature-of-connector-of-the-blade')
    expect(worst).toBeGreaterThan(celsius - 1e-2)
    expect(worst).toBeLessThan(celsius + 0.3)
  })

  it('is a path whose resistance rises with it: no less than by the current that full cells drive through it in longer pulses', () => {
    const warming = (given: Design) =>
      readDesign(given).parts.supply.path!.find(({ name }) => name === 'warming behind the board')!.resistance.upper
    const longer = warming(design({ pwm: { frequency: '1 kHz', duty: { from: 0.1, to: 0.8 } } }))
    const slow = warming(design({ pwm: { frequency: '0.1 Hz', duty: { from: 0.1, to: 0.8 } } }))
    const always = warming(design({ pwm: { frequency: '0.1 Hz', duty: { from: 0.1, to: 0.8 + off * (1e3 - 0.1) } } }))
    expect(longer / slow).toBeGreaterThan(1 + (0.9 * off * 1e3) / 0.8)
    expect(longer / always).toBeCloseTo(1, 5)
  })

  it('holds a board hotter by the share by which its pulse is longer than it is told', () => {
    const hottest = (frequency: string) => {
      const one = readDesign(design({ pwm: { frequency, duty: { from: 0.1, to: 0.8 } } }))
      const over = walkOf(one, { charges: 2 })
      const { solved } = over.over({
        charge: { from: 1, to: 1 },
        celsius: { from: 40, to: 40 },
        age: { from: 0, to: 0 },
      })
      const place = { charge: 1, celsius: 40, age: 0 }
      const middle = () => new Float64Array([0.5])
      const [, warm] = boardsAt(one, { ...solved, place }, exact(0), middle, 1, over.firmware)
      return warm!.celsiusOf('wiring and copper')![0]! - 40
    }
    expect(hottest('1 kHz') / hottest('0.1 Hz')).toBeGreaterThan(1 + (0.9 * off * 1e3) / 0.8)
    expect(hottest('1 kHz') / hottest('0.1 Hz')).toBeLessThan(1 + (1.1 * off * 1e3) / 0.8)
  })
})

describe('the last burst of a switch that is off late', () => {
  it('takes as much more from the cells as its pulses are longer', () => {
    const slow = readDesign(design())
    const told = endedSupply({ ...slow, parts: { ...slow.parts, supply: slow.supply } })
    const { off } = walkOf(slow, { charges: 2 }).firmware.edges()!
    const late = endedSupply({ ...slow, parts: { ...slow.parts, supply: slow.supply } }, () => ({ on: 0, off }))
    const { source } = slow.supply
    if (source.kind !== 'cell') throw new Error('a cell')
    // 3.1 V and what is missing of it drive 0.5 to 0.9 ohm: between 3 and 6 A for 20 s, of the least capacity when old.
    const more = (told.emptyCharge - late.emptyCharge) * source.capacity.lower
    expect(more).toBeGreaterThan(3 * 20 * off * 1e3)
    expect(slow.parts.emptyCharge).toBeLessThan(told.emptyCharge)
    expect(slow.parts.emptyCharge).toBeCloseTo(late.emptyCharge, 4)
  })
})

describe('what ripples with pulses that the switch lengthens', () => {
  const duty = { from: 0.1, to: 0.2 }
  const filter = { resistance: '3.3 kohm ±1 %', capacitance: '4.7 uF ±10 %' }
  const given = design({
    pwm: { frequency: '1 kHz', duty },
    hall: { ...exampleDesign.hall, reading: 'averaged', filter },
  })
  const walk = walkOver(given)
  const { on, off } = walk.firmware.edges()!
  const held = walk.hold({ charge: 1, celsius: walk.around.celsius.to, age: 0 })
  const worst = (id: string) => held.rows.find((one) => one.id === id)!.margin.worst

  it('is a mean through one pole: its crest at the longest of them, in closed form', () => {
    const time = 3.3e3 * 0.99 * 4.7e-6 * 0.9
    const crest = (share: number) => (1 - Math.exp((-share * 1e-3) / time)) / (1 - Math.exp(-1e-3 / time)) - share
    const longest = duty.to + off * 1e3
    // The largest current that must be read is 6.5 A; a few ohm of the sensor's output are in the pole as well.
    expect(worst('hall/ripple')).toBeGreaterThan(0.99 * 6.5 * crest(longest))
    expect(worst('hall/ripple')).toBeLessThan(1.01 * 6.5 * crest(longest))
    expect(crest(longest) / crest(duty.to)).toBeGreaterThan(1.05)
  })

  it('is the current of the capacitors, with the root of the share of the pulses and of what is left of the period', () => {
    const told = walkOver(design({ pwm: { frequency: '1 kHz', duty: { from: duty.from, to: duty.to + off * 1e3 } } }))
    // Those two pulses are told as long as these really are, and are longer again: by as much once more.
    const ripple = (share: number) => Math.sqrt(share * (1 - share))
    const more = told.hold({ charge: 1, celsius: walk.around.celsius.to, age: 0 })
    const again = more.rows.find((one) => one.id === 'decoupling/PWM/ripple-1')!.margin.worst
    const ratio = worst('decoupling/PWM/ripple-1') / again
    const [once, twice] = [ripple(duty.to + off * 1e3), ripple(duty.to + 2 * off * 1e3)]
    expect(ratio).toBeGreaterThan((once / twice) * 0.99)
    expect(ratio).toBeLessThan(1)
  })

  it('covers no pulse that is shorter than its current takes to rise, nor one that has no end', () => {
    const at = (from: number, to: number, rise: string) => {
      const read = readDesign(
        design({ load: { ...exampleDesign.load, rise }, pwm: { frequency: '1 kHz', duty: { from, to } } }),
      )
      const { solved } = walkOf(read, { charges: 2 }).over({
        charge: { from: 1, to: 1 },
        celsius: { from: 25, to: 25 },
        age: { from: 0, to: 0 },
      })
      return decouplingAt(read, solved, 'PWM', { on, off }).choice.load.pwm!.duty as { from: number; to: number }
    }
    expect(at(0.1, 0.2, '1 us').from).toBeCloseTo(0.1 - on * 1e3, 12)
    expect(at(0.1, 0.2, '1 us').to).toBeCloseTo(0.2 + off * 1e3, 12)
    expect(at(0.1, 0.2, '98 us').from).toBeCloseTo(0.098, 12)
    expect(at(0.1, 0.9, '40 us').to).toBeCloseTo(0.92, 12)
    expect(at(0.1, 0.995, '1 us').to).toBeCloseTo(0.998, 12)
    expect(at(0.1, 1, '1 us').to).toBeCloseTo(0.998, 12)
  })
})

describe('the duties in which a load conducts', () => {
  const pwm = { pwm: { frequency: 1000, duty: { from: 0.1, to: 1 } } }

  it('are earlier and later by the edges in a period, inside it; a load that is on for good has none', () => {
    const of = (duty: number, on: number, off: number) => conductingIn(pwm, { on, off }, duty)
    expect(of(0.5, 1e-5, 2e-5).from).toBeCloseTo(0.49, 12)
    expect(of(0.5, 1e-5, 2e-5).to).toBeCloseTo(0.52, 12)
    expect(of(0.5, 0, 1).to).toBe(1)
    expect(of(0.5, 1, 0).from).toBeCloseTo(0.0005, 12)
    expect(of(1, 1e-5, 2e-5)).toEqual({ from: 1, to: 1 })
    expect(conductingIn(pwm, undefined, 0.5)).toEqual({ from: 0.5, to: 0.5 })
  })
})
