import type { Board } from '../tools/board.js'
import { along } from './circuit.js'
import type { Behind, RailNumber } from './rail.js'
import type { SupplyValue, Whole } from './whole.js'

/** What a board has at a place, by Kirchhoff's laws: volts, amperes, ohms, degrees Celsius. */
export interface Solved {
  /** Main rail at rest, while the resistance is read, and with the load on. */
  rest: number
  measuring: number
  sag: number
  /** Every rail then, the main one first. */
  rails: Record<State, readonly number[]>
  /** What hangs on the main rail in all, and on each of those behind it. */
  draw: number
  draws: readonly number[]
  test: number
  current: number
  gate: number
  junction: number
  source: number
  open: number
  load: number
  way: number
  /** Temperature and resistance of each part of the path. */
  path: { celsius: number; ohms: number }[]
}

/** What the load does. */
export type State = 'rest' | 'measuring' | 'sag'

type B = Board<SupplyValue | 'divider excitation'>

const BOLTZMANN_OVER_CHARGE = 1.380649e-23 / 1.602176634e-19

/** Voltage of the source with nothing on it, and its resistance without the path. */
export function sourceOf({ plain: { source } }: Whole, b: B, charge: number, celsius: number, life: number) {
  if (source.kind === 'port') return { open: b.port, ohms: b.lead }
  const { inSeries, open, cold, drained, least } = source
  const factor = along(cold, celsius) * along(drained, charge) * (1 + (b.aging - 1) * life)
  // A cell is off its curve by more from a quarter of the charge down to a tenth; what has come to the cut-off isn't used.
  const off = b.cellOff + b.cellEmpty * Math.min(1, Math.max(0, (0.25 - charge) / 0.15))
  return { open: inSeries * Math.max(along(open, charge) + off, least), ohms: inSeries * b.cell * factor }
}

/** A rail, at the one that feeds it and a current. */
function behindOf(behind: Behind, n: RailNumber, b: B, main: number, amperes: number, celsius: number): number {
  switch (behind.kind) {
    case 'none':
      return main
    case 'regulator':
      return amperes > behind.most ? 0 : Math.max(0, Math.min(b[`rail${n}Set`], main - amperes * b[`rail${n}Ohms`]))
    case 'diode': {
      const slope = b[`rail${n}Emission`] * BOLTZMANN_OVER_CHARGE * (celsius + 273.15)
      const drop = b[`rail${n}Drop`] + slope * Math.log(amperes / behind.at) - b[`rail${n}Drift`] * (celsius - 25)
      return Math.max(0, main - Math.max(0, drop))
    }
    case 'resistor':
      return Math.max(0, main - amperes * b[`rail${n}Ohms`])
  }
}

/** Currents on the main rail in all and on each of those behind it: what is always there, and one more on some rail. */
function drawsOf({ plain: { lives, rails, source2 } }: Whole, b: B, more = 0, on = 0): number[] {
  const own = (rail: number) =>
    (lives.controller === rail ? b.always : 0) +
    (lives.sensor === rail ? b.sensorDraw : 0) +
    (lives.amplifier === rail ? b.amplifierDraw : 0) +
    (lives.drive === rail ? b.driveDraw : 0) +
    (on === rail ? more : 0)
  const into = (n: RailNumber, amperes: number) => amperes + (rails[n].kind === 'regulator' ? b[`rail${n}Own`] : 0)
  const second = own(2)
  const first = own(1) + (source2 === 1 ? into(2, second) : 0)
  return [own(0) + into(1, first) + (source2 === 0 ? into(2, second) : 0), first, second]
}

/** Every rail at a main one. */
function railsAt(whole: Whole, b: B, main: number, draws: readonly number[], celsius: number): number[] {
  const { rails, source2 } = whole.plain
  const first = behindOf(rails[1], 1, b, main, draws[1]!, celsius)
  return [main, first, behindOf(rails[2], 2, b, source2 === 1 ? first : main, draws[2]!, celsius)]
}

