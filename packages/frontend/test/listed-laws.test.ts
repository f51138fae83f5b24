import { exampleDesign, exampleDesigns, firstBoard, type ReadDesign, readDesign, solveAt } from '@ohmward/frontend'
import { between, exact } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { remembered } from '../../../test/tools/remembered.js'
import { drawerOf, standbyOf } from '../src/answer/standby.js'
import { boardByNodes, type Draw, drawsOf } from './nodes.js'

/* The list for the first board against boards at random, from circuit laws alone; the drawer against arithmetic. */

const listed = remembered(firstBoard)

describe('the list for the first board', () => {
  const design = readDesign(exampleDesign)
  const place = { charge: 1, celsius: 25, age: 0 }
  const on = solveAt(design, place).switch
  const path = design.supply.path!
  const tap = path.findIndex((one) => one.tap === 'board')
  const point = (name: string, state: RegExp) =>
    listed(exampleDesign).find((one) => one.point === name && state.test(one.state))!

  /** What a probe finds on a board whose parts are drawn, by point and state. */
  function probed(draw: Draw) {
    const drawn = new Map<unknown, number>()
    const { U, rest, current } = boardByNodes(design, place, on, (limits) => {
      const one = draw(limits)
      drawn.set(limits, one)
      return one
    })
    const idle = drawn.get(design.controller.current)!
    const across = path.map((one, i) => {
      const warm = one.temperatureCoefficient === 'copper' ? 1 + 0.00393 * 5 : 1
      return [
        'across ' + one.name,
        /load on/,
        drawn.get(one.resistance)! * warm * (current + (i <= tap ? idle : 0)),
      ] as const
    })
    return [
      ['rail main to ground', /load off/, rest],
      ['rail main to ground', /load on/, U],
      ['current in the load', /load on/, current],
      ['across the switch, warm', /load on/, current * drawn.get(on)!],
      ...across,
    ] as const
  }

  it('names what there is to probe: each rail asleep, at rest and loaded, each element, what is read', () => {
    const points = (name: 'knife' | 'mat') => listed(exampleDesigns[name]).map(({ point }) => point)
    const elements = (name: 'knife' | 'mat') => exampleDesigns[name].supply.path.map((one) => `across ${one.name}`)
    const measured = ['resistance as read, the nominal load connected']
    const currents = (...all: string[]) => all.map((one) => `current as read: ${one}`)
    const last = ['across the switch, warm', 'gate to source of the switch']
    expect(points('knife')).toEqual([
      ...[
        'cells, at their terminals',
        'current from the cells, without resistances across them',
        'rail main to ground',
      ],
      ...['code of the internal reference', ...measured],
      ...currents('indicated current at 1 A', 'indicated current at 6 A', 'current at which the trip acts'),
      ...['rail main to ground', 'current in the load'],
      ...['the end of a burst', '60 s after a burst'].map((of) => `cells, recovery from ${of} to half an hour later`),
      ...[...elements('knife'), ...last],
    ])
    expect(points('mat')).toEqual([
      ...['current from the port, without resistances across it', 'rail main to ground', 'rail logic to ground'],
      ...measured,
      ...currents('indicated current at 500 mA', 'indicated current at 1 A', 'current at which the trip acts'),
      ...['rail main to ground', 'rail logic to ground', 'current in the load', ...elements('mat'), ...last],
    ])
  })

  it('has no board of good parts beyond its limits, and some close to each of them', () => {
    const random = drawsOf(4711)
    // At random, and with every part at one end or the other of its limits.
    const ends = (bits: number): Draw => {
      let n = 0
      return ({ lower, upper }) => ((bits >> n++) & 1 ? upper : lower)
    }
    const draws = [...Array.from({ length: 300 }, () => random), ...Array.from({ length: 1024 }, (_, k) => ends(k))]
    const found = new Map<string, [number, number]>()
    for (const draw of draws)
      for (const [name, state, value] of probed(draw)) {
        const [lower, upper] = found.get(name + state) ?? [Infinity, -Infinity]
        found.set(name + state, [Math.min(lower, value), Math.max(upper, value)])
      }
    for (const [name, state] of probed(random)) {
      const { lower, expected, upper } = point(name, state)
      const [least, most] = found.get(name + state)!
      expect(least, `${name} at least`).toBeGreaterThanOrEqual(lower - 1e-9)
      expect(most, `${name} at most`).toBeLessThanOrEqual(upper + 1e-9)
      // What warms in use lies a little further; a product has both of its factors at their worst.
      const wide = upper - lower
      expect(least - lower, `${name} at least`).toBeLessThan(0.25 * wide)
      expect(upper - most, `${name} at most`).toBeLessThan(0.25 * wide)
      expect(expected).toBeGreaterThan(lower + 0.2 * wide)
      expect(expected).toBeLessThan(upper - 0.2 * wide)
    }
  })

  it('is made in the air that is told, or in what of its own is nearest', () => {
    const { from, to } = design.ambientCelsius
    for (const [told, celsius] of [
      [-80, from],
      [200, to],
    ] as const) {
      const { expected } = firstBoard(exampleDesign, told).find(({ point }) => point === 'current in the load')!
      expect(expected).toBe(solveAt(design, { charge: 1, celsius, age: 0 }).current.nominal)
    }
  })
})

