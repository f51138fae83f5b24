import { sweepDecoupling } from '@ohmward/decoupling'
import { sweepDivider } from '@ohmward/divider'
import {
  type Design,
  decouplingAt,
  dividerAt,
  exampleDesign,
  hallAt,
  mosfetAt,
  readDesign,
  solveAt,
  solveOver,
  walkOf,
} from '@ohmward/frontend'
import { checkHall } from '@ohmward/hall'
import { checkMosfet } from '@ohmward/mosfet'
import { stretchOf } from '@ohmward/supply'
import { describe, expect, it } from 'vitest'
import { beforeBoard } from '../src/supply/path.js'
import { boardByNodes, drawsOf } from './nodes.js'

const design = readDesign(exampleDesign)
const places = [
  { charge: 1, celsius: 50, age: 0 },
  { charge: 0.4, celsius: 0, age: 1 },
  { charge: 0.1, celsius: 25, age: 0.5 },
]

describe('supply, switch and load', () => {
  it.each(places)('close at %o: voltages around the loop add up to 1 part in 1e9', (place) => {
    const { source, load, switch: on, rest, rail, current } = solveAt(design, place)
    const idle = design.controller.current
    // Kirchhoff, with the nominal parts: open circuit = (load + controller) through the source + load + switch.
    const I = current.nominal
    const around = (I + idle.nominal) * source.resistance.nominal + I * (load.nominal + on.nominal)
    expect(Math.abs(around / source.openCircuit.nominal - 1)).toBeLessThan(1e-9)
    expect(rest.nominal).toBeCloseTo(source.openCircuit.nominal - idle.nominal * source.resistance.nominal, 9)
    expect(Math.abs((I * (load.nominal + on.nominal)) / rail.nominal - 1)).toBeLessThan(1e-9)
  })

  it('reach the lowest rail with the weakest source and the smallest resistances, by plain arithmetic', () => {
    const { source, load, switch: on, rail, rest } = solveAt(design, places[1]!)
    const R = load.lower + on.lower
    expect(rail.lower).toBeCloseTo((rest.lower * R) / (R + source.resistance.upper), 9)
  })

  it('draw at the step what the least lot lets through while its junction is cold', () => {
    const { source, rest, load, switch: on, current } = solveAt(design, { charge: 1, celsius: 0, age: 0 })
    // 2.5 V: at most 19 mohm, typically 14.5, so at least 10; of that at 0 degC two thirds of the way from 0.78 to 1.
    const least = 0.01 * (0.78 + (0.22 * 50) / 75)
    expect(on.lower).toBeLessThanOrEqual(least)
    expect(on.lower).toBeGreaterThan(0.7 * least)
    expect(current.upper).toBeGreaterThanOrEqual(rest.upper / (source.resistance.lower + load.lower + least))
  })

  it('leave the reading of the resistance a rail that its own test current has pulled down', () => {
    const { source, rest, rails } = solveAt(design, places[1]!)
    // 47 ohm less 0.1 %, a switch of 0.5 ohm less 20 % and the smallest load, 0.5 ohm, across the rail at rest.
    const R = 47 * 0.999 + 0.4 + 0.5
    const [lower] = [(rest.lower * R) / (R + source.resistance.upper)]
    const read = (wait: string) => {
      const patient = readDesign({ ...exampleDesign, divider: { ...exampleDesign.divider, timing: { wait } } })
      const { firmware } = walkOf(patient, { charges: 2 })
      return dividerAt(patient, solveAt(patient, places[1]!), firmware).conditions.rail
    }
    // Long after a pulse: soon after one, capacitors are still charged.
    const { from, to } = read('0.1 s')
    expect(from).toBeLessThanOrEqual(lower)
    expect(from).toBeGreaterThan(lower - 1e-3)
    expect(from).toBe(rails['main']!.measuring.lower)
    expect(to).toBeLessThan(rest.upper)
    expect(read('0.5 ms').from).toBeLessThan(from as number)
  })

  it('take the resistance behind the board as load: connector and blade at 20 degC, conductor from nothing to 1 mohm', () => {
    const { load } = solveAt(design, { charge: 1, celsius: 20, age: 0 })
    expect(load.lower).toBeCloseTo(0.7 * 0.95 + 0.0025, 9)
    // The connector warms by its own loss, by less than 0.5 mohm.
    expect(load.upper).toBeGreaterThan(0.7 * 1.05 + 0.0075 + 0.001)
    expect(load.upper).toBeLessThan(0.7 * 1.05 + 0.0075 + 0.001 + 0.0005)
  })

  it('count what the load makes of the path: copper by its thermal resistance, its own resistance rising as it warms', () => {
    const hottest = { charge: 1, celsius: 50, age: 0 }
    const { current, source } = solveAt(design, hottest)
    const I = current.upper * Math.sqrt(design.pwm.duty.to)
    const alpha = 0.00393
    const gains = design.supply.path!.map(({ resistance, thermalResistance = 0, tap }) => {
      const R_50 = resistance.upper * (1 + alpha * 30)
      // Steady: rise = R_th * I^2 * R_50 * (1 + alpha_50 * rise).
      const rise = (thermalResistance * I ** 2 * R_50) / (1 - thermalResistance * I ** 2 * resistance.upper * alpha)
      return { gain: resistance.upper * alpha * rise, tap }
    })
    const before = gains.slice(0, gains.findIndex(({ tap }) => tap === design.board) + 1)
    const gained = before.reduce((sum, { gain }) => sum + gain, 0)
    const cold = stretchOf(beforeBoard(design.supply.path!, design.board), 50).resistance
    const cells = source.cells!.resistance
    expect(source.resistance.lower).toBeCloseTo(cells.lower + cold.lower, 9)
    // The bound on the current leaves the switch out and adds the controller's.
    const counted = source.resistance.upper - cells.upper - cold.upper
    expect(counted).toBeGreaterThanOrEqual(gained)
    expect(counted).toBeLessThan(1.1 * gained)
    expect(gained).toBeGreaterThan(0.001)
  })
})

