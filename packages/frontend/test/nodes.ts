import type { Place, ReadDesign } from '@ohmward/frontend'

interface Limits {
  readonly lower: number
  readonly upper: number
}

/** A value between limits. */
export type Draw = (limits: Limits) => number

/** Park and Miller's generator, 1988. */
export function drawsOf(start: number): Draw {
  let seed = start
  return ({ lower, upper }) => {
    seed = (seed * 16807) % 2147483647
    return lower + ((upper - lower) * seed) / 2147483647
  }
}

/** A line through points. */
function line({ x, y }: { readonly x: readonly number[]; readonly y: readonly number[] }, at: number): number {
  const i = Math.max(
    1,
    x.findIndex((one) => one >= at),
  )
  return y[i - 1]! + ((y[i]! - y[i - 1]!) * (at - x[i - 1]!)) / (x[i]! - x[i - 1]!)
}

/** One board from circuit laws alone: two nodes, the cell behind its resistance, the controller and the load at the board. */
export function boardByNodes(
  { supply, load, controller }: ReadDesign,
  { charge, celsius, age }: Place,
  on: Limits,
  draw: Draw,
) {
  const { source } = supply
  if (source.kind !== 'cell') throw new Error('cells')
  const path = supply.path ?? []
  const tap = path.findIndex((one) => one.tap === 'board')
  const V = line(source.openCircuit, charge) + draw(source.openCircuitSpread)
  const aged = 1 + (draw(source.ageFactor) - 1) * age
  const cell =
    draw(source.resistance) * line(source.temperatureFactor, celsius) * line(source.chargeFactor, charge) * aged
  const copper = 1 + 0.00393 * (celsius - 20)
  const ohms = path.map(({ resistance, temperatureCoefficient }) =>
    temperatureCoefficient === 'copper' ? draw(resistance) * copper : draw(resistance),
  )
  const R_s = cell + ohms.slice(0, tap + 1).reduce((a, b) => a + b, 0)
  const R =
    draw(load.resistance) + ohms.slice(tap + 1).reduce((a, b) => a + b, 0) + draw({ lower: 0, upper: 0.001 }) + draw(on)
  const idle = draw(controller.current)
  // Node of the board: (V - U) / R_s = U / R + I.
  const U = (V / R_s - idle) / (1 / R_s + 1 / R)
  return { U, rest: V - idle * R_s, current: U / R }
}