describe('what draws in the drawer', () => {
  const cells = {
    ...{ kind: 'cell', inSeries: 2, openCircuit: { x: [0, 0.5, 1], y: [3, 3.7, 4.2] } },
    openCircuitSpread: between(-0.02, 0.03, 0),
  }
  const divider = { upper: between(99e3, 101e3, 100e3), lower: between(49e3, 51e3, 50e3) }
  const drawn = (more: object, own: object = divider) =>
    drawerOf({
      ...{ standby: [], supply: { source: cells }, lives: { pinClamp: 0.3 }, monitor: { divider: own }, ...more },
    } as unknown as ReadDesign).map(({ name, current }) => [name, current!.lower, current!.nominal, current!.upper])
  const close = (value: number) => expect.closeTo(value, 12)
  const name = 'divider of the monitor'
  // Two full cells: 8.36 V to 8.46 V, 8.4 V of nominal ones.
  const [least, full] = [8.36, 8.46]
  const logic = (more: object) => ({
    lives: { pinClamp: 0.3, converter: 'logic' },
    rails: [{ name: 'logic', source: 'main', through: { kind: 'regulator', quiescentCurrent: exact(5e-6), ...more } }],
  })
  const through = [name, close(least / 152e3), close(8.4 / 150e3), close(full / 148e3)]

  it('is the divider of the cells, through both of its resistors or into the clamp of a rail that is off', () => {
    expect(drawn({})).toEqual([through])
    // With the rail off more flows through the upper one into the clamp.
    const clamp = (held: number) => (full - held - 0.3) / 99e3
    const off = logic({ inDrawer: 'off' })
    expect(drawn(off)).toEqual([[...through.slice(0, 3), close(clamp(0))]])
    const on = logic({ inDrawer: 'on', voltage: { lower: 2.9 } })
    const regulator = ['regulator of logic', 5e-6, 5e-6, 5e-6]
    expect(drawn(on)).toEqual([[...through.slice(0, 3), close(Math.max(full / 148e3, clamp(2.9)))], regulator])
    // A regulator gives no more than it is fed with: at 9 V its rail stands at the cells.
    expect(drawn(logic({ inDrawer: 'on', voltage: { lower: 9 } }))[0]).toEqual(through)
  })

  it('is with the lower end open what the clamp takes, nothing on the rail of the cells, and nothing with the upper one open', () => {
    const open = { ...divider, inDrawer: 'off below' }
    const into = (held: number) => [name, 0, close((full - held - 0.3) / 99e3), close((full - held - 0.3) / 99e3)]
    expect(drawn(logic({ inDrawer: 'off' }), open)).toEqual([into(0)])
    expect(drawn(logic({ inDrawer: 'on', voltage: { lower: 2.9 } }), open)[0]).toEqual(into(2.9))
    expect(drawn({}, open)).toEqual([])
    // Another rail in between hands on what it is fed with.
    const chain = logic({ inDrawer: 'off' })
    const direct = { name: 'own', source: 'logic', through: { kind: 'direct' } }
    const behind = { lives: { pinClamp: 0.3, converter: 'own' }, rails: [...chain.rails, direct] }
    expect(drawn(behind, open)).toEqual([into(0)])
    expect(drawn({}, { ...divider, inDrawer: 'off above' })).toEqual([])
    expect(drawn({ supply: { source: { kind: 'port' } } })).toEqual([])
    for (const part of [{ upper: divider.upper }, { lower: divider.lower }, {}]) expect(drawn({}, part)).toEqual([])
  })

  it('is every regulator that stays on, and what is listed, in that order', () => {
    const rails = ['on', 'off', 'on'].map((inDrawer, i) => ({
      ...{ name: `r${i}`, source: 'main', through: { kind: 'regulator', inDrawer, quiescentCurrent: exact(1e-6 * i) } },
    }))
    const standby = [{ name: 'LED', current: exact(1e-5) }]
    expect(drawn({ rails, standby, monitor: undefined }).map(([one]) => one)).toEqual([
      ...['LED', 'regulator of r0', 'regulator of r2'],
    ])
  })

  it('leaves so many days as its charge over its current, and wants those that are asked for', () => {
    const asked = (requirements: object, listed = '100 uA') => {
      const { monitor: _, ...bare } = exampleDesign
      const design = readDesign({
        ...bare,
        supply: {
          ...exampleDesign.supply,
          source: { ...exampleDesign.supply.source, selfDischarge: 0, capacityLeft: 1 },
        },
        standby: [
          { name: 'clock', current: listed },
          { name: 'LED', current: '300 uA' },
        ],
        requirements: { ...exampleDesign.requirements, standbyDays: undefined, ...requirements },
      } as never)
      return standbyOf(design, null)!
    }
    const { daysToCutOff, switchOff, daysToDamage } = asked({})
    // From full to 3 V at the latest, of 13 824 C at least: the curve comes to 3 V between 1.5 % and 4.5 % of its charge.
    const days = (share: number, amperes: number) => (13_824 * share) / amperes / 86_400
    expect(daysToCutOff.lower).toBeGreaterThan(days(1 - 0.0452, 4e-4))
    expect(daysToCutOff.lower).toBeLessThan(days(1 - 0.0151, 4e-4))
    // The larger gain first: without the LED four times as long.
    expect(switchOff.map(({ name }) => name)).toEqual(['LED', 'clock'])
    expect(switchOff[0]!.days).toBeCloseTo(4 * daysToCutOff.lower, 6)
    expect(switchOff[0]!.gained).toBeCloseTo(3 * daysToCutOff.lower, 6)
    expect(switchOff[1]!.current).toBeCloseTo(1e-4, 12)
    const verdict = (requirements: object) => asked(requirements).verdict
    const [before, after] = [daysToCutOff.lower, daysToDamage.lower]
    expect(verdict({ standbyDays: before * 0.999 })).toBe('holds')
    expect(verdict({ standbyDays: before * 1.001 })).toBe('fails')
    expect(verdict({ daysAfterCutOff: after + 0.001 })).toBe('fails')
    expect(verdict({ standbyDays: before * 0.999, daysAfterCutOff: after + 0.001 })).toBe('fails')
  })
})
