import type { Branch, Load, Source, Timing } from '../src/waveform/inside.js'

export interface Case {
  readonly source: Source
  readonly parts: readonly Branch[]
  readonly idle: number
  readonly load: Load & { kind: 'current' | 'resistor' }
  readonly timing: Timing
}

/**
 * Circuits of bounded stiffness (natural times within some 1 to 10 000), so that a reference keeps its digits: one to three
 * kinds of capacitor, with and without inductance in the loop and in each of them, a current or a resistor.
 */
export function randomCase(random: () => number): Case {
  const log = (from: number, to: number): number => from * (to / from) ** random()
  const count = 1 + Math.floor(3 * random())
  const hasLoop = random() < 0.6
  const hasInductance = random() < 0.5
  const parts = Array.from({ length: count }, () => ({
    capacitance: log(2e-5, 2e-3),
    resistance: log(5e-3, 0.3),
    inductance: hasInductance && random() < 0.7 ? log(2e-9, 1e-7) : 0,
  }))
  const duration = log(2e-5, 2e-3)
  return {
    source: { voltage: log(3, 8.4), resistance: log(0.02, 0.3), inductance: hasLoop ? log(2e-8, 2e-6) : 0 },
    parts,
    idle: log(1e-3, 0.1),
    load: random() < 0.5 ? { kind: 'current', current: log(0.1, 8) } : { kind: 'resistor', resistance: log(0.3, 5) },
    timing: { rise: duration * log(0.01, 0.5), duration, fall: duration * log(0.01, 0.5) },
  }
}
