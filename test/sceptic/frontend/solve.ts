import type { Board } from '../tools/board.js'
import { along } from './circuit.js'
import type { SupplyValue, Whole } from './whole.js'

/** What a board has at a place, by Kirchhoff's laws: volts, amperes, ohms, degrees Celsius. */
export interface Solved {
  /** Main rail at rest, while the resistance is read, and with the load on. */
  rest: number
  measuring: number
  sag: number
  /** The rail behind it; the main one where there is none. */
  restBehind: number
  measuringBehind: number
  sagBehind: number
  /** What hangs on the main rail in all, and on the one behind it. */
  draw: number
  drawBehind: number
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

/** The rail behind the main one, at a main rail and a current. */
function behindOf({ plain: { behind } }: Whole, b: B, main: number, amperes: number, celsius: number): number {
  switch (behind.kind) {
    case 'none':
      return main
    case 'regulator':
      return amperes > behind.most ? 0 : Math.max(0, Math.min(b.railSet, main - amperes * b.railOhms))
    case 'diode': {
      const slope = b.railEmission * BOLTZMANN_OVER_CHARGE * (celsius + 273.15)
      const drop = b.railDrop + slope * Math.log(amperes / behind.at) - b.railDrift * (celsius - 25)
      return Math.max(0, main - Math.max(0, drop))
    }
    case 'resistor':
      return Math.max(0, main - amperes * b.railOhms)
  }
}

/** Currents that are always there, on the main rail in all and on the one behind it. */
function drawsOf({ plain: { lives, behind } }: Whole, b: B) {
  const at = (isBehind: boolean) =>
    (lives.controller === isBehind ? b.always : 0) +
    (lives.sensor === isBehind ? b.sensorDraw : 0) +
    (lives.amplifier === isBehind ? b.amplifierDraw : 0)
  const drawBehind = at(true)
  return { draw: at(false) + drawBehind + (behind.kind === 'regulator' ? b.railOwn : 0), drawBehind }
}

/** Rail at rest at another place, as when a zero was read. */
export function restingAt(whole: Whole, b: B, charge: number, celsius: number, life: number) {
  const { open, ohms } = sourceOf(whole, b, charge, celsius, life)
  const { draw, drawBehind } = drawsOf(whole, b)
  const path = (['contacts', 'protection', 'wiring'] as const).reduce((sum, name) => sum + b[name], 0)
  const main = open - b.drop - draw * (ohms + path)
  return { main, behind: behindOf(whole, b, main, drawBehind, celsius) }
}

/** Everything on a board at its place; a loop that is turned until it stands, since all of it hangs together. */
export function solve(whole: Whole, b: B, loop: number): Solved {
  const { plain, switch: own, divider } = whole
  const { celsius } = b
  const { draw, drawBehind } = drawsOf(whole, b)
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
    const level = own.plain.channel === 'N' ? behindOr(plain.lives.controller, sag) : sag - b.saturation
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
  function behindOr(isBehind: boolean, main: number): number {
    return isBehind ? behindOf(whole, b, main, drawBehind, celsius) : main
  }
  const rest = open - draw * source
  const excited = divider.plain.atRail ? false : plain.lives.converter
  let test = 0
  let measuring = rest
  let measuringBehind = behindOf(whole, b, rest, drawBehind, celsius)
  for (let turn = 0; turn < 3; turn++) {
    test = (divider.plain.ownExcitation ? b['divider excitation'] : excited ? measuringBehind : measuring) / loop
    measuring = open - (draw + test) * source
    measuringBehind = behindOf(whole, b, measuring, drawBehind + (excited ? test : 0), celsius)
  }
  return {
    rest,
    measuring,
    sag,
    restBehind: behindOf(whole, b, rest, drawBehind, celsius),
    measuringBehind,
    sagBehind: behindOf(whole, b, sag, drawBehind, celsius),
    draw,
    drawBehind,
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
