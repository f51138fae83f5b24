import { type Board, largest, nominalOf } from '../tools/board.js'
import type { Random } from '../tools/random.js'
import { DividerCircuit, unsettled } from './circuit.js'
import type { DividerDesign, Value } from './design.js'

/** Least slack of each row of the check over the boards of the model, by the row's word; negative fails. */
export function truths(design: DividerDesign, random: Random): Map<string, number> {
  const { plain, box } = design
  const circuit = new DividerCircuit(design)
  const found = new Map<string, number>()
  const read = (b: Board<Value>, load: number) =>
    circuit.read(b, {
      load,
      rail: b.rail,
      warmth: b.warmth,
      inUse: true,
      inputNoise: b.inputNoise,
      counts: b.counts + b.countNoise,
    })
  const row = (id: string, slack: (b: Board<Value>) => number, starts = 1) =>
    found.set(id, -largest(box, (b) => -slack(b), random, { starts }).value)

  row('headroom', (b) => {
    const y = read(b, plain.highest)
    return y.supply - plain.highDrop - y.wanted
  })
  row('dead-zone', (b) => read(b, plain.smallest).wanted - plain.lowOutput)
  if (plain.ownSupply || plain.ownReference) {
    row('full-scale', (b) => {
      const y = read(b, plain.highest)
      return y.fullScale - y.wanted
    })
  }
  row('test-current', (b) => plain.currentLimit - read(b, plain.smallest).current)
  row('dissipation', (b) => plain.ratedPower / 2 - read(b, plain.smallest).heat * plain.duty)
  row('common-mode-high', (b) => {
    const y = read(b, plain.highest)
    return y.supply - plain.commonModeHighDrop - y.input
  })
  row('common-mode-low', (b) => read(b, plain.smallest).input - plain.commonModeLow)
  if (plain.calibration !== 'none') {
    row('zero', (b) => {
      const y = circuit.read(b, {
        load: b.short,
        rail: plain.railThen,
        warmth: b.benchWarmth,
        inUse: false,
        inputNoise: b.inputNoiseShort,
        counts: 0,
      })
      return y.wanted - plain.lowOutput - (2 * y.fullScale) / 2 ** plain.bits
    })
  }
  const loads = [
    ['smallest', plain.smallest],
    ['nominal', plain.middle],
    ['largest', plain.highest],
  ] as const
  for (const [size, load] of loads) {
    const high = largest(box, (b) => circuit.reading(b, load) - load, random, { starts: 2 }).value
    const low = largest(box, (b) => load - circuit.reading(b, load), random, { starts: 2 }).value
    found.set(`error-${size}`, plain.share * load - Math.max(high, low))
  }
  return found
}

/** Counts of a full scale that amplifier and filter still miss when the sample is taken, at the worst. */
export function missing({ plain, box }: DividerDesign): number {
  const gain = 1 + box.feedback[1] / box.ground[1]
  const supply = plain.ownSupply ? box.supply[2] : box.rail[2]
  const count = (plain.ownReference ? box.converterReference[0] : box.rail[0]) / 2 ** plain.bits
  return Math.abs(unsettled(plain, gain, supply, 0)) / count
}

/** The chain at nominal parts and the middle of the conditions, by the symbols under which the check tells its values. */
export function chainOf(design: DividerDesign): Record<'I_t' | 'V_want' | 'code_c' | 'R_ind', number> {
  const b = nominalOf(design.box)
  const seen = new DividerCircuit(design).read(b, {
    load: design.plain.middle,
    rail: b.rail,
    warmth: b.warmth,
    inUse: true,
    inputNoise: 0,
    counts: 0,
  })
  return { I_t: seen.current, V_want: seen.wanted, code_c: seen.code, R_ind: seen.shown }
}
