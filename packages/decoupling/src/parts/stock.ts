import { format } from '@ohmward/quantity'
import { exampleCapacitors } from './examples.js'
import type { Capacitor } from './index.js'

/** Capacitors by class in preferred values, invented: the examples scaled, their series resistance with the square root of their size. */
export const exampleStock = (): readonly Capacitor[] => [
  ...family(exampleCapacitors.ceramic, [10e-6, 22e-6, 47e-6, 100e-6]),
  ...family(exampleCapacitors.polymer, [100e-6, 220e-6, 470e-6, 1000e-6]),
  ...family(exampleCapacitors.wetAluminium, [220e-6, 470e-6, 1000e-6, 2200e-6, 4700e-6]),
]

function family(part: Capacitor, values: readonly number[]): Capacitor[] {
  const [kind] = part.name!.split(/ [0-9]/)
  const rated = Number.parseFloat(String(part.capacitance)) * 1e-6
  return values.map((value) => {
    const ratio = value / rated
    const resistance = (Number.parseFloat(String(part.seriesResistance)) * 1e-3) / Math.sqrt(ratio)
    const text = format(value, 'F', { ascii: true })
    return {
      ...part,
      name: `${kind} ${text}`,
      capacitance: `${text} ±20 %`,
      seriesResistance: resistance,
      volume: Number(part.volume) * ratio ** 0.9,
    }
  })
}
