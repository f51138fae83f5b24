import { type Design, exampleDesign, parseDesign, readDesign, writeDesign } from '@ohmward/frontend'
import { runCommand } from '@ohmward/frontend/command'
import { describe, expect, it } from 'vitest'

const { mosfet: _, ...withoutSwitch } = exampleDesign
const { source } = exampleDesign.supply
const supplied = (more: object): object => ({ ...exampleDesign, supply: { ...exampleDesign.supply, ...more } })

/** What is wrong with a design, and what its reader is told. */
const bad: Readonly<Record<string, readonly [given: object | string, told: RegExp]>> = {
  'a missing part': [withoutSwitch, /design = an object: allowed is .*missing.*mosfet/is],
  'an unknown field': [{ ...exampleDesign, decouplin: {} }, /did you mean decoupling/],
  'an unknown field of a block': [
    { ...exampleDesign, hall: { ...exampleDesign.hall, senser: 1 } },
    /hall = .*did you mean sensor/,
  ],
  'a value out of bounds in a block': [
    { ...exampleDesign, divider: { ...exampleDesign.divider, reference: '-47 ohm' } },
    /divider\.reference = "-47 ohm"/,
  ],
  'a calibration that is nothing': [
    { ...exampleDesign, hall: { ...exampleDesign.hall, calibration: null } },
    /hall\.calibration\.kind = null: allowed is "none"/,
  ],
  'a board that is no tap of the path': [
    { ...exampleDesign, board: 'bord' },
    /\bboard = "bord": allowed is a tap of supply\.path: board\. Did you mean board\?/,
  ],
  'air colder than the cells are stated for': [
    { ...exampleDesign, ambientCelsius: { from: -40, to: 35 } },
    /\bambientCelsius\.from = -40 degC: allowed is from -20 to 60 degC, where supply\.source\.temperatureFactor has points/,
  ],
  'air hotter than the cells are stated for': [
    { ...exampleDesign, ambientCelsius: { from: 0, to: 70 } },
    /\bambientCelsius\.to = 70 degC: allowed is from -20 to 60 degC/,
  ],
  'a capacitor that is stated for less cold than the air': [
    {
      ...exampleDesign,
      ambientCelsius: { from: -20, to: -20 },
      decoupling: {
        capacitors: [{ ...exampleDesign.decoupling.capacitors[0], cold: '-10 degC: 2.5, 20 degC: 1, 105 degC: 0.6' }],
      },
    },
    /allowed is points that reach -20 degC\. They go from -10 to 105 degC/,
  ],
  'limits that contradict each other': [
    { ...exampleDesign, monitor: { warning: '3 V', stop: '3.2 V' } },
    /monitor\.stop = 3\.2 V: allowed is at most the warning, 3 V/,
  ],
  'a cell curve that falls on the way up': [
    supplied({ source: { ...source, openCircuit: '0: 3.0 V, 0.5: 3.8 V, 1: 3.6 V' } }),
    /supply\.source\.openCircuit/,
  ],
  'a rail that hangs on itself': [
    {
      ...exampleDesign,
      rails: [
        { name: 'a', source: 'b', through: { kind: 'direct' } },
        { name: 'b', source: 'a', through: { kind: 'direct' } },
      ],
    },
    /rails\[0\]\.source = "b".*a from b/,
  ],
  'a load that the cell cannot feed': [
    { ...exampleDesign, requirements: { power: '60 W' } },
    /requirements\.power = 60 W.*at most 2\d\.\d W/,
  ],
  'a controller that the cell cannot feed': [
    { ...exampleDesign, controller: { ...exampleDesign.controller, current: '90 A' } },
    /controller\.current = 90 A: allowed is what the supply gives\. The load asks for/,
  ],
  'bursts that are asked for and not there': [
    { ...exampleDesign, bursts: undefined, requirements: { bursts: 100 } },
    /requirements\.bursts = 100: allowed is nothing without bursts/,
  ],
  'a watchdog that ends each burst': [
    { ...exampleDesign, bursts: { time: '20 s', watchdog: '10 s' } },
    /bursts\.watchdog = 10 s: allowed is at least bursts\.time, 20 s/,
  ],
  'text behind the end': ['{"a": 1} x', /line 1, column 10/],
  'no JSON': ['{\n  "version": 1,\n  "name": ,\n}', /line 3, column 11 = ",": allowed is a value/],
  'a file that breaks off': ['{"version": 1', /line 1, column 14/],
  'a version from the future': [{ ...exampleDesign, version: 2 }, /version = 2: allowed is 1.*later release/],
}

describe.each(Object.entries(bad))('%s', (_, [given, told]) => {
  const text = typeof given === 'string' ? given : writeDesign(given as Design)

  it('is refused by the reader', () => {
    expect(() => readDesign(parseDesign(text))).toThrow(told)
  })

  it.each(['check', 'change', 'boards', 'list'])(
    'is said by ohmward %s, which exits with 2 and prints nothing',
    (verb) => {
      const { exit, out, error } = runCommand([verb, 'knife.json'], () => text)
      expect({ exit, out }).toEqual({ exit: 2, out: '' })
      expect(error).toMatch(told)
      expect(error).toMatch(/^knife\.json: .*\n$/s)
    },
  )
})