describe('an element of the path whose highest temperature is not stated', () => {
  const rowsWith = (thermalResistance: string) => {
    const { supply } = exampleDesign
    const bare = { name: 'thin wire', resistance: '50 mohm ±10 %', temperatureCoefficient: 'copper', thermalResistance }
    const walk = walkOf(
      readDesign({ ...exampleDesign, supply: { ...supply, path: [bare, ...supply.path] } as Design['supply'] }),
      {
        charges: 2,
      },
    )
    const held = walk.over({ charge: { from: 1, to: 0.1 }, ...walk.around })
    const stage = walk.stages.find(({ block }) => block === 'supply')!
    return held.ready(stage).map(({ id }) => ({ id, margin: held.margin(stage, id)! }))
  }

  it('fails where it runs away: 4 A in 50 mohm of copper double their loss every 255 K, so from 318 K/W on nothing settles', () => {
    const { margin } = rowsWith('1 kK/W').find(({ id }) => id === 'supply/runaway-of-thin-wire')!
    expect(margin).toMatchObject({ verdict: 'fails', unit: 'A' })
    // 55 mohm at 0.00393 1/K and 1000 K/W give each kelvin back at 2.15 A.
    expect(margin.limit).toBeCloseTo(Math.sqrt(1 / (1000 * 0.055 * 0.00393)), 9)
    expect(margin.worst).toBeGreaterThan(3)
    expect(rowsWith('20 K/W').map(({ id }) => id)).not.toContain('supply/runaway-of-thin-wire')
  })
})

describe('a span solved at once', () => {
  it('holds every board at every place in it, by node equations: 2000 boards anywhere', () => {
    const draw = drawsOf(2024)
    const span = { charge: { from: 1, to: 0.05 }, celsius: design.ambientCelsius, age: design.age }
    const over = solveOver(design, span)
    const within = (value: number, { lower, upper }: { readonly lower: number; readonly upper: number }) => {
      expect(value).toBeGreaterThanOrEqual(lower * (1 - 1e-12))
      expect(value).toBeLessThanOrEqual(upper * (1 + 1e-12))
    }
    for (let n = 0; n < 2000; n++) {
      const place = {
        charge: draw({ lower: 0.05, upper: 1 }),
        celsius: draw({ lower: span.celsius.from, upper: span.celsius.to }),
        age: draw({ lower: span.age.from, upper: span.age.to }),
      }
      const { U, rest, current } = boardByNodes(design, place, over.switch, draw)
      within(U, over.rail)
      within(rest, over.rest)
      within(current, over.current)
    }
  })
})

describe('rows of a block', () => {
  const walk = walkOf(design, { charges: 2 })
  const { firmware } = walk

  it.each(places)('inside the whole are its own at the same rail, at %o', (place) => {
    const solved = solveAt(design, place)
    const walked = walk.hold(place)
    const own = {
      divider: sweepDivider(...both(dividerAt(design, solved, firmware)), [{}])[0]!.margins,
      mosfet: checkMosfet(...both(mosfetAt(design, solved)), { simulation: false }).margins,
      hall: checkHall(...both(hallAt(design, solved, firmware)), { simulation: false }).margins,
      decoupling: sweepDecoupling(...both(decouplingAt(design, solved)), [{ ageYears: 5 * place.age }])[0]!.margins,
      // What happens as the cell makes contact is held with the load on.
      'decoupling/PWM': sweepDecoupling(...both(decouplingAt(design, solved, 'PWM', firmware.edges())), [
        { ageYears: 5 * place.age },
      ])[0]!.margins.filter(({ id }) => id !== 'contact-surge' && id !== 'short-delay'),
    }
    for (const [name, margins] of Object.entries(own)) {
      const [block, state] = name.split('/')
      const ofBlock = walked.rows.filter((row) => row.block === block && (row.state === 'PWM') === (state === 'PWM'))
      // What the load itself comes to, no block knows.
      const rows = ofBlock.filter(({ id }) => !id.startsWith('divider/range-'))
      expect(rows).toHaveLength(margins.length)
      let compared = 0
      for (const { margin } of rows) {
        const alone = margins.find(({ id }) => id === margin.id)!
        expect(Math.abs(margin.worst - alone.worst)).toBeLessThanOrEqual(1e-9 * Math.abs(alone.worst))
        expect(margin.verdict).toBe(alone.verdict)
        compared++
      }
      expect(compared).toBeGreaterThan(3)
    }
  })
})