/** Rails at rest at another place, as when a zero was read. */
export function restingAt(whole: Whole, b: B, charge: number, celsius: number, life: number) {
  const { open, ohms } = sourceOf(whole, b, charge, celsius, life)
  const draws = drawsOf(whole, b)
  const path = (['contacts', 'protection', 'wiring'] as const).reduce((sum, name) => sum + b[name], 0)
  return railsAt(whole, b, open - b.drop - draws[0]! * (ohms + path), draws, celsius)
}

/** Everything on a board at its place; a loop that is turned until it stands, since all of it hangs together. */
export function solve(whole: Whole, b: B, loop: number): Solved {
  const { plain, switch: own, divider } = whole
  const { celsius } = b
  const draws = drawsOf(whole, b)
  const draw = draws[0]!
  const { open: bare, ohms } = sourceOf(whole, b, b.charge, celsius, b.life)
  const open = bare - b.drop
  const warmth = celsius + (plain.working - celsius) * b.bladeWarm
  const load = b.blade * (1 + plain.coefficient * (plain.coefficient > 0 ? warmth - 20 : 0))
  const path = plain.path.map(({ coefficient, name }) => ({
    celsius,
    ohms: b[name] * (1 + coefficient * (celsius - 20)),
  }))
  // What is hotter than its limit has failed by that.
  const hot = (found: number) => Math.min(found, own.plain.limitCelsius)
  const gateRail = own.plain.drive === 'driver' ? plain.lives.drive : plain.lives.controller
  let current = 0
  let sag = open
  let gate = 0
  let junction = celsius
  let resistance = 0
  let source = 0
  for (let turn = 0; turn < 12; turn++) {
    source = ohms + path[0]!.ohms + path[1]!.ohms + path[2]!.ohms
    const behind = path[3]!.ohms + b.conductor + resistance / own.plain.parallel
    current = Math.min((open - draw * source) / (source + behind + load), b.portLimit - draw)
    sag = Math.min(open - (draw + current) * source, current * (behind + load))
    const level = own.plain.channel === 'N' ? railsAt(whole, b, sag, draws, celsius)[gateRail]! : sag - b.saturation
    const series = b.driveResistance + (own.plain.pullAt === 'gate' ? b.gateResistor : 0)
    gate = (level * b.pull) / (series + b.pull)
    let line = own.plain.lines[0]!
    for (const one of own.plain.lines) if (one.gate <= gate) line = one
    resistance = (line.typical + b.lot * (line.most - line.typical)) * (1 + own.plain.perKelvin * (hot(junction) - 25))
    const loss = (current / own.plain.parallel) ** 2 * resistance
    junction = Math.min(celsius + b.junction * b.thermal * loss, 1000)
    path.forEach((one, k) => {
      const { name, coefficient, thermal } = plain.path[k]!
      const amperes = current + (k < 3 ? draw : 0)
      const volts = name === 'protection' ? b.drop : 0
      one.celsius = Math.min(celsius + b.heat * thermal * (amperes ** 2 * one.ohms + amperes * volts), 1000)
      one.ohms = b[name] * (1 + coefficient * (one.celsius - 20))
    })
  }
  const rest = open - draw * source
  const excited = divider.plain.atRail ? 0 : plain.lives.converter
  let test = 0
  let measuring = railsAt(whole, b, rest, draws, celsius)
  for (let turn = 0; turn < 3; turn++) {
    test = (divider.plain.ownExcitation ? b['divider excitation'] : measuring[excited]!) / loop
    const more = drawsOf(whole, b, test, divider.plain.ownExcitation ? 0 : excited)
    measuring = railsAt(whole, b, open - (draw + test) * source, more, celsius)
  }
  return {
    rest,
    measuring: measuring[0]!,
    sag,
    rails: {
      rest: railsAt(whole, b, rest, draws, celsius),
      measuring,
      sag: railsAt(whole, b, sag, draws, celsius),
    },
    draw,
    draws,
    test,
    current,
    gate,
    junction,
    source,
    open,
    load,
    way: path[3]!.ohms + b.conductor + resistance / own.plain.parallel,
    path,
  }
}