describe('a rail under PWM', () => {
  const place = { charge: 0.5, celsius: 25, age: 0 }
  const pulsedRows = (given: Design) =>
    walkOf(readDesign(given), { charges: 2 })
      .hold(place)
      .rows.filter(({ state }) => state === 'PWM')
  const film = { name: 'film', capacitance: '100 uF ±10 %', seriesResistance: '50 mohm', ratedVoltage: '50 V' }
  const ringing: Design = {
    ...exampleDesign,
    supply: { ...exampleDesign.supply, inductance: '10 uH ±10 %' },
    load: { ...exampleDesign.load, rise: '1 us' },
    pwm: { frequency: '3 kHz', duty: { from: 0.2, to: 0.9 } },
    decoupling: { capacitors: [{ ...film, rippleCurrent: '3 A' }] },
  }

  it('is no better than at any duty that is covered, where the loop rings at one between them', () => {
    const read = readDesign(ringing)
    const { choice, conditions, at } = decouplingAt(read, solveAt(read, place))
    const rows = pulsedRows(ringing)
    const rails = [0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9].map((duty) => {
      const pulsed = { ...choice, load: { ...choice.load, pwm: { frequency: '3 kHz', duty } } }
      const { margins } = sweepDecoupling(pulsed, conditions, [at])[0]!
      for (const alone of margins) {
        const { worst } = rows.find(({ margin }) => margin.id === alone.id)!.margin
        const better = alone.sense === 'at most' ? alone.worst - worst : worst - alone.worst
        expect(better, `${alone.id} at ${duty}`).toBeLessThanOrEqual(3e-3 * Math.abs(alone.worst))
      }
      return margins.find(({ id }) => id === 'rail-brown-out')!.worst
    })
    // Neither the largest duty nor the one at a half is the worst.
    expect(Math.min(...rails)).toBeLessThan(Math.min(rails[3]!, rails[7]!) - 0.1)
  })

  it('is followed up to the last step below a duty of 1, and not where the load is on all the time', () => {
    const ids = (pwm: Design['pwm']) => pulsedRows({ ...exampleDesign, pwm }).map(({ margin }) => margin.id)
    const whole = ids({ frequency: '100 Hz', duty: { from: 0.5, to: 1 } })
    expect(whole).toContain('rail-brown-out')
    expect(whole).not.toContain('refused')
    expect(ids({ frequency: '100 Hz', duty: { from: 1, to: 1 } })).toEqual([])
  })
})

const both = <C, D>({ choice, conditions }: { readonly choice: C; readonly conditions: D }): [C, D] => [
  choice,
  conditions,
]

describe('a wider tolerance', () => {
  const { supply, divider, load, controller } = exampleDesign
  const through = (wide: string, resistance: string): Design => ({
    ...exampleDesign,
    supply: { ...supply, path: supply.path.map((one) => (one.name === wide ? { ...one, resistance } : one)) },
  })
  const gainResistors = { feedback: '22 kohm ±0.5 %', ground: '1 kohm ±0.5 %' } as const
  const wider: Record<string, Design> = {
    load: { ...exampleDesign, load: { ...load, resistance: '0.7 ohm ±10 %' } },
    protection: through('protection', '10 mohm ±40 %'),
    connector: through('connector of the blade', '5 mohm ±90 %'),
    cells: { ...exampleDesign, supply: { ...supply, source: { ...supply.source, resistance: '18 mohm ±50 %' } } },
    gain: { ...exampleDesign, divider: { ...divider, gainResistors } },
    brownOut: { ...exampleDesign, controller: { ...controller, brownOut: '2.7 V ±8 %' } },
    air: { ...exampleDesign, ambientCelsius: { from: -5, to: 55 } },
  }
  const held = (given: Design) => {
    const walk = walkOf(readDesign(given), { charges: 2 })
    return walk.over({ charge: { from: 1, to: 0.1 }, ...walk.around })
  }
  const before = held(exampleDesign)
  const rows = before.all()

  it.each(Object.keys(wider))('never improves the worst case of any row: %s', (name) => {
    const after = held(wider[name]!)
    expect(after.solved.rail.lower).toBeLessThanOrEqual(before.solved.rail.lower)
    expect(after.solved.current.upper).toBeGreaterThanOrEqual(before.solved.current.upper)
    const found = new Map(after.all().map(({ id, margin }) => [id, margin]))
    for (const { id, margin } of rows) {
      // Noise is told with what the firmware assumes of the rail, the middle of it, which moves.
      if (id === 'hall/noise') continue
      expect(found.get(id)!.slack, id).toBeLessThanOrEqual(margin.slack + 1e-9 * Math.abs(margin.limit))
    }
    expect(rows.length).toBeGreaterThan(60)
  })
})
